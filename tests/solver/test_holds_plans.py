"""Plans that hold against compositions: sampled ones, those at every corner, and other backends."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest

from solver.backends import open_backend
from solver.brief import Brief
from solver.holds import Holds
from solver.holds_ends import ends
from solver.nutrients import COLUMN
from solver.outcome import Conflict, Dish, Plan
from solver.solve import solve
from solver.verify import dish_of
from tests.solver.holding import HOLDS, MOVING, MUSTS, cooked, planned, vertices, with_values
from tests.solver.larder import between, brief


def sampled(dish: Dish, asked: Brief, holds: Holds, many: int) -> Iterator[Dish]:
    """The printed amounts with compositions from all over the box, half of them at its vertices."""
    rng = np.random.default_rng(7)
    places = [COLUMN[name] for name in MOVING]
    for number in range(many):
        moved = []
        for quantity in dish.quantities:
            least, most = ends(quantity.item.food, holds)
            part = rng.random(len(places)) if number % 2 else rng.integers(0, 2, len(places))
            values = tuple(least[places] + part * (most - least)[places])
            moved.append(replace(quantity, item=replace(quantity.item, food=with_values(quantity.item.food, values))))
        yield dish_of(moved, replace(asked, holds=None), frozenset(), {})


@pytest.mark.parametrize("holds", HOLDS)
def test_ten_thousand_compositions_break_no_target(holds: Holds) -> None:
    asked = replace(brief(targets=MUSTS), holds=holds)
    dish = planned(asked).dish
    worst = {each.target.id: each.worst for each in dish.targets}
    for moved in sampled(dish, asked, holds, 10_000):
        for each in moved.targets:
            end = worst[each.target.id]
            assert each.met
            assert each.value is not None
            assert end is not None
            assert end.highest is not None
            assert end.lowest - 1e-9 <= each.value <= end.highest + 1e-9


def test_a_budget_asks_for_less_than_all_and_its_plan_holds_for_every_choice() -> None:
    narrow = (between("energy_kcal", 560.0, 660.0), *MUSTS[1:])
    of_one = replace(HOLDS[0], most_off=1)
    assert isinstance(solve(replace(brief(targets=narrow), holds=HOLDS[0]), open_backend("highs")), Conflict)
    asked = replace(brief(targets=narrow), holds=of_one)
    dish = planned(asked).dish
    for place, quantity in enumerate(dish.quantities):
        for corner in vertices(quantity.item.food, HOLDS[0]):
            moved = list(dish.quantities)
            moved[place] = replace(quantity, item=replace(quantity.item, food=corner))
            assert not dish_of(moved, replace(asked, holds=None), frozenset(), {}).missed


def test_a_plan_of_a_mix_that_holds_for_cooking_too_says_so_at_its_worst() -> None:
    asked = replace(cooked(), holds=replace(HOLDS[0], cooking=True, scale=0.5))
    plan, less = planned(asked), planned(replace(asked, holds=replace(HOLDS[0], scale=0.5)))
    (energy, same) = (each.dish.targets[0] for each in (plan, less))
    assert energy.worst is not None
    assert same.worst is not None
    assert energy.met
    assert dish_of(plan.dish.quantities, asked, frozenset(), {}).targets[0].worst == energy.worst
    without = dish_of(plan.dish.quantities, replace(asked, holds=less.brief.holds), frozenset(), {}).targets[0].worst
    assert without is not None
    assert energy.worst.lowest < without.lowest


def test_a_thousand_compositions_of_a_mix_break_no_target() -> None:
    asked = replace(cooked(), holds=HOLDS[0])
    for moved in sampled(planned(asked).dish, asked, HOLDS[0], 1000):
        assert not moved.missed


def test_a_plan_that_holds_as_stated_breaks_at_its_worst() -> None:
    """Else the tests above would not show anything."""
    narrow = (between("energy_kcal", 500.0, 700.0), between("protein_g", 25.0, 26.0))
    dish = planned(brief(targets=narrow)).dish
    assert any(moved.missed for moved in sampled(dish, brief(targets=narrow), HOLDS[0], 100))


@pytest.mark.parametrize("referee", ["scipy-highs", "pulp-cbc"])
def test_other_backends_agree_that_it_holds_and_that_it_does_not(referee: str) -> None:
    narrow = (between("energy_kcal", 570.0, 630.0), *MUSTS[1:])
    for targets, expected in ((MUSTS, Plan), (narrow, Conflict)):
        asked = replace(brief(targets=targets), holds=HOLDS[0])
        assert isinstance(solve(asked, open_backend("highs")), expected)
        assert isinstance(solve(asked, open_backend(referee)), expected)
