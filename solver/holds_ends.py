"""What a food holds at either end of a tolerance; see `holds` for what moves and what does not."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np

from solver.as_eaten import as_weighed
from solver.brief import Brief, EnergyBasis
from solver.components import Placed
from solver.energy import SLICES, slices_kcal
from solver.foods import Food, Made
from solver.holds import Holds, Tolerance
from solver.holds_cooking import placed_at
from solver.missing import Counted
from solver.numerics import FloatArray
from solver.nutrients import COLUMN, NUTRIENTS
from solver.pantry import PantryItem
from solver.tolerances import eu_range

#: What an end moves: every nutrient up or down, fat apart from the rest, since what cooking loses goes by fat.
_ENDS: tuple[tuple[bool, bool], ...] = ((False, False), (True, True), (True, False), (False, True))


@dataclass(frozen=True, slots=True)
class Corner:
    """ends: whether fat is at its most, and whether all else is. kept: whether cooking keeps the most fat.

    kept is None where cooking is as stated.
    """

    ends: tuple[bool, bool]
    kept: bool | None = None


def corners(holds: Holds) -> tuple[Corner, ...]:
    """Every end; with the ends of cooking, where these count."""
    kept = (False, True) if holds.cooking else (None,)
    return tuple(Corner(at, most) for most in kept for at in _ENDS)


def ends(food: Food, holds: Holds) -> tuple[FloatArray, FloatArray]:
    """The least and the most of each nutrient in 100 g, (len(NUTRIENTS),) each; NaN where nobody knows it."""
    stated = food.per_100g
    below, above = np.zeros(len(NUTRIENTS)), np.zeros(len(NUTRIENTS))
    for nutrient, place in COLUMN.items():
        if not np.isnan(stated[place]):
            below[place], above[place] = _off(food, nutrient, float(stated[place]), holds)
    return np.maximum(stated - holds.scale * below, 0.0), stated + holds.scale * above


def _off(food: Food, nutrient: str, stated: float, holds: Holds) -> tuple[float, float]:
    """How far below and above what is stated a nutrient may be."""
    if holds.tolerance is Tolerance.EU:
        allowed = eu_range(nutrient, stated)
        return (0.0, 0.0) if allowed is None else (stated - allowed.low, allowed.high - stated)
    if holds.tolerance is Tolerance.PERCENT:
        off = holds.percent.get(nutrient, 0.0) / 100 * stated
        return off, off
    half = 0.0 if food.half_interval is None else float(np.nan_to_num(food.half_interval[COLUMN[nutrient]]))
    return half, half


def at_corner(food: Food, holds: Holds, basis: EnergyBasis, corner: tuple[bool, bool]) -> Food:
    """The food with its nutrients at one end. corner: whether fat is at its most, and whether all else is."""
    least, most = ends(food, holds)
    fat_up, rest_up = corner
    moved = (most if rest_up else least).copy()
    moved[COLUMN["fat_g"]] = (most if fat_up else least)[COLUMN["fat_g"]]
    made = None if food.made is None else _made(food, moved, basis)
    if basis is EnergyBasis.DECLARED and not _energy_moves(food, holds):
        moved[COLUMN["energy_kcal"]] = _stated_energy(food, most if rest_up else least, basis)
    return replace(food, per_100g=moved, made=made)


def _energy_moves(food: Food, holds: Holds) -> bool:
    """Whether stated energy has a tolerance of its own."""
    if holds.tolerance is Tolerance.PERCENT:
        return "energy_kcal" in holds.percent
    printed = food.half_interval is not None and not np.isnan(food.half_interval[COLUMN["energy_kcal"]])
    return holds.tolerance is Tolerance.LABEL_ROUNDING and printed


def _stated_energy(food: Food, moved: FloatArray, basis: EnergyBasis) -> float:
    plain = replace(food, made=None)
    before, after = (slices_kcal((plain,), row[None, :], basis)[0] for row in (food.per_100g, moved))
    change = float(np.nan_to_num(after - before).sum())
    return max(0.0, float(food.per_100g[COLUMN["energy_kcal"]]) + change)


#: What each slice of a dish's energy moves with.
_BEHIND: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "protein": ("protein_g",),
        "fat": ("fat_g",),
        "carbohydrate": ("available_carbohydrate_g", "total_carbohydrate_g"),
        "alcohol": ("alcohol_g",),
    }
)


def _made(food: Food, moved: FloatArray, basis: EnergyBasis) -> Made:
    """What a dish brings, moved by the energy that its nutrients moved by; its ingredients stay as they are."""
    assert food.made is not None  # noqa: S101  the caller has looked
    plain = replace(food, made=None)
    change = slices_kcal((plain,), moved[None, :], basis)[0] - slices_kcal((plain,), food.per_100g[None, :], basis)[0]
    brought = food.made.kcal[basis.value]
    by_content = [_in_proportion(food, moved, place, float(brought[place])) for place in range(len(SLICES))]
    change = np.nan_to_num(change)
    least = np.where(change < 0, np.minimum(change, by_content), np.maximum(change, by_content))
    return replace(food.made, kcal={**food.made.kcal, basis.value: np.maximum(brought + least, 0.0)})


def _in_proportion(food: Food, moved: FloatArray, place: int, brought: float) -> float:
    """What a slice changes by where it goes with its nutrient; the change is then never taken too small."""
    for nutrient in _BEHIND[SLICES[place]]:
        before, after = (float(row[COLUMN[nutrient]]) for row in (food.per_100g, moved))
        if before > 0:
            return float(np.nan_to_num(brought)) * (after / before - 1)
    return 0.0


def item_at(item: PantryItem, brief: Brief, corner: Corner) -> PantryItem:
    """The item with its composition, and what cooking does to it, at one end."""
    assert brief.holds is not None  # noqa: S101  the caller has looked
    food = at_corner(item.food, brief.holds, brief.energy_basis, corner.ends)
    return replace(item, food=food, placed=tuple(at_end(placed, brief.holds, corner) for placed in item.placed))


def at_end(placed: Placed, holds: Holds, corner: Corner) -> Placed:
    """What cooking does to an item at one end."""
    return placed if corner.kept is None else placed_at(placed, holds, all_kept=corner.kept)


def counted_at(brief: Brief, counted: Counted, corner: Corner) -> Counted:
    """The items that count at one end of what the brief has to hold within."""
    items = tuple(item_at(item, brief, corner) for item in counted.items)
    return replace(counted, items=items, matrix=as_weighed(tuple(each.food for each in items), brief.energy_basis))
