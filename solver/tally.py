"""The numbers of a dish, summed food by food from the raw rows of the table.

Deliberately another path than the matrix that is optimised: plain numbers, exact sums, one food at a time. What the
two paths do not agree on does not leave the house (see `verify`).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum, isnan

from solver.brief import Brief, EnergyBasis
from solver.cooked import CookedComponent
from solver.energy import KJ_PER_KCAL
from solver.energy_eaten import MacroEnergy, energy_lost_kcal, macro_energy_kcal, macro_energy_kj
from solver.nutrients import NUTRIENTS
from solver.outcome import Quantity, Totals
from solver.protein import collagen_protein_g
from solver.used import Used, in_kitchen

#: Without one of these an item's energy cannot be divided.
MACRONUTRIENTS = ("protein_g", "fat_g", "available_carbohydrate_g")


@dataclass(frozen=True, slots=True)
class Tally:
    """Sums of the batch as eaten and raw; portion is the batch divided by the number of portions.

    collagen_g: protein of the batch that is collagen's. macro, raw_macro: kcal of the batch, as eaten and raw.
    cooked: every component in use.
    """

    portions: int
    batch: Totals
    portion: Totals
    raw: Totals
    collagen_g: float
    macro: MacroEnergy
    raw_macro: MacroEnergy
    cooked: tuple[CookedComponent, ...]


def tally(quantities: Sequence[Quantity], brief: Brief, spoons: Mapping[str, int] | None = None) -> Tally:
    """Sum a dish up on the brief's basis, counting missing values as the brief says.

    spoons: name of a component to teaspoons of its drippings that are spooned back.
    """
    kitchen = in_kitchen(quantities, spoons or {}, brief)
    raw = tuple(used.uncooked for used in kitchen.used)
    batch, macro = _totals(kitchen.used, brief, fsum(part.eaten_g for part in kitchen.cooked), kitchen.water_lost_g)
    weighed, raw_macro = _totals(raw, brief, fsum(used.grams for used in raw), 0.0)
    return Tally(
        portions=brief.portions,
        batch=batch,
        portion=scaled(batch, 1 / brief.portions),
        raw=weighed,
        collagen_g=fsum(_collagen_g(used) for used in raw),
        macro=macro,
        raw_macro=raw_macro,
        cooked=kitchen.cooked,
    )


def _collagen_g(used: Used) -> float:
    collagen = collagen_protein_g(used.food)
    return 0.0 if isnan(collagen) else used.grams * collagen / 100


def _totals(used: Sequence[Used], brief: Brief, grams: float, water_lost_g: float) -> tuple[Totals, MacroEnergy]:
    macro = macro_energy_kcal(used, brief.energy_basis)
    values = {nutrient.name: _sum(used, nutrient.name) for nutrient in NUTRIENTS}
    water = values["water_g"]
    values["water_g"] = None if water is None else max(water - water_lost_g, 0.0)
    stated = values["energy_kcal"]
    values["energy_kcal"] = None if stated is None else stated - fsum(energy_lost_kcal(each) for each in used)
    declared = brief.energy_basis is EnergyBasis.DECLARED
    energy = (values["energy_kcal"] or 0.0) if declared else macro.total
    kj = macro_energy_kj(used, brief.energy_basis)
    totals = Totals(
        grams=grams,
        energy_kcal=energy,
        energy_kj=energy * KJ_PER_KCAL if kj is None else kj.total,
        values=values,
        lacking=_lacking(used),
    )
    return totals, macro


def _sum(used: Sequence[Used], nutrient: str) -> float | None:
    known = [amount for item in used if (amount := item.eaten(nutrient)) is not None]
    return fsum(known) if known else None


def _lacking(used: Sequence[Used]) -> dict[str, tuple[str, ...]]:
    gaps = {
        nutrient.name: tuple(
            dict.fromkeys(item.quantity.item.name for item in used if item.per_gram(nutrient.name) is None)
        )
        for nutrient in NUTRIENTS
    }
    return {nutrient: names for nutrient, names in gaps.items() if names}


def scaled(totals: Totals, factor: float) -> Totals:
    """The totals of a part of the batch."""
    return Totals(
        grams=totals.grams * factor,
        energy_kcal=totals.energy_kcal * factor,
        energy_kj=totals.energy_kj * factor,
        values={name: None if value is None else value * factor for name, value in totals.values.items()},
        lacking=totals.lacking,
    )
