"""What a change of nutrients on the plate does to energy, with the factors that the dish was counted with."""

from collections.abc import Mapping
from math import isnan

from solver.brief import EnergyBasis
from solver.energy import KJ_FACTORS, KJ_PER_KCAL, Factors, factors_kcal
from solver.foods import Food
from solver.plate_off_moves import SLICE_COLUMN

_FAT = 1


def with_energy(changes: Mapping[str, float], food: Food, basis: EnergyBasis) -> dict[str, float]:
    """The changes, g on the plate by nutrient name, with those of every energy column.

    Where energy as stated is among the changes it has an error of its own, and the macronutrients' are not added to it;
    elsewhere the source counted it from them, and it follows them.
    """
    slices = _slices(changes, food, factors_kcal(food, basis))
    stated = changes.get("energy_kcal")
    if stated is None:
        stated = sum(_slices(changes, food, factors_kcal(food, EnergyBasis.DECLARED)).values())
    kcal = stated if basis is EnergyBasis.DECLARED else sum(slices.values())
    by_kj = KJ_FACTORS.get(basis)
    kj = kcal * KJ_PER_KCAL if by_kj is None else sum(_slices(changes, food, by_kj).values())
    return {
        **changes,
        **{SLICE_COLUMN[of]: energy for of, energy in slices.items()},
        "energy_kcal": stated,
        "basis_kcal": kcal,
        "basis_kj": kj,
    }


def with_fat_energy(changes: Mapping[str, float], food: Food, basis: EnergyBasis) -> dict[str, float]:
    """The same where only fat moves; the fat of a dish has the factor that its ingredients give it."""
    if food.made is None or not food.value("fat_g") > 0:
        return with_energy(changes, food, basis)
    fat, per_100g = changes["fat_g"], food.value("fat_g")
    kcal, stated = (fat * float(food.made.kcal[of.value][_FAT]) / per_100g for of in (basis, EnergyBasis.DECLARED))
    kj = fat * float(food.made.kj[basis.value][_FAT]) / per_100g if basis in KJ_FACTORS else kcal * KJ_PER_KCAL
    energy = {SLICE_COLUMN["fat"]: kcal, "energy_kcal": stated, "basis_kcal": kcal, "basis_kj": kj}
    return {**changes, **energy}


def _slices(changes: Mapping[str, float], food: Food, factors: Factors) -> dict[str, float]:
    """Polyols and allulose stay what they are; so does carbohydrate that counts as none of it."""
    by_parts = factors.fibre is not None or isnan(food.value("total_carbohydrate_g"))
    carbohydrate = changes.get("available_carbohydrate_g" if by_parts else "total_carbohydrate_g", 0.0)
    return {
        "protein": factors.protein * changes.get("protein_g", 0.0),
        "fat": factors.fat * changes.get("fat_g", 0.0),
        "carbohydrate": factors.carbohydrate * carbohydrate + (factors.fibre or 0.0) * changes.get("fibre_g", 0.0),
        "alcohol": factors.alcohol * changes.get("alcohol_g", 0.0),
    }
