"""Uses: which items go where, in which order, and the spoons of drippings after them."""

from dataclasses import replace

import pytest

from solver.components import Drippings
from solver.cook import SPOON_G
from solver.uses import uses_of
from tests.solver.larder import BUTTER, CHICKEN, PATTIES, ROAST, TABLE, into, item

SPOONED = replace(PATTIES, drippings=Drippings.SPOONED_BACK)


def test_an_item_is_a_use_in_every_component_that_it_may_go_into_whatever_order_they_are_named_in() -> None:
    for places in ((PATTIES, TABLE), (TABLE, PATTIES)):
        uses = uses_of([into(item(BUTTER), *places), into(item(CHICKEN), PATTIES)], [PATTIES, TABLE])
        named = [(use.item.name, use.component.name, use.number) for use in uses]
        assert named == [("butter", TABLE.name, 0), ("butter", "patties", 0), ("chicken", "patties", 1)]


def test_drippings_that_are_spooned_back_are_a_use_in_teaspoons_that_costs_nothing() -> None:
    *_, spoon = uses_of([into(item(CHICKEN), SPOONED)], [SPOONED])
    assert spoon.is_spoon
    assert spoon.item.name == "drippings of patties"
    assert spoon.item.step is not None
    assert (spoon.item.step.amount, spoon.item.step.unit, spoon.item.step.grams) == (1, "tsp", SPOON_G)
    assert spoon.item.price_per_g == 0


def test_a_teaspoon_of_fat_is_a_third_of_a_tablespoon() -> None:
    # USDA SR28, 04001 and 04002: a tablespoon of tallow or lard is 12.8 g.
    assert pytest.approx(12.8) == 3 * SPOON_G


@pytest.mark.parametrize("drippings", [Drippings.DISCARDED, Drippings.SERVED])
def test_other_drippings_are_no_use(drippings: Drippings) -> None:
    component = replace(PATTIES, drippings=drippings)
    assert not any(use.is_spoon for use in uses_of([into(item(CHICKEN), component)], [component]))


def test_a_component_that_nothing_may_go_into_has_no_spoon() -> None:
    empty = replace(ROAST, drippings=Drippings.SPOONED_BACK)
    assert len(uses_of([into(item(CHICKEN), TABLE)], [empty, TABLE])) == 1


def test_what_is_not_cooked_has_no_spoon() -> None:
    table = replace(TABLE, drippings=Drippings.SPOONED_BACK)
    assert len(uses_of([into(item(CHICKEN), table)], [table])) == 1
