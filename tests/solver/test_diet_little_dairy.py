"""The textbook diet of nine foods that becomes impossible when dairy is capped: the reason, and a way out.

Source: the example `diet` of an optimiser's documentation, and its step that allows six servings of milk and ice cream
together (`nine_foods` and `nine_foods_little_dairy` in `tests/published/programmes/answers.toml`).
"""

import csv
from dataclasses import replace

import pytest

from solver.backends import open_backend
from solver.brief import Brief
from solver.deadline import Deadline
from solver.outcome import Conflict, MemberKind, Plan
from solver.practical import Eligible
from solver.rules import Group, Rule
from solver.solve import solve
from solver.ways_out import ways_out
from tests.solver.backends.published_programmes import PUBLISHED, published
from tests.solver.kept import kept
from tests.solver.worths import batch, cheapest, priced

NUTRIENTS = ("energy_kcal", "protein_g", "fat_g", "sodium_mg")

#: A serving, g. Each food is a tenth of what the table has in ten times the weight, so that 100 g can hold it.
SERVING_G = 1000.0

BACKENDS = ("highs", "scipy-highs", "pulp-cbc")


def diet() -> Brief:
    """One serving is a kilogram, so that no food holds more than it weighs."""
    with (PUBLISHED / "programmes" / "nine_foods_little_dairy.csv").open(encoding="utf-8", newline="") as file:
        *foods, least, most = list(csv.DictReader(file))
    part = 100.0 / SERVING_G
    items = [
        priced(row["column"], float(row["cost"]) * part, **{of: float(row[of]) * part for of in NUTRIENTS})
        for row in foods
    ]
    targets = [batch(of, float(least[of]), float(most[of]) if most[of] else None) for of in NUTRIENTS]
    return cheapest(*items, targets=tuple(targets))


def capped() -> Brief:
    dairy = Group(frozenset({"milk", "ice cream"}))
    return replace(diet(), rules=(Rule("dairy", dairy, upper=6 * SERVING_G),))


@pytest.mark.parametrize("backend", BACKENDS)
def test_without_the_cap_the_diet_costs_what_was_published(backend: str) -> None:
    plan = solve(diet(), open_backend(backend))
    assert isinstance(plan, Plan)
    objective = published("nine_foods").objective
    assert objective is not None
    assert objective.agrees_with(plan.proof.levels[0].bound or 0.0)


@pytest.mark.parametrize("backend", BACKENDS)
def test_with_the_cap_there_is_no_diet_and_the_cap_is_among_the_reasons(backend: str) -> None:
    found = solve(capped(), open_backend(backend))
    assert isinstance(found, Conflict)
    assert (MemberKind.RULE, "dairy") in {(member.kind, member.name) for member in found.members}
    assert found.irreducible
    for member in found.members:
        rest = tuple(other for other in found.members if other != member)
        assert isinstance(solve(kept(capped(), rest), open_backend(backend)), Plan), member


def test_the_way_out_lifts_the_cap_as_little_as_can_be() -> None:
    highs = open_backend("highs")
    found = solve(capped(), highs)
    assert isinstance(found, Conflict)
    changes = ways_out(found, Eligible((), lambda _: True), highs, Deadline.after(10.0)).changes
    lifted = next(change for change in changes if change.member.name == "dairy")
    for grams, possible in ((lifted.limit + 1.0, True), (lifted.limit - 1.0, False)):
        brief = replace(capped(), rules=tuple(replace(rule, upper=grams) for rule in capped().rules))
        assert isinstance(solve(brief, open_backend("pulp-cbc")), Plan) is possible
