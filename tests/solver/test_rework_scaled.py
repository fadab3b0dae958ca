"""Base dishes for other numbers of portions: by hand, and the same numbers as a breakdown that is scaled."""

from dataclasses import replace

import pytest

from reference_data import reference_folder
from solver.brief import Brief
from solver.closest import Base, BaseAmount
from solver.components import Component, Drippings, Placed
from solver.cook import SPOON_G
from solver.cooking_table import load_cooking_table
from solver.pantry import PantryItem, Step
from solver.rework_base import base_dish, base_quantities
from solver.rework_scaled import with_scaled_base
from solver.rules import Group, Rule
from solver.scaling import TIMES, scaled_dish
from solver.uses import drippings_named
from tests.solver.larder import BREAD, BUTTER, CHICKEN, brief, item, macronutrients

DISH = "the dish"
TWO_SPOONS = Step(2.0, "tbsp", 28.4)
EGG = macronutrients("egg", protein=12, fat=10, carbohydrate=1)
LARGE = Step(1.0, "large", 50.0)


def lunch(portions: int, *rules: Rule) -> Brief:
    """For four: 2 tbsp of butter, 300 g of chicken, 1 egg in steps, 80 g of bread as somebody tasted it."""
    base = Base(
        (
            BaseAmount("butter", DISH, 28.4, TWO_SPOONS),
            BaseAmount("chicken", DISH, 300.0),
            BaseAmount("egg", DISH, 50.0, LARGE),
            BaseAmount("bread", DISH, 80.0, tasted=True),
        ),
        {"lard": "butter"},
    )
    items = (item(BUTTER), item(CHICKEN), PantryItem("egg", EGG, step=LARGE), item(BREAD))
    return replace(brief(*items, portions=portions), base=base, rules=rules)


def scaled(asked: Brief, made: int) -> tuple[Brief, tuple[str, ...]]:
    assert asked.base is not None
    return with_scaled_base(asked, asked.base, made)


def grams(found: Brief) -> dict[str, float]:
    assert found.base is not None
    return {each.item: each.grams for each in found.base.amounts}


def test_four_portions_become_six() -> None:
    """By hand: one and a half of each; 75 g of egg are 1.5 steps, which is nearest to two, half a step rounded up."""
    found, notes = scaled(lunch(6), 4)
    assert grams(found) == {"butter": pytest.approx(42.6), "chicken": 450.0, "egg": 100.0, "bread": 120.0}
    assert found.base is not None
    words = {each.item: each.words for each in found.base.amounts}
    assert words["egg"] == Step(2.0, "large", 100.0)
    assert words["chicken"] is None
    assert {each.item for each in found.base.amounts if each.tasted} == {"bread"}
    assert found.base.stands_in == {"lard": "butter"}
    assert notes == ("egg: 2 large, 100 g, in place of 75 g, as it comes in whole steps.", TIMES)


def test_a_step_is_never_rounded_away() -> None:
    """By hand: a quarter of an egg is nearer to none, and the dish keeps one."""
    found, notes = scaled(lunch(1), 4)
    assert grams(found)["egg"] == 50.0
    assert "egg: 1 large, 50 g, in place of 12.5 g, as it comes in whole steps." in notes


def test_as_many_portions_as_it_made_are_the_same_brief() -> None:
    asked = lunch(4)
    assert scaled(asked, 4) == (asked, ())


def test_it_is_what_a_breakdown_scales_to() -> None:
    """No second path: without steps the amounts are those of `scaled_dish`."""
    asked = lunch(10)
    asked = replace(asked, pantry=tuple(replace(each, step=None) for each in asked.pantry))
    found, notes = scaled(asked, 4)
    assert asked.base is not None
    dish = scaled_dish(
        tuple(base_quantities(asked, asked.base)),
        {},
        replace(asked, portions=4, targets=()),
        10,
        {each.use: each.words for each in asked.base.amounts if each.words is not None},
    )
    assert grams(found) == {each.item.name: each.grams for each in dish.quantities}
    assert set(notes) == set(dish.notes)


def test_a_rule_that_whole_eggs_would_break_has_them_weighed() -> None:
    """By hand: 7 for 4 are 87.5 g of egg to 525 g of chicken, a sixth; two eggs would be 0.19 of it."""
    rule = Rule("egg to chicken", Group(frozenset({"egg"})), to=Group(frozenset({"chicken"})), upper=0.17)
    asked = lunch(7, rule)
    asked = replace(asked, pantry=tuple(replace(each, step=None) for each in asked.pantry))
    kept, free = (scaled(each, 4)[0] for each in (asked, replace(asked, rules=())))
    assert grams(kept)["egg"] == pytest.approx(87.5)
    assert grams(kept)["egg"] / grams(kept)["chicken"] <= 0.17
    assert grams(free)["egg"] == pytest.approx(87.5)


def pan(portions: int) -> Brief:
    """For four, weighed: 400 g of chicken and 200 g of butter in a mix gave 450 g and 90 g of drippings; 3 tsp back."""
    curve = next(
        each for each in load_cooking_table(reference_folder() / "cooking").curves if each.mix == "broiled patty"
    )
    mix = Component(
        "patties", curve.mix, Drippings.SPOONED_BACK, curve, cooked_g=450.0, drippings_g=90.0, finished=True
    )
    placed, side = (Placed("patties"),), (Placed("side"),)
    settled = [
        PantryItem(food.name, food, grams, grams, grams, Step(grams, "g", grams), placed=placed)
        for food, grams in ((CHICKEN, 400.0), (BUTTER, 200.0))
    ]
    base = Base(
        (
            BaseAmount("chicken", "patties", 400.0, Step(400.0, "g", 400.0)),
            BaseAmount("butter", "patties", 200.0, Step(200.0, "g", 200.0)),
            BaseAmount("bread", "side", 40.0),
            BaseAmount(drippings_named("patties"), "patties", 3 * SPOON_G),
        )
    )
    asked = brief(*settled, replace(item(BREAD), placed=side), portions=portions)
    return replace(asked, components=(mix, Component("side")), base=base)


def test_a_weighed_pan_loses_as_much_steam_and_what_is_in_already_is_scaled() -> None:
    """By hand: 600 - 450 - 90 = 60 g of steam; 1.5 times: 900 - 135 - 60 = 705 g; three teaspoons become five."""
    asked = pan(6)
    found, notes = scaled(asked, 4)
    part = found.components[0]
    assert [part.drippings_g, part.cooked_g] == pytest.approx([135.0, 705.0])
    assert [(each.at_least_g, each.at_most_g) for each in found.pantry[:2]] == [(600.0, 600.0), (300.0, 300.0)]
    assert found.pantry[2].at_most_g is None
    assert grams(found)[drippings_named("patties")] == pytest.approx(5 * SPOON_G)
    assert any("as much evaporates as before, 60 g" in note for note in notes)
    assert found.base is not None
    cooked = base_dish(found, found.base).cooked[0]
    assert cooked.evaporated_g == pytest.approx(60.0)
    assert cooked.spoons == 5
