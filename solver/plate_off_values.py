"""What the error of one value of a food moves, in 100 g of it: the value itself and those that are counted from it."""

from math import isfinite, isnan

from solver.drippings import FATTY_ACIDS
from solver.foods import Food
from solver.numerics import FloatArray
from solver.nutrients import COLUMN

_TOTAL, _AVAILABLE, _FIBRE = "total_carbohydrate_g", "available_carbohydrate_g", "fibre_g"


def moved_with(nutrient: str, change: float, food: Food, stated: FloatArray) -> dict[str, float]:
    """Nutrient name to its change when the truth of one is off by `change`, all in 100 g; only what the food has.

    stated: errors of the food's values, (len(NUTRIENTS),), NaN where none is stated: those values follow. Where the
    available carbohydrate has none it is the total less fibre; where it has one the total is available and fibre.
    Fatty acids without one follow their fat in proportion.
    """
    changes = {nutrient: change}
    by_difference = isnan(stated[COLUMN[_AVAILABLE]])
    if nutrient == _TOTAL or (nutrient == _FIBRE and by_difference):
        changes[_AVAILABLE] = change if nutrient == _TOTAL else -change
    if nutrient == _AVAILABLE or (nutrient == _FIBRE and not by_difference):
        changes[_TOTAL] = change
    if nutrient == "fat_g" and food.value("fat_g") > 0:
        follow = [name for name in FATTY_ACIDS if isnan(stated[COLUMN[name]])]
        changes.update({name: change * food.value(name) / food.value("fat_g") for name in follow})
    if isfinite(stated[COLUMN["energy_kcal"]]) and nutrient != "energy_kcal":
        changes["energy_kcal"] = 0.0
    return {name: _no_less_than_none(off, food.value(name)) for name, off in changes.items() if _has(food, name)}


def _has(food: Food, nutrient: str) -> bool:
    return nutrient == "energy_kcal" or not food.is_missing(nutrient)


def _no_less_than_none(change: float, value: float) -> float:
    return change if isnan(value) else max(change, -value)
