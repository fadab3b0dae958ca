"""Form decides the temperature; classes after the foodsafety.gov chart and the FDA Food Code 2022."""

import pytest

from solver.components import Component
from solver.foods import Food
from tests.solver.cautions.dishes import (
    BEEF,
    BUTTER,
    EGG,
    PATTY,
    SALMON,
    STEAK,
    THIGH,
    TURKEY_MINCE,
    made_of,
    said,
    table_food,
)
from tests.solver.larder import food

HAM = table_food("Pork, cured, ham, center slice, country-style, separable lean only, raw", "Pork Products")
COOKED_HAM = table_food("Pork, cured, ham, whole, separable lean only, unheated", "Pork Products")
VENISON = table_food("Game meat, deer, raw", "Lamb, Veal, and Game Products")
BISON = table_food("Game meat, bison, top round, separable lean only, raw", "Lamb, Veal, and Game Products")
LIVER = table_food("Beef, variety meats and by-products, liver, raw", "Beef Products")
SHRIMP = table_food("Crustaceans, shrimp, raw (not previously frozen)", "Finfish and Shellfish Products")
MUSSEL = table_food("Mollusks, mussel, blue, raw", "Finfish and Shellfish Products")
COOKED_BEEF = table_food("Beef, ground, 80% lean meat / 20% fat, patty, cooked, broiled", "Beef Products")
ENHANCED = table_food("Chicken, breast, meat only, raw, enhanced with water", "Poultry Products")
PUMPED_PORK = table_food("Pork, fresh, enhanced, loin, raw", "Pork Products")

ROASTED, PATTIES = Component("roast", "roasted"), Component("patties", "broiled patty", curve=PATTY)


def of_form(form: str | None, method: str | None = "baked") -> Component:
    return Component("pot", method, form=form)


@pytest.mark.parametrize(
    ("component", "contents", "degrees"),
    [
        (PATTIES, [("ground beef", BEEF, 900)], "71.2 °C (160 °F)"),
        (PATTIES, [("ground turkey", TURKEY_MINCE, 900)], "73.9 °C (165 °F)"),
        (PATTIES, [("ground beef", BEEF, 850), ("ground turkey", TURKEY_MINCE, 50)], "73.9 °C (165 °F)"),
        (PATTIES, [("ground beef", BEEF, 600), ("egg", EGG, 50)], "71.2 °C (160 °F)"),
        (PATTIES, [("steak, cut by hand", STEAK, 600)], "71.2 °C (160 °F)"),
        (ROASTED, [("sirloin", STEAK, 900)], "62.8 °C (145 °F)"),
        (ROASTED, [("sirloin", STEAK, 900), ("bison", BISON, 300)], "62.8 °C (145 °F)"),
        (ROASTED, [("sirloin", STEAK, 900), ("ground beef", BEEF, 100)], "71.2 °C (160 °F)"),
        (ROASTED, [("thigh", THIGH, 900)], "73.9 °C (165 °F)"),
        (ROASTED, [("salmon", SALMON, 200)], "62.8 °C (145 °F)"),
        (ROASTED, [("venison", VENISON, 200)], "71.2 °C (160 °F)"),
        (ROASTED, [("liver", LIVER, 200)], "71.2 °C (160 °F)"),
        (ROASTED, [("ham", HAM, 200)], "62.8 °C (145 °F)"),
        (ROASTED, [("ham", COOKED_HAM, 200)], "73.9 °C (165 °F)"),
        (ROASTED, [("patty from yesterday", COOKED_BEEF, 200)], "73.9 °C (165 °F)"),
        (ROASTED, [("pork", PUMPED_PORK, 200)], "71.2 °C (160 °F)"),
        (ROASTED, [("breast", ENHANCED, 200)], "73.9 °C (165 °F)"),
        (of_form(None), [("egg", EGG, 300), ("butter", BUTTER, 30)], "71.2 °C (160 °F)"),
        (of_form(None), [("egg", EGG, 300), ("ground beef", BEEF, 100)], "73.9 °C (165 °F)"),
        (of_form("minced"), [("salmon", SALMON, 200)], "62.8 °C (145 °F)"),
        (of_form("minced"), [("sirloin", STEAK, 200)], "71.2 °C (160 °F)"),
        (of_form("stuffed"), [("sirloin", STEAK, 200)], "73.9 °C (165 °F)"),
        (of_form("rolled"), [("sirloin", STEAK, 200)], "71.2 °C (160 °F)"),
        (of_form("injected"), [("sirloin", STEAK, 200)], "71.2 °C (160 °F)"),
        (of_form("tenderised"), [("sirloin", STEAK, 200)], "71.2 °C (160 °F)"),
        (of_form("casserole"), [("butter", BUTTER, 200)], "73.9 °C (165 °F)"),
        (of_form("reheated", None), [("butter", BUTTER, 200)], "73.9 °C (165 °F)"),
        (of_form("whole cut"), [("sirloin", STEAK, 200)], "62.8 °C (145 °F)"),
        (of_form("whole cut"), [("ground beef", BEEF, 200)], "71.2 °C (160 °F)"),
        (of_form(None), [("farm mince 20 % fat", food("farm mince 20 % fat"), 200)], "71.2 °C (160 °F)"),
        (of_form(None), [("chicken sausages", food("chicken sausages"), 200)], "73.9 °C (165 °F)"),
    ],
)
def test_the_strictest_class_in_a_component_decides(
    component: Component, contents: list[tuple[str, Food, float]], degrees: str
) -> None:
    assert f" {degrees}" in said(component, *contents)["safe_temperature"].text


def test_the_trigger_names_the_component_the_food_and_its_class() -> None:
    assert said(PATTIES, ("ground beef", BEEF, 900))["safe_temperature"].trigger == "patties: ground beef, minced"
    mixed = said(PATTIES, ("ground beef", BEEF, 850), ("ground turkey", TURKEY_MINCE, 50))
    assert mixed["safe_temperature"].trigger == "patties: ground turkey, poultry"


def test_beside_a_step_stands_what_to_reach_and_that_local_codes_come_first() -> None:
    beside = said(ROASTED, ("sirloin", STEAK, 900))["safe_temperature"].beside_a_step
    assert beside == ("The centre of roast has to reach 62.8 °C (145 °F), then rest 3 minutes; local codes come first.")


def test_whole_cuts_rest_three_minutes_and_the_edition_is_named() -> None:
    caution = said(ROASTED, ("sirloin", STEAK, 900))["safe_temperature"]
    assert "rest 3 minutes" in caution.text
    assert "Cook to a Safe Minimum Internal Temperature" in caution.text
    assert "local codes" in caution.text
    assert caution.source == "foodsafety-gov-chart"


def test_a_form_without_a_row_says_what_it_was_treated_as() -> None:
    caution = said(of_form("rolled"), ("sirloin", STEAK, 200))["safe_temperature"]
    assert "no row of its own; treated as minced" in caution.text
    assert caution.source == "form-by-analogy"


def test_a_profile_states_its_own_chart_alone() -> None:
    retail = said(PATTIES, ("ground beef", BEEF, 900), profile="us retail")["safe_temperature"]
    assert "68.4 °C (155 °F), held 17 s" in retail.text
    assert "Food Code" in retail.text
    assert retail.source == "fda-food-code-2022"
    uk = said(PATTIES, ("ground beef", BEEF, 900), profile="uk")["safe_temperature"]
    assert "70 °C (158 °F), held 120 s" in uk.text
    roast = said(ROASTED, ("sirloin", STEAK, 900), profile="us retail")["safe_temperature"]
    assert "62.8 °C (145 °F), held 240 s" in roast.text


@pytest.mark.parametrize(("shellfish", "sign"), [(SHRIMP, "opaque"), (MUSSEL, "shells open")])
def test_shellfish_goes_by_eye(shellfish: Food, sign: str) -> None:
    cautions = said(ROASTED, ("shellfish", shellfish, 200))
    assert "safe_temperature" not in cautions
    assert sign in cautions["done_by_eye"].text
    assert sign in (cautions["done_by_eye"].beside_a_step or "")


def test_shellfish_beside_fish_has_the_temperature_of_fish() -> None:
    assert "145 °F" in said(ROASTED, ("shrimp", SHRIMP, 90), ("salmon", SALMON, 90))["safe_temperature"].text


def test_meat_in_a_dish_in_the_dish_is_found() -> None:
    filling = made_of("filling", (TURKEY_MINCE, 60.0, False), (BUTTER, 40.0, False))
    caution = said(PATTIES, ("ground beef", BEEF, 500), ("filling", filling, 100))["safe_temperature"]
    assert caution.trigger == "patties: filling (Ground turkey, raw), poultry"
    warmed = made_of("ragout", (BEEF, 100.0, True))
    assert said(ROASTED, ("ragout", warmed, 100))["safe_temperature"].trigger.endswith("reheated")


def test_nothing_is_said_of_vegetables_and_fats() -> None:
    kitchen = [("butter", BUTTER, 50.0), ("duck fat", food("duck fat"), 20.0), ("stock", food("chicken stock"), 90.0)]
    assert not {"safe_temperature", "done_by_eye", "raw_animal_food"} & set(said(ROASTED, *kitchen))
