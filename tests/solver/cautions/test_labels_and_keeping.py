"""Pumped meat, collagen, keeping times (USDA FSIS: cooked food 3 to 4 days, chilled within 2 hours; from memory)."""

import pytest

from solver.components import Component, Drippings
from tests.solver.cautions.dishes import BEEF, PATTY, SALMON, STEAK, THIGH, made_of, said, table_food
from tests.solver.larder import food

ROASTED = Component("roast", "roasted")
GELATINE = food("Gelatins, dry powder, unsweetened", protein_g=85.6)


@pytest.mark.parametrize(
    "name", ["Chicken, breast, raw, enhanced with water", "pumped pork loin", "Pork, cured, ham, raw", "brined turkey"]
)
def test_pumped_meat_goes_by_its_label(name: str) -> None:
    assert "label" in said(ROASTED, ("joint", food(name), 500))["pumped_meat"].text


def test_plain_meat_and_brined_olives_are_not_pumped() -> None:
    assert "pumped_meat" not in said(ROASTED, ("thigh", THIGH, 500), ("olives", food("brined olives"), 50))


def test_collagen_says_how_much_of_the_protein_it_is() -> None:
    caution = said(ROASTED, ("sirloin", STEAK, 400), ("gelatine", GELATINE, 20))["collagen_protein"]
    assert caution.trigger == "roast: gelatine"
    assert "18 %" in caution.text  # 17.12 of 97.12 g
    assert "20 %" in caution.text
    assert "collagen_protein" not in said(ROASTED, ("sirloin", STEAK, 400))


def test_gelatine_in_a_dish_in_the_dish_is_found() -> None:
    aspic = made_of("brawn", (GELATINE, 5.0, True), (BEEF, 95.0, True))
    assert said(ROASTED, ("brawn", aspic, 100))["collagen_protein"].trigger == (
        "roast: brawn (Gelatins, dry powder, unsweetened)"
    )


def test_what_is_cooked_is_chilled_soon_and_keeps_three_to_four_days() -> None:
    cautions = said(ROASTED, ("salmon", SALMON, 200))
    assert "3 to 4 days" in cautions["keeping_cooked"].text
    assert "2 hours" in cautions["chill_soon"].text
    assert "1 hour" in cautions["chill_soon"].text
    assert "32 °C (90 °F)" in cautions["chill_soon"].text  # 90 F is 32.2 C, so it is not said too late
    assert not {"keeping_cooked", "chill_soon"} & set(said(Component("salad"), ("cucumber", food("cucumber"), 200)))


def test_drippings_that_are_eaten_keep_three_to_four_days() -> None:
    back = Component("patties", "broiled patty", Drippings.SPOONED_BACK, PATTY)
    assert said(back, ("ground beef", BEEF, 900))["keeping_drippings"].trigger == "patties: drippings spooned back"
    poured = Component("patties", "broiled patty", Drippings.DISCARDED, PATTY)
    assert "keeping_drippings" not in said(poured, ("ground beef", BEEF, 900))


def test_a_pot_that_nobody_weighed_evaporates_by_its_own_rule() -> None:
    assert said(Component("stew", "braised"), ("sirloin", STEAK, 900))["evaporation_does_not_scale"].trigger == (
        "stew: braised"
    )
    weighed = Component("stew", "braised", cooked_g=700, finished=True)
    assert "evaporation_does_not_scale" not in said(weighed, ("sirloin", STEAK, 900))
    assert "evaporation_does_not_scale" not in said(ROASTED, ("sirloin", STEAK, 900))


def test_a_food_of_no_kind_has_no_caution_of_labels() -> None:
    assert not {"pumped_meat", "collagen_protein"} & set(said(ROASTED, ("salt", table_food("Salt, table", "x"), 3)))
