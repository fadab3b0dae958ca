"""Seeded random dishes over the food table that meet their targets, and the same with one amount off."""

from dataclasses import replace

import numpy as np

from solver.brief import Brief, Preference
from solver.catalogue import Catalogue
from solver.closest import Base, BaseAmount, UseName
from solver.nutrients import COLUMN
from solver.outcome import Quantity
from solver.pantry import PantryItem
from solver.tally import tally
from solver.targets import Target

_NEEDED = ("protein_g", "fat_g", "available_carbohydrate_g", "total_carbohydrate_g", "fibre_g")
_DISH = "the dish"


def perturbed(catalogue: Catalogue, seed: int) -> tuple[Brief, dict[UseName, float]]:
    """A brief whose base dish has one amount off, and the amounts that undo it, which meet its targets."""
    rng = np.random.default_rng(seed)
    items = _items(catalogue, rng, int(rng.integers(4, 9)))
    right = [round(float(rng.uniform(8, 250)), 1) for _ in items]
    fed = (Target("energy_kcal", "energy_kcal", lower=1.0),)
    brief = Brief("perturbed", 1, items, fed, time_limit_s=10.0, collagen_part=1.0)
    asked = replace(brief, targets=_targets(brief, right, rng), prefer=(Preference.CLOSEST,))
    off = list(right)
    place = int(rng.integers(len(items)))
    off[place] = round(off[place] * float(rng.choice([0.3, 0.5, 0.75, 1.4, 2.0, 3.0])), 2)
    tasted = [bool(rng.random() < 0.3) for _ in items]
    amounts = (
        BaseAmount(item.name, _DISH, grams, tasted=guess) for item, grams, guess in zip(items, off, tasted, strict=True)
    )
    undone = {(item.name, _DISH): grams for item, grams in zip(items, right, strict=True)}
    return replace(asked, base=Base(tuple(amounts))), undone


def _items(catalogue: Catalogue, rng: np.random.Generator, count: int) -> tuple[PantryItem, ...]:
    """Foods whose values are all there; half of the time one more than the dish has."""
    found: list[PantryItem] = []
    while len(found) < count:
        food = catalogue.food(catalogue.ids[int(rng.integers(len(catalogue)))])
        if not np.isnan([food.per_100g[COLUMN[name]] for name in _NEEDED]).any():
            found.append(PantryItem(f"item {len(found)}", food))
    return tuple(found)


def _targets(brief: Brief, right: list[float], rng: np.random.Generator) -> tuple[Target, ...]:
    """Bands of different widths around what the right amounts come to."""
    dish = [Quantity(item, grams, None) for item, grams in zip(brief.pantry, right, strict=True)]
    totals = tally(dish, brief).portion
    values = {"energy_kcal": totals.energy_kcal, **{name: totals.values[name] or 0.0 for name in _NEEDED[:3]}}
    chosen = ["energy_kcal", *(str(name) for name in rng.choice(_NEEDED[:3], int(rng.integers(1, 4)), replace=False))]
    within = {name: max(0.01 * values[name], 0.05) * float(rng.uniform(1, 3)) for name in chosen}
    return tuple(
        Target(name, name, lower=max(values[name] - within[name], 0.0), upper=values[name] + within[name])
        for name in chosen
    )
