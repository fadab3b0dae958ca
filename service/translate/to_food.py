"""From a food of the catalogue to the one that goes out."""

import math

from service.schemas.food import FoodAnswer, FoundFood, MeasureAnswer, NutrientAnswer, SpecificFactorsAnswer
from service.translate.numbers import rounded
from solver.foods import Food, SpecificFactors
from solver.measures import measures_of
from solver.nutrients import NUTRIENTS


def to_food(food: Food) -> FoodAnswer:
    """The food as the contract has it: NaN becomes null."""
    return FoodAnswer(
        id=food.id,
        name=food.name,
        group=food.group,
        per_100g={nutrient.name: _value(food, nutrient.name) for nutrient in NUTRIENTS},
        nutrients={n.name: NutrientAnswer(tagname=n.tagname, unit=n.unit, title=n.title) for n in NUTRIENTS},
        specific_factors=None if food.factors is None else _factors(food.factors),
        total_carbohydrate_counted=food.total_carbohydrate_counted,
        refuse_percent=None if math.isnan(food.refuse_percent) else food.refuse_percent,
        measures=[MeasureAnswer(amount=m.amount, unit=m.unit, grams=m.grams) for m in food.measures],
        units=list(measures_of(food)),
        source=food.source,
    )


def to_found(food: Food) -> FoundFood:
    """The food as a line in a list."""
    return FoundFood(
        id=food.id,
        name=food.name,
        group=food.group,
        energy_kcal=_value(food, "energy_kcal"),
        protein_g=_value(food, "protein_g"),
        fat_g=_value(food, "fat_g"),
        available_carbohydrate_g=_value(food, "available_carbohydrate_g"),
    )


def _value(food: Food, nutrient: str) -> float | None:
    value = food.value(nutrient)
    return None if math.isnan(value) else rounded(value)


def _factors(factors: SpecificFactors) -> SpecificFactorsAnswer:
    return SpecificFactorsAnswer(protein=factors.protein, fat=factors.fat, carbohydrate=factors.carbohydrate)
