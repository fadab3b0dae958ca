"""Energy from macronutrients, on the four bases a brief can choose.

general     4 kcal per g protein, 9 fat, 4 carbohydrate with its fibre, 7 alcohol; 17, 37, 17, 29 kJ.
regulation  Regulation (EU) No 1169/2011, Annex XIV: the same for protein, fat and alcohol; 4 kcal (17 kJ) per g
            available carbohydrate and 2 kcal (8 kJ) per g fibre.
specific    the food's own Atwater factors (USDA SR28 FOOD_DES), alcohol 6.93 kcal (SR28 documentation, "Food
            Energy"); a food without factors is counted with the general ones.
declared    what the table or label states; its division among the macronutrients is that of `specific`.

kcal and kJ are two columns of factors, not a conversion: 100 g fat is 900 kcal and 3700 kJ. On the specific and
declared bases there is one column only, and 1 kcal = 4.184 kJ (SR28 documentation; UCUM).
Polyols count with Annex XIV's 2.4 kcal (10 kJ) per g and erythritol with none, in place of the carbohydrate that they
are part of; so does allulose with 0.4 kcal (FDA guidance on allulose, October 2020, from memory; no kJ are published).
Energy of fibre, polyols and allulose falls into the carbohydrate slice on every basis. Where fibre is unknown all
carbohydrate counts as available; where only the available is known it stands for the total. Where alcohol, polyols or
allulose are unknown they count as none: tables give them for the foods that hold them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from solver.brief import EnergyBasis
from solver.foods import Food
from solver.numerics import FloatArray
from solver.nutrients import COLUMN

KJ_PER_KCAL = 4.184

#: Columns of `slices_kcal`, in order.
SLICES = ("protein", "fat", "carbohydrate", "alcohol")

_MACRONUTRIENTS = ("protein_g", "fat_g", "total_carbohydrate_g", "available_carbohydrate_g")


@dataclass(frozen=True, slots=True)
class Factors:
    """Energy per gram. carbohydrate is per g of the total when fibre is None, else of the available.

    polyol: of all but erythritol, which has none.
    """

    protein: float
    fat: float
    carbohydrate: float
    alcohol: float
    fibre: float | None = None
    polyol: float = 2.4
    allulose: float = 0.4


GENERAL_KCAL = Factors(protein=4, fat=9, carbohydrate=4, alcohol=7)
GENERAL_KJ = Factors(protein=17, fat=37, carbohydrate=17, alcohol=29, polyol=10, allulose=0.4 * KJ_PER_KCAL)
REGULATION_KCAL = Factors(protein=4, fat=9, carbohydrate=4, alcohol=7, fibre=2)
REGULATION_KJ = Factors(protein=17, fat=37, carbohydrate=17, alcohol=29, fibre=8, polyol=10, allulose=0.4 * KJ_PER_KCAL)

#: kcal per g alcohol where a food has specific factors.
SPECIFIC_ALCOHOL_KCAL = 6.93

#: A food without polyols or allulose, as `polyol_row` gives it.
NO_POLYOLS: FloatArray = np.zeros(4)
NO_POLYOLS.setflags(write=False)

#: Bases with a column of kJ factors of their own.
KJ_FACTORS: Mapping[EnergyBasis, Factors] = MappingProxyType(
    {EnergyBasis.GENERAL: GENERAL_KJ, EnergyBasis.REGULATION: REGULATION_KJ}
)


def factors_kcal(food: Food, basis: EnergyBasis) -> Factors:
    """The kcal factors that count for a food on a basis."""
    if basis is EnergyBasis.GENERAL:
        return GENERAL_KCAL
    if basis is EnergyBasis.REGULATION:
        return REGULATION_KCAL
    own = food.factors
    if own is None:
        return GENERAL_KCAL
    return Factors(
        protein=GENERAL_KCAL.protein if own.protein is None else own.protein,
        fat=GENERAL_KCAL.fat if own.fat is None else own.fat,
        carbohydrate=GENERAL_KCAL.carbohydrate if own.carbohydrate is None else own.carbohydrate,
        alcohol=SPECIFIC_ALCOHOL_KCAL,
    )


def slices(per_100g: FloatArray, factors: FloatArray, polyols: FloatArray = NO_POLYOLS) -> FloatArray:
    """Energy from each of SLICES in 100 g.

    per_100g: (..., len(NUTRIENTS)); factors: (..., 7) from `as_row`; polyols: (..., 4) from `polyol_row`.
    Returns (..., 4), NaN where protein, fat or carbohydrate is missing.
    """
    protein, fat, total, available = (per_100g[..., COLUMN[name]] for name in _MACRONUTRIENTS)
    fibre, alcohol = (np.nan_to_num(per_100g[..., COLUMN[name]]) for name in ("fibre_g", "alcohol_g"))
    of_total = np.maximum(total - polyols[..., :3].sum(axis=-1), 0)
    of_available = np.maximum(available - polyols[..., 3], 0)
    by_total = np.where(np.isnan(total), of_available, of_total) * factors[..., 2]
    by_parts = of_available * factors[..., 2] + fibre * factors[..., 4]
    carbohydrate = np.where(np.isnan(factors[..., 4]), by_total, by_parts)
    carbohydrate = carbohydrate + polyols[..., 0] * factors[..., 5] + polyols[..., 2] * factors[..., 6]
    return np.stack(
        (protein * factors[..., 0], fat * factors[..., 1], carbohydrate, alcohol * factors[..., 3]), axis=-1
    )


def as_row(factors: Factors) -> FloatArray:
    """The factors in the order of Factors, (7,); NaN for a fibre factor of None."""
    fibre = np.nan if factors.fibre is None else factors.fibre
    macronutrients = (factors.protein, factors.fat, factors.carbohydrate, factors.alcohol)
    return np.array([*macronutrients, fibre, factors.polyol, factors.allulose])


def polyol_row(food: Food) -> FloatArray:
    """Polyols, erythritol, allulose and what of them counts as available, g in 100 g, (4,); zeros where not stated."""
    held = food.polyols
    if held is None:
        return NO_POLYOLS
    return np.array([held.polyols_g, held.erythritol_g, held.allulose_g, held.counted_g])


def slices_kcal(foods: tuple[Food, ...], per_100g: FloatArray, basis: EnergyBasis) -> FloatArray:
    """Energy from each of SLICES in 100 g of each food, kcal, (foods, 4). per_100g: (foods, len(NUTRIENTS))."""
    found = slices(per_100g, _factor_rows(foods, basis), _polyol_rows(foods))
    for number, food in enumerate(foods):
        if food.made is not None:
            found[number] = food.made.kcal[basis.value]
    return found


def _factor_rows(foods: tuple[Food, ...], basis: EnergyBasis) -> FloatArray:
    """One row for all foods, (7,), where the basis asks no food for its own; else (foods, 7)."""
    if basis in KJ_FACTORS or all(food.factors is None for food in foods):
        return as_row(REGULATION_KCAL if basis is EnergyBasis.REGULATION else GENERAL_KCAL)
    return np.array([as_row(factors_kcal(food, basis)) for food in foods])


def _polyol_rows(foods: tuple[Food, ...]) -> FloatArray:
    """(4,) where no food states any; else (foods, 4)."""
    if all(food.polyols is None for food in foods):
        return NO_POLYOLS
    return np.array([polyol_row(food) for food in foods])
