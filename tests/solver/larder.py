"""Invented foods known by a few numbers, and briefs around them, for tests that need no food table."""

from dataclasses import replace

import numpy as np

from solver.as_eaten import as_weighed
from solver.board import Board, board_of
from solver.brief import Brief, EnergyBasis
from solver.components import Component, Drippings, Placed
from solver.cooking_curves import Segment
from solver.cooking_rows import CookingRow, FatCurve
from solver.foods import Food
from solver.formulate import Formulation, formulate
from solver.missing import Counted, count
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


def posed(asked: Brief, *, grid: bool = False, exact: frozenset[str] = frozenset()) -> Formulation:
    return formulate(asked, count(asked), grid=grid, exact=exact)


def board(*foods: Food, basis: EnergyBasis = EnergyBasis.GENERAL) -> Board:
    """As much of each as one likes, eaten as it is, in this order."""
    return board_of(brief(), Counted(pantry(*foods), as_weighed(foods, basis), ()))


#: Of 1 kg raw: all fat is kept up to 50 g and 0.4 of it; the lean holds no more than 0.15 of its weight.
CURVE = FatCurve(
    mix="invented patty",
    method="broiled",
    segments=(Segment(0.0, 1.0), Segment(0.05, 0.4), Segment(0.15, -0.15)),
    yield_at_no_fat_g_per_g=0.84,
    yield_lost_per_fat_g_per_g=0.9,
    yield_half_interval_g_per_g=0.08,
    fat_kept_half_interval_g_per_g=0.01,
    least_fat_g_per_g=0.02,
    most_fat_g_per_g=0.3,
    rows=11,
    why="invented curve",
    source="invented",
)

PATTIES = Component("patties", "invented patty", Drippings.DISCARDED, CURVE)
ROAST = Component("roast", "roasted", Drippings.DISCARDED)
TABLE = Component("at the table")


def cooking_row(kept: float, shrunk: float, *, measured: bool = True) -> CookingRow:
    """Fat kept and yield, g per g raw; nine times in ten 0.1 less or more."""
    return CookingRow(
        method="roasted",
        kind="invented",
        measured=measured,
        yield_g_per_g=shrunk,
        yield_half_interval_g_per_g=0.05,
        fat_retention_g_per_g=kept,
        fat_retention_as_sampled_g_per_g=kept,
        fat_retention_low_g_per_g=kept - 0.1,
        fat_retention_high_g_per_g=kept + 0.1,
        pairs=5,
        why="invented row",
        source="invented",
    )


def into(of: PantryItem, *places: Placed | Component) -> PantryItem:
    """The item where it may go."""
    return replace(of, placed=tuple(Placed(to.name) if isinstance(to, Component) else to for to in places))


def kitchen(*items: PantryItem, targets: tuple[Target, ...], parts: tuple[Component, ...], portions: int = 1) -> Brief:
    """A brief of components."""
    return replace(brief(*items, targets=targets, portions=portions), components=parts)
