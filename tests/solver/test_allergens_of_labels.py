"""Allergens of labels, which state them, and of dishes, which have those of their ingredients."""

from collections.abc import Iterable
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference_data import reference_folder
from solver.allergens import Statement, allergens_of, load_allergen_rules
from solver.foods import Food, Ingredient, Made
from solver.nutrients import NUTRIENTS

RULES = load_allergen_rules(reference_folder())
CODES = tuple(RULES.allergens)
GLUTEN = {"wheat", "gluten cereals"}


def contained(food: Food) -> set[str]:
    return {code for code, told in allergens_of(food, RULES).items() if told is Statement.CONTAINS}


def label(name: str, *, contains: Iterable[str] = (), without: Iterable[str] = ()) -> Food:
    values = np.full(len(NUTRIENTS), np.nan)
    return Food("label:x", name, None, values, contains=frozenset(contains), without=frozenset(without))


def dish(*foods: Food) -> Food:
    ingredients = tuple(Ingredient(food, 10.0, cooked=False) for food in foods)
    return replace(label("dish of the house"), id="dish:x", made=Made({}, {}, ingredients))


def test_a_label_is_what_it_states_and_its_name_adds_only_that_it_contains() -> None:
    told = allergens_of(label("butter biscuits", contains=["wheat"], without=["soybeans"]), RULES)
    assert {code for code, each in told.items() if each is Statement.CONTAINS} == {"milk", *GLUTEN}
    assert [code for code, each in told.items() if each is Statement.NOT_BY_NATURE] == ["soybeans"]


def test_a_label_whose_name_and_statement_disagree_is_unknown() -> None:
    assert allergens_of(label("butter", without=["milk"]), RULES)["milk"] is Statement.UNKNOWN
    assert allergens_of(label("butter", contains=["milk"], without=["milk"]), RULES)["milk"] is Statement.CONTAINS


def test_a_label_without_gluten_cereals_is_without_wheat() -> None:
    told = allergens_of(label("crispbread of seeds", without=["gluten cereals"]), RULES)
    assert told["wheat"] is told["gluten cereals"] is Statement.NOT_BY_NATURE


@pytest.mark.parametrize(
    ("name", "contains"),
    [
        ("vegan butter", set()),
        ("Gluten-free bread", set()),
        ("almond milk chocolate", {"milk", "tree nuts"}),
        ("Peanut butter cream", {"milk", "peanuts"}),
        ("farm cheese", {"milk"}),
        ("anchovies in olive oil", {"fish"}),
        ("tuna, light, canned", {"fish"}),
        ("stone ginger beer", set()),
        ("coconut, milk", {"milk"}),
    ],
)
def test_the_name_of_a_label_is_read_as_a_description_is(name: str, contains: set[str]) -> None:
    assert contained(label(name)) == contains


FOODS = st.builds(
    label,
    st.sampled_from(["butter", "minced beef", "vegan cheese", "bread", "relish"]),
    contains=st.sets(st.sampled_from(CODES)),
    without=st.sets(st.sampled_from(CODES)),
)


@given(st.lists(FOODS, min_size=1, max_size=5))
def test_a_dish_contains_what_any_ingredient_contains_and_is_without_what_all_are(foods: list[Food]) -> None:
    told, each = allergens_of(dish(*foods), RULES), [allergens_of(food, RULES) for food in foods]
    for code in CODES:
        of = {statements[code] for statements in each}
        assert (told[code] is Statement.CONTAINS) == (Statement.CONTAINS in of)
        assert (told[code] is Statement.NOT_BY_NATURE) == (of == {Statement.NOT_BY_NATURE})


def test_a_dish_of_nothing_known_is_unknown() -> None:
    assert set(allergens_of(dish(), RULES).values()) == {Statement.UNKNOWN}
