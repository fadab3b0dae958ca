"""Invented foods known by a few numbers, and briefs around them, for tests that need no food table."""

import numpy as np

from solver.brief import Brief
from solver.foods import Food
from solver.formulate import Formulation, formulate
from solver.missing import count
from solver.nutrients import COLUMN, NUTRIENTS
from solver.pantry import PantryItem
from solver.targets import Target

#: All that energy and the ratios are counted from, at nothing.
NOTHING = dict.fromkeys(
    ("protein_g", "fat_g", "total_carbohydrate_g", "available_carbohydrate_g", "fibre_g", "alcohol_g"), 0.0
)


def food(name: str, **per_100g: float) -> Food:
    """A food that has only what is given; everything else is missing."""
    values = np.full(len(NUTRIENTS), np.nan)
    for nutrient, amount in per_100g.items():
        values[COLUMN[nutrient]] = amount
    return Food(id=f"invented:{name}", name=name, group=None, per_100g=values)


def macronutrients(name: str, *, protein: float = 0.0, fat: float = 0.0, carbohydrate: float = 0.0) -> Food:
    """A food of protein, fat and available carbohydrate, g in 100 g; without fibre, without alcohol."""
    given = {
        "protein_g": protein,
        "fat_g": fat,
        "total_carbohydrate_g": carbohydrate,
        "available_carbohydrate_g": carbohydrate,
    }
    return food(name, **{**NOTHING, **given})


BUTTER = macronutrients("butter", protein=1, fat=80, carbohydrate=1)
CHICKEN = macronutrients("chicken", protein=30, fat=4)
BREAD = macronutrients("bread", protein=10, fat=2, carbohydrate=50)

PURE = (
    macronutrients("pure protein", protein=100),
    macronutrients("pure fat", fat=100),
    macronutrients("pure carbohydrate", carbohydrate=100),
)


def item(of: Food) -> PantryItem:
    """As much of a food as one likes."""
    return PantryItem(of.name, of)


def pantry(*foods: Food) -> tuple[PantryItem, ...]:
    return tuple(item(of) for of in foods)


def between(of: str, lower: float | None, upper: float | None) -> Target:
    """A must, per portion."""
    return Target(of, of, lower=lower, upper=upper)


ENERGY = between("energy_kcal", 400.0, 600.0)


def brief(*items: PantryItem, targets: tuple[Target, ...] = (ENERGY,), portions: int = 1) -> Brief:
    """A brief of these items, or of butter, chicken and bread."""
    return Brief("invented", portions, items or pantry(BUTTER, CHICKEN, BREAD), targets, time_limit_s=10.0)


def posed(asked: Brief, *, grid: bool = False) -> Formulation:
    return formulate(asked, count(asked), grid=grid)
