"""Dishes built by hand, and what the real tables say of them."""

from collections.abc import Mapping
from dataclasses import replace

from reference_data import reference_folder
from solver.brief import Brief
from solver.cautions import open_cautions
from solver.cautions.caution import Caution
from solver.cautions.safe_temperatures import US_CONSUMER, Profile
from solver.components import Component, Placed
from solver.cooking_curves import Segment
from solver.cooking_rows import FatCurve
from solver.eater import Eater
from solver.foods import Food, Ingredient, Made
from solver.outcome import Dish, Distribution, Quantity, Totals
from solver.pantry import PantryItem
from solver.targets import Target
from tests.solver.larder import food

CAUTIONS = open_cautions(reference_folder())

#: A mix under a method; its numbers do not matter here.
PATTY = FatCurve("broiled patty", "broiled", (Segment(0.0, 1.0),), 0.8, 0.9, 0.1, 0.1, 0.0, 1.0, 1, "invented", "sr28")


def table_food(name: str, group: str, **per_100g: float) -> Food:
    """A food with a description and a group, as the food table has them."""
    return replace(food(name, **per_100g), group=group)


BEEF = table_food("Beef, ground, 80% lean meat / 20% fat, raw", "Beef Products", protein_g=17, fat_g=20)
STEAK = table_food("Beef, top sirloin, separable lean and fat, raw", "Beef Products", protein_g=20, fat_g=12)
TURKEY_MINCE = table_food("Ground turkey, raw", "Poultry Products", protein_g=19, fat_g=8)
THIGH = table_food("Chicken, thigh, meat and skin, raw", "Poultry Products", protein_g=16, fat_g=16)
SALMON = table_food("Fish, salmon, Atlantic, farmed, raw", "Finfish and Shellfish Products", protein_g=20, fat_g=13)
EGG = table_food("Egg, whole, raw, fresh", "Dairy and Egg Products", protein_g=12.6, fat_g=9.5)
YOLK = table_food("Egg, yolk, raw, fresh", "Dairy and Egg Products", protein_g=16, fat_g=27)
OLIVE_OIL = table_food("Oil, olive, salad or cooking", "Fats and Oils", fat_g=100)
GARLIC = table_food("Garlic, raw", "Vegetables and Vegetable Products", fat_g=0.5)
BUTTER = table_food("Butter, salted", "Dairy and Egg Products", fat_g=81, protein_g=0.9)


def item(called: str, of: Food, into: str = "the dish") -> PantryItem:
    return PantryItem(called, of, placed=(Placed(into),))


def made_of(name: str, *ingredients: tuple[Food, float, bool]) -> Food:
    """A dish as a food: each ingredient with its grams in 100 g, and whether it was cooked there."""
    return replace(food(name), made=Made({}, {}, tuple(Ingredient(*each) for each in ingredients)))


def brief_of(
    *items: PantryItem, components: tuple[Component, ...] = (), targets: tuple[Target, ...] = (), title: str = "Supper"
) -> Brief:
    return Brief(
        title, 1, items, targets or (Target("energy_kcal", "energy_kcal", lower=400.0),), components=components
    )


def dish_of(
    *quantities: Quantity,
    values: Mapping[str, float | None] | None = None,
    energy_kcal: float = 600.0,
    fat_percent: int = 20,
) -> Dish:
    """A dish for one: batch and portion are the same. values: what a portion holds."""
    totals = Totals(100.0, energy_kcal, energy_kcal * 4.184, values or {}, {})
    shares = Distribution(fat_percent, 100 - fat_percent, 0, 0)
    return Dish(tuple(quantities), totals, totals, totals, (), shares, None, (), None)


def said(
    component: Component,
    *contents: tuple[str, Food, float],
    title: str = "Supper",
    eater: Eater | None = None,
    profile: Profile = US_CONSUMER,
) -> dict[str, Caution]:
    """The cautions of one component, by code."""
    items = [(item(called, of, component.name), grams) for called, of, grams in contents]
    quantities = [Quantity(each, grams, None, each.placed[0]) for each, grams in items]
    brief = brief_of(*(each for each, _ in items), components=(component,), title=title)
    return {each.code: each for each in CAUTIONS(brief, dish_of(*quantities), eater, profile)}
