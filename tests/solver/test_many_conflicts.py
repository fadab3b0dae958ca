"""Three hundred random conflicts from two food tables: what each names is irreducible, and each way out is one.

USDA National Nutrient Database for Standard Reference, release 28, and the Indian Food Composition Tables 2017. What
HiGHS finds is confirmed by HiGHS of another release through scipy, which solves every changed brief anew.
"""

from collections.abc import Callable, Iterator
from itertools import islice
from typing import cast

import pytest

from reference_data import reference_folder
from solver.backends import open_backend
from solver.catalogue import Catalogue
from solver.deadline import Deadline
from solver.foods import Food
from solver.outcome import Conflict, Plan
from solver.practical import Eligible, load_practical, practical_foods
from solver.solve import solve
from solver.ways_out import ways_out
from tests.service.ifct import Row, ifct_rows
from tests.solver import larder
from tests.solver.kept import kept
from tests.solver.random_briefs import random_brief

#: Conflicts in each of so many parts, so that a failure names its part.
PARTS, IN_EACH = 10, 30

#: Parts whose briefs are made of the Indian table.
INDIAN = frozenset({7, 8, 9})

#: Patience, seconds: far more than the half second that a service gives them.
PATIENCE_S = 10.0


class IndianTable:
    """The Indian table as far as random briefs look at a table."""

    def __init__(self, rows: list[Row]) -> None:
        self._foods = {row.code: _food(row) for row in rows if row.protein_g is not None}
        self.ids = tuple(self._foods)

    def __len__(self) -> int:
        return len(self.ids)

    def food(self, food_id: str) -> Food:
        return self._foods[food_id]


def _food(row: Row) -> Food:
    """Its carbohydrate is the available one; the total is that and the fibre."""
    assert row.protein_g is not None
    carbohydrate, fibre = row.carbohydrate_g or 0.0, row.fibre_g or 0.0
    return larder.food(
        f"{row.name} {row.code}",
        protein_g=row.protein_g,
        fat_g=row.fat_g or 0.0,
        available_carbohydrate_g=carbohydrate,
        total_carbohydrate_g=carbohydrate + fibre,
        fibre_g=fibre,
        alcohol_g=0.0,
        sodium_mg=row.sodium_mg or 0.0,
        energy_kcal=(row.energy_kj or 0.0) / 4.184,
    )


@pytest.fixture(scope="module")
def conflicts_of(catalogue: Catalogue) -> Callable[[int], Iterator[Conflict]]:
    """From a part to its conflicts."""
    indian = cast(Catalogue, IndianTable(ifct_rows()))

    def of(part: int) -> Iterator[Conflict]:
        highs, table = open_backend("highs"), indian if part in INDIAN else catalogue
        seeds = range(10_000 * (part + 1) + 3, 10_000 * (part + 2), 4)  # every fourth asks for the unlikely
        outcomes = (solve(random_brief(table, seed, stepped=part % 2 == 1), highs) for seed in seeds)
        return islice((each for each in outcomes if isinstance(each, Conflict)), IN_EACH)

    return of


@pytest.mark.parametrize("part", range(PARTS))
def test_what_is_named_has_no_plan_and_without_any_one_of_it_there_is_one(
    conflicts_of: Callable[[int], Iterator[Conflict]], part: int
) -> None:
    scipy, counted = open_backend("scipy-highs"), 0
    for found in conflicts_of(part):
        assert found.irreducible, found.brief.title
        assert isinstance(solve(kept(found.brief, found.members), scipy), Conflict), found.brief.title
        for member in found.members:
            rest = tuple(other for other in found.members if other != member)
            assert isinstance(solve(kept(found.brief, rest), scipy), Plan), (found.brief.title, member)
        counted += 1
    assert counted == IN_EACH


@pytest.mark.parametrize("part", range(PARTS))
def test_each_way_out_is_confirmed_and_nineteen_in_twenty_conflicts_have_one(
    conflicts_of: Callable[[int], Iterator[Conflict]], catalogue: Catalogue, part: int
) -> None:
    """All 300 had one when this was written."""
    highs, scipy = open_backend("highs"), open_backend("scipy-highs")
    foods = practical_foods(catalogue, load_practical(reference_folder() / "additions.csv"))
    eligible, led_out = Eligible(foods, lambda _: True), 0
    for found in conflicts_of(part):
        ways = ways_out(found, eligible, highs, Deadline.after(PATIENCE_S))
        plans = [*(each.plan for each in ways.changes), *(each.plan for each in ways.additions)]
        plans += [] if ways.together is None else [ways.together.plan]
        for plan in plans:
            assert isinstance(solve(plan.brief, scipy), Plan), found.brief.title
        led_out += bool(plans)
    assert led_out >= 0.95 * IN_EACH
