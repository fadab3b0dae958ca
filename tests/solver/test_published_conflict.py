"""A published diet that becomes infeasible when dairy is capped: the conflict names the cap, and the ways out hold.

Source: Gurobi Optimization, example 'diet', nine foods, with at most 6 servings of milk and ice cream (quoted; that it
is infeasible is computed by two other solvers), as in `published/programmes/answers.toml`. The table's answers without
the cap, and where the cap would have to be, are computed here from the same table by scipy.
"""

import csv
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import linprog

from solver.backends import open_backend
from solver.brief import Brief
from solver.changes import Moved, smallest_changes
from solver.deadline import Deadline
from solver.outcome import Checked, Conflict, MemberKind, Plan
from solver.practical import Eligible
from solver.rules import Group, Rule
from solver.solve import solve
from solver.ways_out import ways_out
from tests.solver.backends.published_programmes import PUBLISHED, published
from tests.solver.kept import kept
from tests.solver.worths import batch, cheapest, planned, priced

BACKENDS = ("highs", "scipy-highs", "pulp-cbc")

NUTRIENTS = ("energy_kcal", "protein_g", "fat_g", "sodium_mg")

#: Servings, each of which is this many grams here, so that no food holds more than it weighs.
SERVING_G = 1000.0

DAIRY = Group(frozenset({"milk", "ice cream"}))


def table() -> list[dict[str, str]]:
    with (PUBLISHED / "programmes" / "nine_foods_little_dairy.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def nine_foods(most_dairy: float | None) -> Brief:
    """The diet; most_dairy: servings, None without a cap."""
    *foods, least, most = table()
    part = 100 / SERVING_G
    items = [
        priced(
            row["column"],
            float(row["cost"]) * part,
            **{of: float(row[of]) * part for of in NUTRIENTS},
        )
        for row in foods
    ]
    bands = {of: (float(least[of] or 0) or None, float(most[of]) if most[of] else None) for of in NUTRIENTS}
    asked = cheapest(*items, targets=tuple(batch(of, *ends) for of, ends in bands.items()))
    return asked if most_dairy is None else replace(asked, rules=(Rule("dairy", DAIRY, upper=most_dairy * SERVING_G),))


def least_dairy() -> float:
    """Fewest servings of dairy of any diet, by scipy from the table alone."""
    *foods, least, most = table()
    figures = np.array([[float(row[of]) for row in foods] for of in NUTRIENTS])
    low = [float(least[of] or 0) for of in NUTRIENTS]
    high = np.array([float(most[of] or "inf") for of in NUTRIENTS])
    closed = np.isfinite(high)
    rows = np.vstack([-figures, figures[closed]])
    answer = linprog(
        [float(row["dairy_servings"] or 0) for row in foods],
        A_ub=rows,
        b_ub=np.concatenate([-np.array(low), high[closed]]),
        method="highs",
    )
    assert answer.status == 0
    assert answer.fun is not None
    return float(answer.fun)


def conflict(backend: str = "highs") -> Conflict:
    outcome = solve(nine_foods(6.0), open_backend(backend))
    assert isinstance(outcome, Conflict), outcome
    return outcome


@pytest.mark.parametrize("backend", BACKENDS)
def test_without_the_cap_it_is_the_published_diet(backend: str) -> None:
    plan = planned(nine_foods(None), backend)
    servings = {each.item.name: each.grams / SERVING_G for each in plan.dish.quantities}
    diet = published("nine_foods")
    assert set(servings) == set(diet.quantities)
    for name, figure in diet.quantities.items():
        # Printed are tenths of a gram, a few of which the bands leave for rounding.
        assert servings[name] == pytest.approx(figure.value, abs=2 / SERVING_G), name
    (level,) = plan.proof.levels
    assert diet.objective is not None
    assert level.bound is not None
    assert diet.objective.agrees_with(level.bound)


@pytest.mark.parametrize("backend", BACKENDS)
def test_with_dairy_capped_at_six_servings_the_conflict_names_the_cap(backend: str) -> None:
    # By hand from the table: 6 servings of dairy bring 48 g of protein at most, with 750 mg of sodium at least; the
    # other 43 g come with 730 mg for 24 g at least, the hamburger's, so with 1308 mg: 2058 mg, of 1779. Energy and fat
    # play no part.
    found = conflict(backend)
    assert {(member.kind, member.name) for member in found.members} == {
        (MemberKind.RULE, "dairy"),
        (MemberKind.TARGET, "protein_g"),
        (MemberKind.TARGET, "sodium_mg"),
    }
    assert found.irreducible
    assert found.others == ()
    assert found.checked is Checked.CERTIFICATE
    assert isinstance(solve(kept(found.brief, found.members), open_backend(backend)), Conflict)
    for dropped in found.members:
        rest = tuple(each for each in found.members if each != dropped)
        assert isinstance(solve(kept(found.brief, rest), open_backend(backend)), Plan), dropped


@pytest.mark.parametrize("backend", BACKENDS)
def test_the_fewest_servings_that_will_do_are_those_of_the_published_diet(backend: str) -> None:
    # The published diet eats no more dairy than it must: 6.970139 of milk and 2.591319 of ice cream.
    diet = published("nine_foods").quantities
    assert least_dairy() == pytest.approx(diet["milk"].value + diet["ice cream"].value, abs=1e-6)
    changes = smallest_changes(conflict(backend), open_backend(backend), Deadline.after(10))
    (cap,) = (change for change in changes if change.member.name == "dairy")
    assert cap.moved is Moved.AT_MOST
    assert cap.limit == pytest.approx(least_dairy() * SERVING_G, rel=1e-9)
    assert cap.to == 9561.5  # the next tenth of a gram


def test_every_way_out_leads_to_a_plan_that_another_backend_finds_too() -> None:
    ways = ways_out(conflict(), Eligible((), lambda _: True), open_backend("highs"), Deadline.after(10))
    assert {change.member.name for change in ways.changes} == {"dairy", "protein_g", "sodium_mg"}
    for change in ways.changes:
        assert change.plan.dish.missed == ()
        for backend in BACKENDS[1:]:
            assert isinstance(solve(change.plan.brief, open_backend(backend)), Plan), change.member.name
