"""The numbers of a dish, summed food by food from the raw rows of the table.

Deliberately another path than the matrix that is optimised: plain numbers, exact sums, one food at a time. What the
two paths do not agree on does not leave the house (see `verify`).
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum, isnan

from solver.brief import Brief, EnergyBasis
from solver.energy import KJ_FACTORS, KJ_PER_KCAL, Factors, factors_kcal
from solver.foods import Food, Polyols
from solver.nutrients import NUTRIENTS
from solver.outcome import Quantity, Totals

#: Without one of these an item's energy cannot be divided.
MACRONUTRIENTS = ("protein_g", "fat_g", "available_carbohydrate_g")

_NO_POLYOLS = Polyols(polyols_g=0, erythritol_g=0, allulose_g=0, counted_g=0)


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


@dataclass(frozen=True, slots=True)
class Tally:
    """Sums of the batch; portion is the batch divided by the number of portions. macro: kcal of the batch."""

    batch: Totals
    portion: Totals
    macro: MacroEnergy


def tally(quantities: Sequence[Quantity], brief: Brief) -> Tally:
    """Sum a dish up on the brief's basis, counting missing values as the brief says."""
    used = [_Used(quantity, brief.count_missing_as) for quantity in quantities]
    macro = _macro_energy(used, lambda food: factors_kcal(food, brief.energy_basis))
    values = {nutrient.name: _sum(used, nutrient.name) for nutrient in NUTRIENTS}
    stated = values["energy_kcal"] or 0.0
    energy = stated if brief.energy_basis is EnergyBasis.DECLARED else macro.total
    batch = Totals(
        grams=fsum(item.grams for item in used),
        energy_kcal=energy,
        energy_kj=_kj(used, energy, brief.energy_basis),
        values=values,
        lacking=_lacking(used),
    )
    return Tally(batch, _portion(batch, brief.portions), macro)


@dataclass(frozen=True, slots=True)
class _Used:
    """An item in use, read as the brief counts it."""

    quantity: Quantity
    count_as: Mapping[str, float]

    @property
    def grams(self) -> float:
        return self.quantity.grams

    @property
    def food(self) -> Food:
        return self.quantity.item.food

    def per_gram(self, nutrient: str) -> float | None:
        value = self.food.value(nutrient)
        if isnan(value):
            counted = self.count_as.get(nutrient)
            return None if counted is None else counted / 100
        return value / 100


def _sum(used: list[_Used], nutrient: str) -> float | None:
    known = [item.grams * per_gram for item in used if (per_gram := item.per_gram(nutrient)) is not None]
    return fsum(known) if known else None


def _lacking(used: list[_Used]) -> dict[str, tuple[str, ...]]:
    gaps = {
        nutrient.name: tuple(item.quantity.item.name for item in used if item.per_gram(nutrient.name) is None)
        for nutrient in NUTRIENTS
    }
    return {nutrient: names for nutrient, names in gaps.items() if names}


def _macro_energy(used: list[_Used], factors_of: Callable[[Food], Factors]) -> MacroEnergy:
    parts = [_parts(item, factors_of(item.food)) for item in used]
    protein, fat, carbohydrate, alcohol = zip(*parts, strict=True) if parts else ((), (), (), ())
    return MacroEnergy(fsum(protein), fsum(fat), fsum(carbohydrate), fsum(alcohol))


def _parts(item: _Used, factors: Factors) -> tuple[float, float, float, float]:
    protein, fat, alcohol = (item.per_gram(name) or 0.0 for name in ("protein_g", "fat_g", "alcohol_g"))
    carbohydrate = _carbohydrate(item, factors)
    return (
        item.grams * factors.protein * protein,
        item.grams * factors.fat * fat,
        item.grams * carbohydrate,
        item.grams * factors.alcohol * alcohol,
    )


def _carbohydrate(item: _Used, factors: Factors) -> float:
    available, total = item.per_gram("available_carbohydrate_g"), item.per_gram("total_carbohydrate_g")
    held = item.food.polyols or _NO_POLYOLS
    sweet = (factors.polyol * held.polyols_g + factors.allulose * held.allulose_g) / 100
    digestible = max((available or 0.0) - held.counted_g / 100, 0.0)
    if factors.fibre is not None:
        return factors.carbohydrate * digestible + factors.fibre * (item.per_gram("fibre_g") or 0.0) + sweet
    if total is not None:
        digestible = max(total - held.stated_g / 100, 0.0)
    return factors.carbohydrate * digestible + sweet


def _kj(used: list[_Used], energy_kcal: float, basis: EnergyBasis) -> float:
    factors = KJ_FACTORS.get(basis)
    if factors is None:
        return energy_kcal * KJ_PER_KCAL
    return _macro_energy(used, lambda _: factors).total


def _portion(batch: Totals, portions: int) -> Totals:
    return Totals(
        grams=batch.grams / portions,
        energy_kcal=batch.energy_kcal / portions,
        energy_kj=batch.energy_kj / portions,
        values={name: None if value is None else value / portions for name, value in batch.values.items()},
        lacking=batch.lacking,
    )
