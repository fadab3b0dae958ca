"""How far the plate may be off: every total of a dish, its shares and its ratio, and where that comes from.

The printed amounts are exact for these inputs; the inputs are not exact. Each source of error (cooking, the table, the
labels) is an interval that holds the truth nine times in ten. Each moves the totals, the shares and the ratio by what
they change when they are counted anew at either end of it. Independent errors are combined by root sum of squares
(JCGM 100:2008, Guide to the Expression of Uncertainty in Measurement, 5.1.2, from memory): exact for sums of normal
errors, close for shares. Below and above are kept apart. Not counted: the retention of vitamins and alcohol, the scale,
polyols, the cooking of a dish that is an ingredient, and what no source states.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from solver.brief import Brief
from solver.nutrients import NUTRIENTS
from solver.outcome import Dish, Totals
from solver.plate_off_cooking import cooking_causes, used_in
from solver.plate_off_foods import food_causes, foods_in, nothing_stated_for
from solver.plate_off_moves import Cause, Kind, OffBy
from solver.plate_off_shares import Moved, Point

#: Always stated where the dish has the total; other nutrients where some source of error touches them.
ALWAYS = (
    *("protein_g", "fat_g", "total_carbohydrate_g", "available_carbohydrate_g", "fibre_g", "saturated_fat_g"),
    *("monounsaturated_fat_g", "polyunsaturated_fat_g", "cholesterol_mg", "sodium_mg"),
)

_NOT_OFF = OffBy(0.0, 0.0)

EXACT = "exact for these inputs"

#: For the reader of the numbers.
STATEMENT = (
    f"The numbers are {EXACT}: composition and cooking as stated, amounts as printed. "
    "Nine times in ten the plate is off by no more than this, as far as the sources state how far they are off."
)


@dataclass(frozen=True, slots=True)
class TotalsOff:
    """How far totals may be off, each in its own unit. values: by nutrient name."""

    grams: OffBy
    energy_kcal: OffBy
    energy_kj: OffBy
    values: Mapping[str, OffBy]


@dataclass(frozen=True, slots=True)
class Source:
    """One source of error, and what it does to the fat share (percentage points) and to the energy of a portion (kcal).

    about: a component's name for cooking, else the item's. fat_share_points: None where the dish has no fat share.
    """

    kind: Kind
    about: str
    why: str
    fat_share_points: OffBy | None
    energy_kcal: OffBy


@dataclass(frozen=True, slots=True)
class PlateOff:
    """How far the plate may be off, nine times in ten. Shares are percentage points; None where they are undefined.

    sources: largest first. nothing_stated_for: macronutrient to the names of items that hold it and whose source states
    no error of it, so that none is counted.
    """

    batch: TotalsOff
    portion: TotalsOff
    fat_share_points: OffBy | None
    protein_share_points: OffBy | None
    carbohydrate_share_points: OffBy | None
    ketogenic_ratio: OffBy | None
    sources: tuple[Source, ...]
    nothing_stated_for: Mapping[str, tuple[str, ...]]


def plate_off(dish: Dish, brief: Brief) -> PlateOff:
    """How far a dish may be off. brief: the one that it was made for, for its basis and its portions."""
    placed = [(used, item, cooked) for cooked in dish.cooked for used, item in used_in(cooked, dish, brief)]
    eaten = [food for each in placed for food in foods_in(*each)]
    causes = [*cooking_causes(dish, brief), *food_causes(eaten, brief.energy_basis)]
    moved = Point.of(dish, [used for used, _, _ in placed], brief.energy_basis).moved(causes)
    totals = moved.totals()
    return PlateOff(
        batch=_totals(dish.batch, totals, 1.0),
        portion=_totals(dish.portion, totals, 1.0 / brief.portions),
        fat_share_points=moved.share_points("fat"),
        protein_share_points=moved.share_points("protein"),
        carbohydrate_share_points=moved.share_points("carbohydrate"),
        ketogenic_ratio=moved.ketogenic_ratio(),
        sources=_sources(causes, moved, brief.portions),
        nothing_stated_for=nothing_stated_for(eaten),
    )


def _totals(totals: Totals, off: Mapping[str, OffBy], part: float) -> TotalsOff:
    names = [nutrient.name for nutrient in NUTRIENTS if totals.values[nutrient.name] is not None]
    grams, kcal, kj = (off.get(name, _NOT_OFF).times(part) for name in ("grams", "basis_kcal", "basis_kj"))
    return TotalsOff(
        grams=grams,
        energy_kcal=kcal,
        energy_kj=kj,
        values={name: off.get(name, _NOT_OFF).times(part) for name in names if name in ALWAYS or name in off},
    )


def _sources(causes: list[Cause], moved: Moved, portions: int) -> tuple[Source, ...]:
    found = zip(causes, moved.share_points_by_cause("fat"), moved.total_by_cause("basis_kcal"), strict=True)
    sources = (Source(of.kind, of.about, of.why, share, energy.times(1.0 / portions)) for of, share, energy in found)
    return tuple(sorted(sources, key=_size))


def _size(source: Source) -> tuple[float, float, str, str]:
    share = source.fat_share_points or OffBy(0.0, 0.0)
    energy = source.energy_kcal
    return -max(share.below, share.above), -max(energy.below, energy.above), source.kind.value, source.about
