"""Seeded random briefs over the real food table, feasible ones and impossible ones, stepped and not."""

from dataclasses import replace

import numpy as np

from solver.brief import Brief, EnergyBasis, Preference
from solver.catalogue import Catalogue
from solver.foods import Food
from solver.outcome import Quantity
from solver.pantry import PantryItem, Step
from solver.quantities import QUANTITY
from solver.tally import tally
from solver.targets import Per, Target
from solver.verify import dish_of

#: What a random brief may ask for besides energy.
ASKED = ("fat_share_percent", "protein_g", "available_carbohydrate_g", "ketogenic_ratio", "sodium_mg", "fibre_g")


def random_brief(catalogue: Catalogue, seed: int, *, items: int = 12, stepped: bool = False) -> Brief:
    """A brief around a random dish, so that about three in four have a plan; every fourth asks for the unlikely."""
    rng = np.random.default_rng(seed)
    foods = [catalogue.food(catalogue.ids[n]) for n in rng.choice(len(catalogue), items, replace=False)]
    pantry = tuple(_item(rng, food, number, stepped=stepped) for number, food in enumerate(foods))
    brief = Brief(
        title=f"random {seed}",
        portions=int(rng.integers(1, 6)),
        pantry=pantry,
        targets=(Target("energy_kcal", "energy_kcal", lower=1.0),),
        prefer=(Preference.CHEAPEST,) if rng.random() < 0.4 else (Preference.BALANCED,),
        energy_basis=list(EnergyBasis)[rng.integers(4)],
        count_missing_as={"fibre_g": 0.0} if rng.random() < 0.5 else {},
        time_limit_s=10.0,
    )
    return replace(brief, targets=_targets(rng, brief, unlikely=seed % 4 == 3))


def _item(rng: np.random.Generator, food: Food, number: int, *, stepped: bool) -> PantryItem:
    has_step = stepped and rng.random() < 0.5
    grams = float(rng.choice([2.5, 5.0, 10.0, 14.2, 28.35, 50.0]))
    return PantryItem(
        name=f"item {number}",
        food=food,
        on_hand_g=float(rng.integers(100, 1500)) if rng.random() < 0.8 else None,
        step=Step(1, "spoon", grams) if has_step else None,
        least_when_used_g=float(rng.integers(10, 60)) if stepped and rng.random() < 0.2 else None,
        price_per_g=float(rng.uniform(0.001, 0.05)),
    )


def _targets(rng: np.random.Generator, brief: Brief, *, unlikely: bool) -> tuple[Target, ...]:
    used = rng.choice(len(brief.pantry), max(1, len(brief.pantry) // 3), replace=False)
    dish = [Quantity(brief.pantry[n], round(float(rng.uniform(20, 90)) * brief.portions, 1), None) for n in used]
    energy = tally(dish, brief).portion.energy_kcal
    targets = [band(rng, "energy_kcal", max(energy, 50.0))]
    for of in rng.choice(ASKED, rng.integers(1, 4), replace=False):
        reached = _reached(dish, brief, str(of))
        value = reached * float(rng.uniform(1.5, 4)) if unlikely else reached
        targets.append(band(rng, str(of), min(value, 100.0) if QUANTITY[str(of)].unit == "%" else value))
    return tuple(targets)


def _reached(dish: list[Quantity], brief: Brief, of: str) -> float:
    asked = replace(brief, targets=(Target(of, of, lower=0.0),), count_missing_as=dict.fromkeys(NEEDED, 0.0))
    loose = [replace(q, item=replace(q.item, on_hand_g=None, step=None, least_when_used_g=None)) for q in dish]
    value = dish_of(loose, asked, frozenset()).targets[0].value
    return 1.0 if value is None else value


NEEDED = ("protein_g", "fat_g", "total_carbohydrate_g", "available_carbohydrate_g", "sodium_mg", "fibre_g")


def band(rng: np.random.Generator, of: str, value: float) -> Target:
    width = {"%": 2.0}.get(QUANTITY[of].unit, max(0.04 * value, 0.05))
    lower, upper = max(0.0, value - width), value + width
    if QUANTITY[of].unit == "%":
        upper = min(100.0, upper)
    kind = rng.random()
    if of == "energy_kcal" or kind < 0.5:
        return Target(of, of, Per.PORTION, lower, upper)
    return Target(of, of, Per.PORTION, lower, None) if kind < 0.75 else Target(of, of, Per.PORTION, None, upper)
