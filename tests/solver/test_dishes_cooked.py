"""A dish that was cooked has the numbers that a plan of it would state."""

from dataclasses import replace

import pytest

from reference_data import reference_folder
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.components import Component, Drippings, Placed
from solver.cook import SPOON_G
from solver.cooking_table import load_cooking_table
from solver.dishes import FixedDish, food_of_dish
from solver.errors import UnusableBrief
from solver.tally import tally
from tests.solver.dish_making import of


@pytest.fixture(scope="module")
def patties(catalogue: Catalogue) -> FixedDish:
    """600 g of 80/20 mince, broiled as patties."""
    table = load_cooking_table(reference_folder() / "cooking")
    curve = next(curve for curve in table.curves if curve.mix == "broiled patty")
    component = Component("patties", "broiled patty", Drippings.DISCARDED, curve)
    mince = of(catalogue.food("sr28:23572"), 600.0, "mince", Placed("patties"))
    return FixedDish("patties", (mince,), (component,))


def test_what_is_cooked_has_kept_fat_only(patties: FixedDish) -> None:
    cooked = food_of_dish(patties, {})
    # USDA SR28 23573, ground beef 80/20, patty, cooked, broiled: 17.82 g fat in 100 g; here by the fitted curve.
    assert cooked.value("fat_g") == pytest.approx(17.8, abs=1.0)
    assert cooked.made is not None
    (mince,) = cooked.made.ingredients
    assert (mince.food.id, mince.cooked) == ("sr28:23572", True)


@pytest.mark.parametrize("drippings", list(Drippings))
def test_a_cooked_dish_has_the_numbers_that_a_plan_would_state(patties: FixedDish, drippings: Drippings) -> None:
    component = replace(patties.components[0], drippings=drippings)
    dish = replace(patties, components=(component,), spoons={"patties": 5})
    cooked = food_of_dish(dish, {})
    brief = Brief("patties", 1, (), (), components=(component,))
    sums = tally(dish.quantities, brief, dish.spoons).batch
    for nutrient, total in sums.values.items():
        if nutrient in sums.lacking:
            assert cooked.is_missing(nutrient)
        else:
            assert cooked.value(nutrient) * sums.grams / 100 == pytest.approx(total, rel=1e-9), nutrient
    assert cooked.made is not None
    assert cooked.made.kcal["general"].sum() * sums.grams / 100 == pytest.approx(sums.energy_kcal)
    assert cooked.made.kj["general"].sum() * sums.grams / 100 == pytest.approx(sums.energy_kj)


def test_what_was_weighed_outranks_the_table(patties: FixedDish) -> None:
    weighed = replace(patties.components[0], cooked_g=400.0, drippings_g=60.0, finished=True)
    cooked = food_of_dish(replace(patties, components=(weighed,)), {})
    assert cooked.value("fat_g") * 4 == pytest.approx(6 * 20 - 60)
    assert any("measured" in remark for remark in cooked.remarks)


def test_no_more_can_be_spooned_back_than_ran_out(patties: FixedDish) -> None:
    component = replace(patties.components[0], drippings=Drippings.SPOONED_BACK, drippings_g=10.0, finished=True)
    dish = replace(patties, components=(component,), spoons={"patties": 3})
    assert 3 * SPOON_G > 10
    with pytest.raises(UnusableBrief) as error:
        food_of_dish(dish, {})
    assert [problem.code for problem in error.value.problems] == ["spoons_exceed_drippings"]


def test_weights_of_a_component_that_cannot_be_are_refused(patties: FixedDish) -> None:
    component = replace(patties.components[0], cooked_g=700.0, finished=True)
    with pytest.raises(UnusableBrief) as error:
        food_of_dish(replace(patties, components=(component,)), {})
    found = [(problem.pointer, problem.code) for problem in error.value.problems]
    assert found == [("/components/0/cooked_weight", "heavier_than_raw")]
