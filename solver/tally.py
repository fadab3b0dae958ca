"""The numbers of a dish, summed food by food from the raw rows of the table.

Deliberately another path than the matrix that is optimised: plain numbers, exact sums, one food at a time. What the
two paths do not agree on does not leave the house (see `verify`).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
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
    batch, macro = _totals(kitchen.used, brief, fsum(part.eaten_g for part in kitchen.cooked), kitchen.water_lost_g)
    raw_g = fsum(used.grams for used in kitchen.used)
    if kitchen.is_as_weighed:
        weighed, raw_macro = replace(batch, grams=raw_g), macro
    else:
        weighed, raw_macro = _totals(tuple(used.uncooked for used in kitchen.used), brief, raw_g, 0.0)
    return Tally(
        portions=brief.portions,
        batch=batch,
        portion=scaled(batch, 1 / brief.portions),
        raw=weighed,
        collagen_g=fsum(_collagen_g(used) for used in kitchen.used),
        macro=macro,
        raw_macro=raw_macro,
        cooked=kitchen.cooked,
    )


def _collagen_g(used: Used) -> float:
    collagen = collagen_protein_g(used.food)
    return 0.0 if isnan(collagen) else used.grams * collagen / 100


def _totals(used: Sequence[Used], brief: Brief, grams: float, water_lost_g: float) -> tuple[Totals, MacroEnergy]:
    macro = macro_energy_kcal(used, brief.energy_basis)
    columns = _columns(used)
    values = {nutrient: _sum(column) for nutrient, column in columns.items()}
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
        lacking=_lacking(used, columns),
    )
    return totals, macro


def _columns(used: Sequence[Used]) -> dict[str, tuple[float | None, ...]]:
    """What each item brings of each nutrient, looked up once for the sums and for what is missing in them."""
    names = (nutrient.name for nutrient in NUTRIENTS)
    if not used:
        return dict.fromkeys(names, ())
    return dict(zip(names, zip(*(item.eaten_row() for item in used), strict=True), strict=True))


def _sum(column: Sequence[float | None]) -> float | None:
    known = [amount for amount in column if amount is not None]
    return fsum(known) if known else None


def _lacking(used: Sequence[Used], columns: Mapping[str, Sequence[float | None]]) -> dict[str, tuple[str, ...]]:
    return {
        nutrient: tuple(
            dict.fromkeys(item.quantity.item.name for item, amount in zip(used, column, strict=True) if amount is None)
        )
        for nutrient, column in columns.items()
        if None in column
    }


def scaled(totals: Totals, factor: float) -> Totals:
    """The totals of a part of the batch."""
    return Totals(
        grams=totals.grams * factor,
        energy_kcal=totals.energy_kcal * factor,
        energy_kj=totals.energy_kj * factor,
        values={name: None if value is None else value * factor for name, value in totals.values.items()},
        lacking=totals.lacking,
    )
