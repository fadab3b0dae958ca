"""Kinds of foods, and what is raw or pumped."""

import pytest

from solver.cooking_kinds import FAMILY, is_pumped, is_raw, kind_of


@pytest.mark.parametrize(
    ("name", "group", "kind"),
    [
        ("Beef, ground, 80% lean meat / 20% fat, raw", "Beef Products", "mince"),
        ("Beef, chuck, separable lean and fat, raw", "Beef Products", "beef, lean and fat"),
        ("Pork, fresh, loin, separable lean only, raw", "Pork Products", "pork, lean only"),
        ("Pork, cured, bacon, unprepared", "Pork Products", "bacon"),
        ("Turkey, retail parts, breast, meat and skin, raw", "Poultry Products", "poultry, meat and skin"),
        ("Chicken, liver, all classes, raw", "Poultry Products", "offal"),
        ("Fish, salmon, coho, wild, raw", "Finfish and Shellfish Products", "fish"),
        ("Crustaceans, crab, blue, raw", "Finfish and Shellfish Products", "shellfish"),
        ("Game meat, elk, raw", "Lamb, Veal, and Game Products", "game"),
        ("Egg, whole, raw, fresh", "Dairy and Egg Products", "egg"),
        ("Cheese, cheddar", "Dairy and Egg Products", None),
        ("Carrots, raw", "Vegetables and Vegetable Products", None),
        ("anything", None, None),
    ],
)
def test_a_food_has_the_kind_of_its_group_and_words(name: str, group: str | None, kind: str | None) -> None:
    assert kind_of(name, group) == kind


def test_raw_is_a_part_of_the_name_not_a_letter_in_it() -> None:
    assert is_raw("Egg, whole, raw, fresh")
    assert is_raw("Pork, cured, bacon, unprepared")
    assert not is_raw("Strawberries, frozen")


def test_bacon_is_cured_but_not_pumped() -> None:
    assert not is_pumped("Pork, cured, bacon, unprepared")
    assert is_pumped("Pork, cured, ham, whole, separable lean only, unheated")
    assert is_pumped("Chicken, breast, meat only, with added solution, raw")


def test_hot_air_is_an_oven() -> None:
    assert FAMILY["hot air"] == FAMILY["roasted"]
