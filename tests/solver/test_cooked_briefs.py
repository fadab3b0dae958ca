"""Whole cooked briefs over USDA SR28, against worked numbers and against each other.

The rough answers to the mince briefs are worked by hand from the raw and cooked rows of USDA SR28 (seen).
"""

from dataclasses import replace

import pytest

from reference_data import reference_folder
from solver.backends import open_backend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.components import Component, Drippings
from solver.cook import SPOON_G
from solver.cooking_table import load_cooking_table
from solver.outcome import Conflict, Dish, Plan
from solver.pantry import PantryItem, Step
from solver.solve import solve
from solver.targets import Target, WeightBasis
from tests.solver.larder import TABLE, between, into, kitchen

THIRTY, TWENTY, TALLOW, BUTTER = "sr28:13498", "sr28:23572", "sr28:04001", "sr28:01001"

ENERGY = between("energy_kcal", 300.0, 900.0)


def patties(drippings: Drippings) -> Component:
    curves = load_cooking_table(reference_folder() / "cooking").curves
    return Component("patties", "broiled patty", drippings, next(c for c in curves if c.mix == "broiled patty"))


def mince(catalogue: Catalogue, food_id: str, grams: float, component: Component) -> PantryItem:
    return into(PantryItem("mince", catalogue.food(food_id), grams, grams, grams), component)


def fat(catalogue: Catalogue, food_id: str, *places: Component) -> PantryItem:
    return into(PantryItem("fat", catalogue.food(food_id), 250.0, step=Step(1, "tsp", SPOON_G)), *places)


def plan(brief: Brief) -> Dish:
    outcome = solve(brief, open_backend("highs"))
    assert isinstance(outcome, Plan), outcome
    return outcome.dish


def share(lower: float, upper: float) -> Target:
    return between("fat_share_percent", lower, upper)


def test_of_fat_mince_that_is_short_of_fat_on_the_plate_the_drippings_are_spooned_back(catalogue: Catalogue) -> None:
    # 900 g of 30 % mince, four patties, 75 %: the board says 82 %, the plate 62 %; about 77 of 175 g come back.
    component = patties(Drippings.SPOONED_BACK)
    asked = kitchen(mince(catalogue, THIRTY, 900.0, component), targets=(share(74, 76), ENERGY), parts=(component,))
    dish = plan(replace(asked, portions=4))
    (cooked,) = dish.cooked
    assert cooked.rendered_g == pytest.approx(175, abs=5)
    assert cooked.returned_g == pytest.approx(77, abs=8)
    assert dish.portion.values["protein_g"] == pytest.approx(32, abs=1)
    assert dish.portion.values["fat_g"] == pytest.approx(43, abs=2)
    assert dish.portion.energy_kcal == pytest.approx(517, abs=20)
    on_board = 900 * (dish.raw.values["fat_g"] or 0.0) / dish.raw.energy_kcal
    assert on_board == pytest.approx(82, abs=1)


def test_where_the_drippings_are_not_enough_a_spoon_of_butter_is(catalogue: Catalogue) -> None:
    # 600 g of 80/20 at 72 %: about 47 g render, of which a spoon finds 38 g; it takes a tablespoon of butter as well.
    component = patties(Drippings.SPOONED_BACK)
    items = (mince(catalogue, TWENTY, 600.0, component), replace(fat(catalogue, BUTTER, TABLE), on_hand_g=15.0))
    dish = plan(replace(kitchen(*items, targets=(share(71, 73), ENERGY), parts=(component, TABLE)), portions=4))
    assert dish.cooked[0].rendered_g == pytest.approx(47, abs=3)
    assert dish.cooked[0].returned_g == pytest.approx(38, abs=SPOON_G)
    butter = next(quantity for quantity in dish.quantities if quantity.item.name == "fat")
    assert butter.steps in {2, 3}


@pytest.mark.parametrize("drippings", [Drippings.DISCARDED, Drippings.SPOONED_BACK])
def test_tallow_that_may_go_into_the_patties_and_to_the_table_goes_to_the_table(
    catalogue: Catalogue, drippings: Drippings
) -> None:
    component = patties(drippings)
    items = (mince(catalogue, THIRTY, 900.0, component), fat(catalogue, TALLOW, component, TABLE))
    brief = replace(kitchen(*items, targets=(share(74, 76), ENERGY), parts=(component, TABLE)), portions=4)
    dish = plan(brief)
    assert [q.placed.component for q in dish.quantities if q.item.name == "fat"] in ([TABLE.name], [])
    eaten = sum(q.grams for q in dish.quantities if q.item.name == "fat") + dish.cooked[0].returned_g
    assert eaten == pytest.approx(77, abs=8)


def test_in_the_patties_alone_tallow_cannot_do_it(catalogue: Catalogue) -> None:
    component = patties(Drippings.DISCARDED)
    items = (mince(catalogue, THIRTY, 900.0, component), fat(catalogue, TALLOW, component))
    brief = replace(kitchen(*items, targets=(share(74, 76), ENERGY), parts=(component, TABLE)), portions=4)
    assert isinstance(solve(brief, open_backend("highs")), Conflict)


def test_a_share_that_is_met_on_the_board_is_missed_on_the_plate(catalogue: Catalogue) -> None:
    component = patties(Drippings.DISCARDED)
    raw = replace(share(81, 84), basis=WeightBasis.RAW)
    item = mince(catalogue, THIRTY, 900.0, component)
    (result,) = plan(kitchen(item, targets=(raw,), parts=(component,))).targets
    # 100 g raw: 14.35 g protein and 30 g fat.
    assert result.value == pytest.approx(100 * 9 * 30 / (9 * 30 + 4 * 14.35))
    outcome = solve(kitchen(item, targets=(share(81, 84),), parts=(component,)), open_backend("highs"))
    assert isinstance(outcome, Conflict)
    assert outcome.nearest is not None
    assert outcome.nearest.targets[0].value == pytest.approx(62, abs=1)


def test_one_brief_may_ask_for_what_goes_in_and_for_what_is_eaten(catalogue: Catalogue) -> None:
    component = patties(Drippings.SPOONED_BACK)
    item = into(PantryItem("mince", catalogue.food(THIRTY), on_hand_g=2000.0), component)
    raw = replace(between("fat_g", 250.0, 260.0), id="raw fat", basis=WeightBasis.RAW)
    dish = plan(kitchen(item, targets=(raw, between("fat_g", 150.0, 170.0)), parts=(component,)))
    assert 250 <= (dish.raw.values["fat_g"] or 0.0) <= 260
    assert 150 <= (dish.batch.values["fat_g"] or 0.0) <= 170


def test_two_more_spoons_of_drippings_when_the_scale_said_more_ran_out(catalogue: Catalogue) -> None:
    component = replace(patties(Drippings.SPOONED_BACK), finished=True, cooked_g=500.0, drippings_g=190.0)
    item = mince(catalogue, THIRTY, 900.0, component)
    brief = replace(kitchen(item, targets=(share(74, 76), ENERGY), parts=(component,)), portions=4)
    (cooked,) = plan(brief).cooked
    assert (cooked.cooked_g, cooked.rendered_g) == (500, 190)
    # 15.3 g more ran out than the curve says, so as much more comes back.
    assert cooked.kept_g + cooked.returned_g == pytest.approx(270 - 174.7 + 77, abs=8)
