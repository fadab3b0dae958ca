"""What a dish is made of, and what its ingredients bring to 100 g of it besides nutrients."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

import numpy as np

from solver.brief import EnergyBasis
from solver.dish_fixed import FixedDish
from solver.dish_pot import Pot
from solver.energy import KJ_FACTORS, KJ_PER_KCAL, slices_kcal
from solver.energy_eaten import MacroEnergy, macro_energy_kcal, macro_energy_kj
from solver.foods import Food, Ingredient, Made, Polyols
from solver.numerics import BoolArray, FloatArray
from solver.nutrients import COLUMN, NUTRIENTS
from solver.outcome import Quantity
from solver.used import Used


def made_of(dish: FixedDish, pot: Pot) -> Made:
    """The energies on every basis, NaN for a macronutrient that an ingredient lacks, and the leaves of the dish.

    kj is by the basis's own factors where it has them, else 4.184 to the kcal.
    """
    kcal: dict[str, FloatArray] = {}
    kj: dict[str, FloatArray] = {}
    for basis in EnergyBasis:
        gaps = _gaps(pot, basis)
        kcal[basis.value] = _per_100g(macro_energy_kcal(pot.used, basis), gaps, pot.yield_g)
        own = macro_energy_kj(pot.used, basis) if basis in KJ_FACTORS else None
        kj[basis.value] = kcal[basis.value] * KJ_PER_KCAL if own is None else _per_100g(own, gaps, pot.yield_g)
    return Made(MappingProxyType(kcal), MappingProxyType(kj), _ingredients(dish, pot))


def polyols_of(pot: Pot) -> Polyols | None:
    """Polyols and allulose of all ingredients together; None where no ingredient states any."""
    held = [(used.grams / pot.yield_g, used.food.polyols) for used in pot.used if used.food.polyols is not None]
    if not held:
        return None
    return Polyols(
        polyols_g=sum(share * each.polyols_g for share, each in held),
        erythritol_g=sum(share * each.erythritol_g for share, each in held),
        allulose_g=sum(share * each.allulose_g for share, each in held),
        counted_g=sum(share * each.counted_g for share, each in held),
    )


def standard_error(pot: Pot) -> FloatArray | None:
    """Root of the sum of squares of what each food brings; NaN where none has one, None where no food ever has."""
    each = _by_food(pot, lambda food: food.standard_error)
    return _combined(each, lambda brought: np.sqrt((brought**2).sum(axis=0)))


def half_interval(pot: Pot) -> FloatArray | None:
    """The sum of what each food brings, since all may be off to the same side; NaN and None likewise."""
    return _combined(_by_food(pot, lambda food: food.half_interval), lambda brought: brought.sum(axis=0))


def _per_100g(energy: MacroEnergy, gaps: BoolArray, yield_g: float) -> FloatArray:
    row = np.array([energy.protein, energy.fat, energy.carbohydrate, energy.alcohol])
    return np.where(gaps, np.nan, row * (100 / yield_g))


def _gaps(pot: Pot, basis: EnergyBasis) -> BoolArray:
    """Which of the four energies some ingredient has no value for, (4,)."""
    foods = tuple(used.food for used in pot.used)
    rows = np.array([_filled(used) for used in pot.used])
    return np.asarray(np.isnan(slices_kcal(foods, rows, basis)).any(axis=0))


def _filled(used: Used) -> FloatArray:
    row = used.food.per_100g.copy()
    for nutrient, value in used.count_as.items():
        if nutrient in COLUMN and np.isnan(row[COLUMN[nutrient]]):
            row[COLUMN[nutrient]] = value
    return row


def _ingredients(dish: FixedDish, pot: Pot) -> tuple[Ingredient, ...]:
    """Foods of the table and labels, each once raw and once cooked at most, in the order of their ids.

    What did not stay is there with 0 g: none of its numbers count, but it has been in the pot.
    """
    methods = {component.name for component in dish.components if component.method is not None}
    found: dict[tuple[str, bool], tuple[Food, float]] = {}
    quantities = [*(used.quantity for used in pot.used), *pot.removed]
    for quantity in quantities:
        share = max(quantity.grams, 0.0) / pot.yield_g
        for leaf in _leaves(quantity):
            key = (leaf.food.id, leaf.cooked or quantity.placed.component in methods)
            food, grams = found.get(key, (leaf.food, 0.0))
            found[key] = (food, grams + leaf.grams * share)
    return tuple(Ingredient(food, grams, cooked) for (_, cooked), (food, grams) in sorted(found.items(), key=_key))


def _leaves(quantity: Quantity) -> tuple[Ingredient, ...]:
    food = quantity.item.food
    return (Ingredient(food, 100.0, cooked=False),) if food.made is None else food.made.ingredients


def _key(entry: tuple[tuple[str, bool], tuple[Food, float]]) -> tuple[str, bool]:
    return entry[0]


def _by_food(pot: Pot, row_of: Callable[[Food], FloatArray | None]) -> Mapping[str, FloatArray]:
    """What each food brings to 100 g of the dish, by its id; the errors of one food go together."""
    found: dict[str, FloatArray] = {}
    for used in pot.used:
        row = row_of(used.food)
        if row is not None:
            brought = _kept(used) * row * (used.grams / pot.yield_g)
            before = found.get(used.food.id)
            found[used.food.id] = brought if before is None else before + brought
    return found


def _kept(used: Used) -> FloatArray:
    """The part of each nutrient that is still in what is eaten, (len(NUTRIENTS),)."""
    parts = np.ones(len(NUTRIENTS))
    for column, nutrient in enumerate(NUTRIENTS):
        raw, eaten = used.uncooked.eaten(nutrient.name), used.eaten(nutrient.name)
        if raw is not None and eaten is not None and raw > 0:
            parts[column] = eaten / raw
    return parts


def _combined(each: Mapping[str, FloatArray], combine: Callable[[FloatArray], FloatArray]) -> FloatArray | None:
    if not each:
        return None
    brought = np.array(list(each.values()))
    return np.where(np.isnan(brought).all(axis=0), np.nan, combine(np.nan_to_num(brought)))
