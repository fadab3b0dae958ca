"""Seeded briefs around a dish of six foods, so that each has a plan: the same brief for every rival.

Only foods that have every value which the targets need take part, so that no rival leaves anything out.
"""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from solver.as_eaten import as_weighed
from solver.brief import Brief, EnergyBasis, Preference
from solver.catalogue import Catalogue
from solver.choices import Choice
from solver.foods import Food
from solver.numerics import FloatArray
from solver.nutrients import COLUMN
from solver.pantry import PantryItem, Step
from solver.quantities import QUANTITY
from solver.targets import Target

#: What the targets are of.
ASKED = ("energy_kcal", "fat_share_percent", "protein_g", "available_carbohydrate_g", "sodium_mg")

#: Nutrients behind them.
NEEDED = ("energy_kcal", "protein_g", "fat_g", "total_carbohydrate_g", "available_carbohydrate_g", "sodium_mg")

#: Foods of the dish that a brief is built around, and grams of each in a portion.
DISH_FOODS, LEAST_G, MOST_G = 6, 30.0, 120.0

PORTIONS = 4

#: Steps of stepped briefs, g.
STEPS_G = (5.0, 10.0, 14.2, 28.35, 50.0)

BOTH = (Preference.BALANCED, Preference.CHEAPEST)


@dataclass(frozen=True, slots=True)
class Larder:
    """foods: those that have every value which is needed."""

    foods: tuple[Food, ...]

    @classmethod
    def of(cls, catalogue: Catalogue) -> "Larder":
        """The foods of a table that lack nothing."""
        foods = (catalogue.food(food_id) for food_id in catalogue.ids)
        return cls(tuple(food for food in foods if not any(food.is_missing(name) for name in NEEDED)))


def lp_brief(larder: Larder, items: int, seed: int, *, prefer: tuple[Preference, ...] = BOTH) -> Brief:
    """A brief without steps."""
    rng = np.random.default_rng(seed)
    foods = [larder.foods[n] for n in rng.choice(len(larder.foods), items, replace=False)]
    pantry = tuple(
        PantryItem(
            name=f"item {number}",
            food=food,
            on_hand_g=float(rng.integers(500, 2000)) if rng.random() < 0.8 else None,
            price_per_g=round(float(rng.uniform(0.001, 0.05)), 4),
        )
        for number, food in enumerate(foods)
    )
    grams = rng.uniform(LEAST_G, MOST_G, DISH_FOODS)
    return Brief(
        title=f"benchmark {items} {seed}",
        portions=PORTIONS,
        pantry=pantry,
        targets=_targets(foods[:DISH_FOODS], grams),
        prefer=prefer,
        time_limit_s=20.0,
        collagen_part=1.0,
    )


def _targets(foods: list[Food], grams: FloatArray) -> tuple[Target, ...]:
    """Bands around what the dish holds: energy and the fat share on both sides, the others on one."""
    sums = grams / 100 @ as_weighed(tuple(foods), EnergyBasis.GENERAL)
    held = {of: float(sums[COLUMN[of]]) for of in ("protein_g", "available_carbohydrate_g", "sodium_mg")}
    energy = float(sums[-1])
    share = 100 * float(sums[-4]) / energy
    return (
        Target("energy_kcal", "energy_kcal", lower=0.96 * energy, upper=1.04 * energy),
        Target("fat_share_percent", "fat_share_percent", lower=max(share - 2, 0.0), upper=min(share + 2, 100.0)),
        Target("protein_g", "protein_g", lower=0.95 * held["protein_g"]),
        Target("available_carbohydrate_g", "available_carbohydrate_g", upper=1.05 * held["available_carbohydrate_g"]),
        Target("sodium_mg", "sodium_mg", upper=1.05 * held["sodium_mg"]),
    )


def stepped_brief(larder: Larder, items: int, seed: int, *, most: int = 8) -> Brief:
    """The same with steps for half of the items, and so many ingredients at most."""
    brief, rng = lp_brief(larder, items, seed), np.random.default_rng(seed)
    stepped = tuple(
        replace(item, step=Step(1, "spoon", float(rng.choice(STEPS_G)))) if rng.random() < 0.5 else item
        for item in brief.pantry
    )
    names = frozenset(item.name for item in stepped)
    return replace(brief, pantry=stepped, choices=(Choice("few", names, upper=most),))


def in_order(brief: Brief, order: int) -> Brief:
    """The same brief with its pantry in another order; 0 for its own."""
    places = np.arange(len(brief.pantry)) if order == 0 else np.random.default_rng(order).permutation(len(brief.pantry))
    return replace(brief, pantry=tuple(brief.pantry[n] for n in places))


def impossible(brief: Brief) -> Brief:
    """A brief with less energy than its protein alone brings: no pantry can help, something has to give."""
    targets = {target.id: target for target in brief.targets}
    energy, protein = targets["energy_kcal"], targets["protein_g"]
    assert energy.lower is not None
    targets["protein_g"] = replace(protein, lower=energy.lower * 0.15)
    targets["fat_share_percent"] = replace(targets["fat_share_percent"], lower=78.0, upper=82.0)
    return replace(brief, targets=tuple(targets.values()))


def posted(brief: Brief) -> dict[str, Any]:
    """The brief as it is sent over HTTP."""
    return {
        "title": brief.title,
        "portions": brief.portions,
        "pantry": [_item(item) for item in brief.pantry],
        "targets": [_target(target) for target in brief.targets],
        "prefer": [preference.value for preference in brief.prefer],
        "collagen_at_most_percent": 100,
        "time_limit_s": 5,
    }


def _item(item: PantryItem) -> dict[str, Any]:
    limits = {} if item.on_hand_g is None else {"on_hand": f"{item.on_hand_g:g} g"}
    price = {"amount": round(100 * (item.price_per_g or 0.0), 2), "per": "100 g"}
    return {"name": item.name, "source": {"kind": "food", "id": item.food.id}, "price": price, **limits}


def _target(target: Target) -> dict[str, Any]:
    ends = {"at_least": target.lower, "at_most": target.upper}
    of = {name: round(end, 6) for name, end in ends.items() if end is not None}
    assert target.of in QUANTITY
    return {"of": target.of, **of}
