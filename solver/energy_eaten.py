"""Energy that comes to the plate, food by food: each macronutrient with its factor, less what is lost in cooking."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import fsum, isnan
from typing import TypeAlias

from solver.brief import EnergyBasis
from solver.energy import KJ_FACTORS, Factors, factors_kcal
from solver.foods import Food, Polyols
from solver.numerics import FloatArray
from solver.used import Used

_NO_POLYOLS = Polyols(polyols_g=0, erythritol_g=0, allulose_g=0, counted_g=0)

#: Energy from protein, fat, carbohydrate and alcohol.
_Parts: TypeAlias = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class MacroEnergy:
    """Energy of the batch from each macronutrient, in the unit of the factors it was counted with."""

    protein: float
    fat: float
    carbohydrate: float
    alcohol: float

    @property
    def total(self) -> float:
        """Their sum, the macro energy."""
        return fsum((self.protein, self.fat, self.carbohydrate, self.alcohol))


def macro_energy_kcal(used: Sequence[Used], basis: EnergyBasis) -> MacroEnergy:
    """On a basis, kcal. A missing macronutrient brings none."""
    return _summed([_parts(item, _kcal_of(item.food, basis), lambda food: factors_kcal(food, basis)) for item in used])


def macro_energy_kj(used: Sequence[Used], basis: EnergyBasis) -> MacroEnergy | None:
    """The same in kJ, by the basis's own factors; None for a basis that has kcal factors only."""
    factors = KJ_FACTORS.get(basis)
    if factors is None:
        return None
    return _summed([_parts(item, _kj_of(item.food, basis), lambda _: factors) for item in used])


def energy_lost_kcal(item: Used) -> float:
    """What an item's stated energy loses with its fat and its alcohol; its fat brings no more than is stated.

    Nothing where none is stated, and of what is as it was weighed.
    """
    stated = None if item.is_as_weighed else item.per_gram("energy_kcal")
    if stated is None:
        return 0.0
    raw, eaten = (macro_energy_kcal([each], EnergyBasis.DECLARED) for each in (item.uncooked, item))
    part = (raw.fat - eaten.fat) / raw.fat if raw.fat > 0 else 0.0
    return part * min(raw.fat, stated * item.grams) + raw.alcohol - eaten.alcohol


def _summed(parts: Sequence[_Parts]) -> MacroEnergy:
    return MacroEnergy(*(fsum(part[place] for part in parts) for place in range(4)))


def _kcal_of(food: Food, basis: EnergyBasis) -> FloatArray | None:
    return None if food.made is None else food.made.kcal[basis.value]


def _kj_of(food: Food, basis: EnergyBasis) -> FloatArray | None:
    return None if food.made is None else food.made.kj[basis.value]


def _parts(item: Used, made: FloatArray | None, factors_of: Callable[[Food], Factors]) -> _Parts:
    """Energy of an item. made: what 100 g of a dish bring, (4,), raw; None for a food."""
    protein, fat, carbohydrate, alcohol = _raw_per_gram(item, made, factors_of)
    of_fat = item.grams * (item.per_gram("fat_g") or 0.0)
    eaten_fat = 1.0 - item.lost_fat_g / of_fat if item.lost_fat_g > 0 else 1.0
    return (
        item.grams * protein,
        item.grams * fat * eaten_fat,
        item.grams * carbohydrate,
        item.grams * alcohol * item.kept("alcohol_g"),
    )


def _raw_per_gram(item: Used, made: FloatArray | None, factors_of: Callable[[Food], Factors]) -> _Parts:
    if made is not None:
        protein, fat, carbohydrate, alcohol = (0.0 if isnan(each) else float(each) / 100 for each in made)
        return protein, fat, carbohydrate, alcohol
    factors = factors_of(item.food)
    return (
        factors.protein * (item.per_gram("protein_g") or 0.0),
        factors.fat * (item.per_gram("fat_g") or 0.0),
        _carbohydrate(item, factors),
        factors.alcohol * (item.per_gram("alcohol_g") or 0.0),
    )


def _carbohydrate(item: Used, factors: Factors) -> float:
    available, total = item.per_gram("available_carbohydrate_g"), item.per_gram("total_carbohydrate_g")
    held = item.food.polyols or _NO_POLYOLS
    sweet = (factors.polyol * held.polyols_g + factors.allulose * held.allulose_g) / 100
    digestible = max((available or 0.0) - held.counted_g / 100, 0.0)
    if factors.fibre is not None:
        return factors.carbohydrate * digestible + factors.fibre * (item.per_gram("fibre_g") or 0.0) + sweet
    if total is not None:
        digestible = max(total - held.stated_g / 100, 0.0)
    return factors.carbohydrate * digestible + sweet
