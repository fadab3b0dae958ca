"""A target's value from a plan's printed grams, by a route that shares no code with the solver."""

from operator import attrgetter

import numpy as np

from solver.brief import EnergyBasis
from solver.outcome import Plan
from solver.targets import Per, Target

#: Protein, fat and carbohydrate factors of a food, in that order.
ORDER = attrgetter("protein", "fat", "carbohydrate")


def is_met(plan: Plan, target: Target) -> bool:
    value = recomputed(plan, target)
    slack = 1e-6 * max(1.0, abs(value)) if np.isfinite(value) else 0.0
    lower = -np.inf if target.lower is None else target.lower
    upper = np.inf if target.upper is None else target.upper
    return bool(lower - slack <= value <= upper + slack)


def recomputed(plan: Plan, target: Target) -> float:
    """The target's value by a route of this test's own: dot products over the printed grams."""
    used = plan.dish.quantities
    grams = np.array([quantity.grams for quantity in used]) / 100

    def total(nutrient: str) -> float:
        filled = [q.item.food.value(nutrient) for q in used]
        counted = plan.brief.count_missing_as.get(nutrient, 0.0)
        return float(grams @ np.where(np.isnan(filled), counted, filled))

    def energy(n: int) -> tuple[float, float, float, float]:
        food, basis = used[n].item.food, plan.brief.energy_basis
        protein, fat, carbohydrate = (
            float(np.nan_to_num(food.value(name))) for name in ("protein_g", "fat_g", "total_carbohydrate_g")
        )
        alcohol, fibre = (float(np.nan_to_num(food.value(name))) for name in ("alcohol_g", "fibre_g"))
        if basis is EnergyBasis.REGULATION:
            available = float(np.nan_to_num(food.value("available_carbohydrate_g")))
            return 4 * protein, 9 * fat, 4 * available + 2 * fibre, 7 * alcohol
        own = None if basis is EnergyBasis.GENERAL else food.factors
        if own is None:
            return 4 * protein, 9 * fat, 4 * carbohydrate, 7 * alcohol
        by = [usual if mine is None else mine for mine, usual in zip(ORDER(own), (4.0, 9.0, 4.0), strict=True)]
        return by[0] * protein, by[1] * fat, by[2] * carbohydrate, 6.93 * alcohol

    portions = plan.brief.portions if target.per is Per.PORTION else 1
    parts = grams @ np.array([energy(n) for n in range(len(used))])
    if target.of == "energy_kcal":
        declared = plan.brief.energy_basis is EnergyBasis.DECLARED
        return (total("energy_kcal") if declared else float(parts.sum())) / portions
    if target.of == "fat_share_percent":
        return float(100 * parts[1] / parts.sum())
    if target.of == "ketogenic_ratio":
        other = total("protein_g") + total("available_carbohydrate_g")
        return total("fat_g") / other if other > 0 else np.inf
    return total(target.of) / portions
