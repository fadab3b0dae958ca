"""Dishes in few words, for the tests of what a dish is as a food."""

from dataclasses import replace

import numpy as np
import pytest

from solver.components import Placed
from solver.dishes import FixedDish, food_of_dish
from solver.errors import Problem, UnusableBrief
from solver.foods import Food
from solver.numerics import FloatArray
from solver.nutrients import COLUMN, NUTRIENTS
from solver.outcome import Quantity
from solver.pantry import PantryItem
from tests.solver.larder import food, macronutrients

WATER = replace(macronutrients("water"), per_100g=np.where(np.arange(len(NUTRIENTS)) == COLUMN["water_g"], 100.0, 0.0))
SALT = food("salt", **{**dict.fromkeys(COLUMN, 0.0), "sodium_mg": 38758.0})


def of(what: Food, grams: float, name: str | None = None, placed: Placed | None = None) -> Quantity:
    """So much of a food."""
    item = PantryItem(name or what.name, what)
    return Quantity(item, grams, None) if placed is None else Quantity(item, grams, None, placed)


def made(*quantities: Quantity, yield_g: float | None = None, **fields: object) -> Food:
    """The dish of these as a food."""
    return food_of_dish(FixedDish("dish", quantities, yield_g=yield_g, **fields), {})  # type: ignore[arg-type]


def refused(*quantities: Quantity, yield_g: float | None = None, **fields: object) -> Problem:
    """The one problem that the dish is refused for."""
    with pytest.raises(UnusableBrief) as error:
        made(*quantities, yield_g=yield_g, **fields)
    (problem,) = error.value.problems
    assert problem.detail.endswith(".")
    assert problem.remedy.endswith(".")
    return problem


def with_values(of_food: Food, **values: float) -> FloatArray:
    """The values of a food in 100 g, some of them changed."""
    row = of_food.per_100g.copy()
    for nutrient, value in values.items():
        row[COLUMN[nutrient]] = value
    return row


def weight(dish: Food, name: str, grams: float) -> float:
    """What a dish weighs, of which so much of an ingredient is known to have gone in and stayed."""
    assert dish.made is not None
    (part,) = (part for part in dish.made.ingredients if part.food.name == name)
    return 100 * grams / part.grams
