"""Missing values stay missing: which items a brief's targets leave out, and what it asks to count instead.

An optimiser that reads missing as zero seeks the gaps in a table, so an item without a value that a target needs
takes no part, unless the brief says how to count it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from operator import attrgetter

import numpy as np

from solver.as_eaten import PLACE, SLICE_COLUMNS, as_weighed
from solver.brief import Brief, EnergyBasis
from solver.foods import Food
from solver.numerics import BoolArray, FloatArray
from solver.nutrients import COLUMN
from solver.outcome import LeftOut
from solver.pantry import PantryItem
from solver.quantities import QUANTITY
from solver.rules import By

_FOOD_ID = attrgetter("food.id")
_TOTAL_KEY = attrgetter("food.id", "name")


@dataclass(frozen=True, slots=True, eq=False)
class Counted:
    """The items that take part, in a total order, and what 100 g of each weighs in with: (items, len(COLUMNS))."""

    items: tuple[PantryItem, ...]
    matrix: FloatArray
    left_out: tuple[LeftOut, ...]


def count(brief: Brief) -> Counted:
    """Sort the pantry by food id and name, so that the order of a brief never matters, and sift it."""
    items = _ordered(brief)
    if brief.count_missing_as:
        items = tuple(_filled(item, brief.count_missing_as) for item in items)
    matrix = as_weighed(tuple(item.food for item in items), brief.energy_basis)
    lacking: BoolArray = np.asarray(np.isnan(matrix[:, _needed(brief)]).any(axis=1))
    if any(rule.by is By.SALT for rule in brief.rules):
        lacking |= np.array([_lacks_salt(item, brief) for item in items], dtype=np.bool_)
    if not lacking.any():
        return Counted(items, matrix, ())
    return Counted(
        items=tuple(item for item, out in zip(items, lacking, strict=True) if not out),
        matrix=matrix[~lacking],
        left_out=tuple(_left_out(item, brief) for item, out in zip(items, lacking, strict=True) if out),
    )


def _ordered(brief: Brief) -> tuple[PantryItem, ...]:
    """The items that take part, by food id and name."""
    wanted = brief.pantry
    if brief.leave_out:
        wanted = tuple(item for item in wanted if item.name not in brief.leave_out)
    alike = len(set(map(_FOOD_ID, wanted))) < len(wanted)
    return tuple(sorted(wanted, key=_TOTAL_KEY if alike else _FOOD_ID))


def _filled(item: PantryItem, count_as: Mapping[str, float]) -> PantryItem:
    gaps = {name: value for name, value in count_as.items() if item.food.is_missing(name)}
    if not gaps:
        return item
    per_100g = item.food.per_100g.copy()
    for name, value in gaps.items():
        per_100g[COLUMN[name]] = value
    return replace(item, food=replace(item.food, per_100g=per_100g))


def _needed(brief: Brief) -> list[int]:
    names = frozenset[str]().union(*(QUANTITY[of].columns for of in _counted(brief)))
    return sorted(PLACE[name] for name in names)


def _counted(brief: Brief) -> list[str]:
    """Quantities that have to be known of every item: what targets are of, and the energy that rules take shares of."""
    shared = any(rule.by is By.ENERGY_SHARE for rule in brief.rules)
    return [*(target.of for target in brief.targets), *(["fat_share_percent"] if shared else [])]


def _lacks_salt(item: PantryItem, brief: Brief) -> bool:
    """Whether a rule has to know the salt of an item, and nobody does."""
    groups = [rule.of for rule in brief.rules if rule.by is By.SALT]
    counted = any(group.holds(item.name, place.component) for group in groups for place in item.placed)
    return counted and item.food.is_missing("sodium_mg")


def _left_out(item: PantryItem, brief: Brief) -> LeftOut:
    basis = brief.energy_basis
    needed = frozenset[str]().union(*(_nutrients_behind(of, item.food, basis) for of in _counted(brief)))
    if _lacks_salt(item, brief):
        needed |= {"sodium_mg"}
    return LeftOut(item.name, tuple(sorted(name for name in needed if item.food.is_missing(name))))


def _nutrients_behind(of: str, food: Food, basis: EnergyBasis) -> frozenset[str]:
    columns = QUANTITY[of].columns
    nutrients = {name for name in columns if name in COLUMN}
    if columns & set(SLICE_COLUMNS.values()) or ("basis_energy_kcal" in columns and basis is not EnergyBasis.DECLARED):
        nutrients |= {"protein_g", "fat_g", _carbohydrate_behind(food, basis)}
    if "basis_energy_kcal" in columns and basis is EnergyBasis.DECLARED:
        nutrients.add("energy_kcal")
    return frozenset(nutrients)


def _carbohydrate_behind(food: Food, basis: EnergyBasis) -> str:
    """The carbohydrate that `energy.slices` counts from: where only the available is known, that."""
    only_available = food.is_missing("total_carbohydrate_g") and not food.is_missing("available_carbohydrate_g")
    by_available = basis is EnergyBasis.REGULATION or only_available
    return "available_carbohydrate_g" if by_available else "total_carbohydrate_g"
