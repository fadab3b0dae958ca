"""What the sources of the numbers leave open: standard errors of the table, and what a label rounds and tolerates.

Standard errors   1.645 of them either way, 90 % of a normal distribution. The source has none of carbohydrate by
                  difference, so that nothing is counted for it.
Label rounding    the whole interval that may be printed so. A bound and no more likely at its ends, so that taking it
                  for nine times in ten is the careful side.
Label tolerance   what the rules of the layout allow. A side without a rule is not limited; nothing is counted for it.

Errors of different values are independent. A food has one error wherever it goes, so that those of all its uses add up;
a dish is taken apart into its foods, of which all is taken as kept.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from solver.brief import EnergyBasis
from solver.components import Drippings
from solver.cooked import CookedComponent, CookedItem, Evidence
from solver.cooking_curves import holding_part
from solver.drippings import FATTY_ACIDS
from solver.foods import Food
from solver.numerics import BoolArray, FloatArray, IntArray
from solver.nutrients import COLUMN, NUTRIENTS
from solver.plate_off_energy import with_energy
from solver.plate_off_moves import COLUMNS, Cause, Kind, move
from solver.plate_off_values import moved_with
from solver.used import Used

#: Half-interval of 90 % of a normal distribution, in standard errors.
NORMAL_90 = 1.645

_WHY = {
    Kind.STANDARD_ERROR: "the food table states standard errors for it; 1.645 of them either way hold nine in ten",
    Kind.LABEL_ROUNDING: "its printed numbers stand for everything that rounds to them",
    Kind.LABEL_TOLERANCE: "the rules of its label let the truth be this far from the print; "
    "a side that they do not limit is not counted",
}

#: What others are counted from: an error of one of these moves more than itself.
_COUNTED_FROM = frozenset(
    {"energy_kcal", "protein_g", "fat_g", "total_carbohydrate_g", "available_carbohydrate_g", "fibre_g", "alcohol_g"}
)

#: (len(NUTRIENTS),), True for all others. Their columns of a move stand in the order of the nutrients.
_ALONE: BoolArray = np.array([nutrient.name not in _COUNTED_FROM for nutrient in NUTRIENTS])


@dataclass(frozen=True, slots=True, eq=False)
class Eaten:
    """A food in a component: as an item, or as grams of an ingredient of one."""

    food: Food
    grams: float
    name: str
    used: Used
    item: CookedItem
    cooked: CookedComponent


def foods_in(used: Used, item: CookedItem, cooked: CookedComponent) -> Iterator[Eaten]:
    """The item itself, or what a dish is made of."""
    made, name = used.food.made, used.quantity.item.name
    if made is None:
        yield Eaten(used.food, used.grams, name, used, item, cooked)
        return
    for part in made.ingredients:
        grams = used.grams * part.grams / 100
        yield Eaten(part.food, grams, f"{part.food.name} in {name}", used, item, cooked)


def open_ends(food: Food) -> Iterator[tuple[Kind, FloatArray, FloatArray]]:
    """How far below and above its values the truth may be, (len(NUTRIENTS),) each per 100 g; NaN where not stated."""
    if food.standard_error is not None:
        yield Kind.STANDARD_ERROR, NORMAL_90 * food.standard_error, NORMAL_90 * food.standard_error
    if food.half_interval is not None:
        yield Kind.LABEL_ROUNDING, food.half_interval, food.half_interval
    if food.tolerance is not None:
        yield Kind.LABEL_TOLERANCE, *food.tolerance


def food_causes(eaten: Sequence[Eaten], basis: EnergyBasis) -> Iterator[Cause]:
    """One cause for each food and kind of error that moves anything."""
    for kind in (Kind.STANDARD_ERROR, Kind.LABEL_ROUNDING, Kind.LABEL_TOLERANCE):
        for same in _by_food(eaten, kind):
            up, down = _ends(kind, same, basis)
            if len(up):
                yield Cause(kind, ", ".join(dict.fromkeys(each.name for each in same)), f"{_WHY[kind]}.", up, down)


def _by_food(eaten: Sequence[Eaten], kind: Kind) -> list[list[Eaten]]:
    found: dict[str, list[Eaten]] = {}
    for each in eaten:
        if any(of is kind for of, _, _ in open_ends(each.food)):
            found.setdefault(each.food.id, []).append(each)
    return list(found.values())


def _ends(kind: Kind, same: Sequence[Eaten], basis: EnergyBasis) -> tuple[FloatArray, FloatArray]:
    """Up and down, (errors, len(COLUMNS)): a row for each value with an error, summed over the uses of the food."""
    ups, downs = np.zeros((len(NUTRIENTS), len(COLUMNS))), np.zeros((len(NUTRIENTS), len(COLUMNS)))
    for each in same:
        below, above = next((below, above) for of, below, above in open_ends(each.food) if of is kind)
        stated = np.where(np.isnan(below), above, below)
        below, above = np.nan_to_num(below), np.nan_to_num(above)
        is_open = ((below > 0) | (above > 0)) & ~np.isnan(each.food.per_100g)
        alone = np.flatnonzero(is_open & _ALONE).astype(np.int32)
        ups[alone, alone] += _alone_on_plate(each, alone, above[alone])
        downs[alone, alone] += _alone_on_plate(each, alone, -below[alone])
        for place in np.flatnonzero(is_open & ~_ALONE):
            name = NUTRIENTS[place].name
            ups[place] += _moved(each, name, float(above[place]), stated, basis)
            downs[place] += _moved(each, name, -float(below[place]), stated, basis)
    moves = ups.any(axis=1) | downs.any(axis=1)
    return ups[moves], downs[moves]


def _alone_on_plate(each: Eaten, places: IntArray, changes: FloatArray) -> FloatArray:
    """As `_moved` has it of each of these nutrients, (places,): what moves nothing but itself. changes: in 100 g."""
    raw = each.grams * np.maximum(changes, -each.food.per_100g[places]) / 100
    return np.array(
        [_on_plate(each, NUTRIENTS[place].name, change) for place, change in zip(places, raw.tolist(), strict=True)]
    )


def _moved(each: Eaten, nutrient: str, change: float, stated: FloatArray, basis: EnergyBasis) -> FloatArray:
    raw = moved_with(nutrient, change, each.food, stated)
    on_plate = {name: _on_plate(each, name, each.grams * off / 100) for name, off in raw.items()}
    if _renders_by_curve(each.cooked) and {"fat_g", "protein_g"} & raw.keys():
        on_plate["fat_g"] = _mix_fat_eaten(each, raw.get("fat_g", 0.0) / 100, raw.get("protein_g", 0.0) / 100)
    return move(with_energy(on_plate, each.food, basis))


def _on_plate(each: Eaten, nutrient: str, raw_change: float) -> float:
    """What of a change comes to the plate; cholesterol is taken as kept."""
    if nutrient == "fat_g":
        return _fat_eaten(each, raw_change)
    if nutrient in FATTY_ACIDS and each.item.fat_g > 0:
        return raw_change * (1 - each.item.lost_g / each.item.fat_g)
    return raw_change * each.used.kept(nutrient)


def _fat_eaten(each: Eaten, change_g: float) -> float:
    """A piece renders more fat in proportion; weighed drippings stay as weighed."""
    cooked, component = each.cooked, each.cooked.component
    if component.method is None or component.drippings is Drippings.SERVED or cooked.fat is Evidence.MEASURED:
        return change_g
    return change_g * (1 - each.item.rendered_g / each.item.fat_g) if each.item.fat_g > 0 else change_g


def _renders_by_curve(cooked: CookedComponent) -> bool:
    by_curve = cooked.component.is_mix and cooked.fat is not Evidence.MEASURED
    return by_curve and cooked.component.drippings is not Drippings.SERVED


def _mix_fat_eaten(each: Eaten, fat: float, protein: float) -> float:
    """What the mix keeps more when a gram of the food has so much more fat and protein, g per g: both hold fat."""
    curve, of = each.cooked.component.curve, each.food
    assert curve is not None  # noqa: S101  the caller has looked
    has_fat, has_protein = of.value("fat_g") / 100, of.value("protein_g") / 100
    more = holding_part(max(has_fat + fat, 0.0), max(has_protein + protein, 0.0)) - holding_part(has_fat, has_protein)
    total = max(each.cooked.fat_g + each.grams * fat, 0.0)
    return min(curve.fat_kept_g(each.cooked.holding_g + each.grams * more, total), total) - each.cooked.kept_g


def nothing_stated_for(eaten: Sequence[Eaten]) -> dict[str, tuple[str, ...]]:
    """Macronutrient to the names of what holds it and has no stated error of it; only those with such names."""
    found = {
        nutrient: tuple(dict.fromkeys(each.name for each in eaten if _is_held_unstated(each.food, nutrient)))
        for nutrient in ("protein_g", "fat_g", "available_carbohydrate_g")
    }
    return {nutrient: names for nutrient, names in found.items() if names}


def _is_held_unstated(food: Food, nutrient: str) -> bool:
    columns = [COLUMN[nutrient]]
    if nutrient == "available_carbohydrate_g":
        columns.append(COLUMN["total_carbohydrate_g"])  # an error of either moves both
    stated = any(not np.isnan([below[columns], above[columns]]).all() for _, below, above in open_ends(food))
    return food.value(nutrient) > 0 and not stated
