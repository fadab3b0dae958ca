"""From grams to the measure a cook would use, with the weight that this measure really has.

Preferred, among what lies about equally near: whole pieces of a standard size (eggs, cloves, slices), then teaspoon,
tablespoon or cup by size, then a cup of one kind ("1 cup, shredded") of what has no plain cup: cream is poured, not
whipped. Amounts are those that spoons and cups are made for. What a measure says in brackets ("1 slice (1 oz)") is left
out where the rest means the same weight. Never a stick or a can: these are packs, and "1/2 cup" is the same butter; and
never a spoon of what is only known by the cup of pieces ("1 cup, diced"), nor leaves, which nobody counts.
"""

import math
import re
from bisect import bisect_left
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from solver.errors import AmountError
from solver.foods import Food
from solver.measure_lookup import weigh_one
from solver.measure_rows import Row, rows_of
from solver.unit_words import unit_words
from solver.units import (
    CUP,
    DECILITRE,
    GRAM,
    KILOGRAM,
    LITRE,
    MILLIGRAM,
    MILLILITRE,
    TABLESPOON,
    TEASPOON,
    find_unit,
)

#: How near a measure is: within 2, 5 or 10 percent of the weight. What is further off is no measure of it.
NEARNESS = (0.02, 0.05, 0.10)

#: A cook counts pieces up to a dozen, and weighs what would take more.
_MOST_PIECES = 12

_QUARTERS = tuple(Fraction(part, 4) for part in range(4))
_SPOONS_SMALL = (Fraction(1, 8), *(whole + part for whole in range(3) for part in _QUARTERS if whole + part))
_SPOONS_LARGE = (*(Fraction(halves, 2) for halves in range(2, 8)), *map(Fraction, (5, 6, 7)))
_CUP_PARTS = tuple(sorted({*_QUARTERS, Fraction(1, 3), Fraction(2, 3)}))
_CUPS = tuple(whole + part for whole in range(16) for part in _CUP_PARTS if whole + part)

#: What each volume is used for: up to a tablespoon, up to half a cup (4 tbsp are 1/4 cup), up to a gallon.
_COOKS_AMOUNTS = {
    unit: tuple(map(float, amounts))
    for unit, amounts in ((TEASPOON, _SPOONS_SMALL), (TABLESPOON, _SPOONS_LARGE), (CUP, _CUPS))
}
_COOKS_COUNTS = tuple(map(float, range(1, _MOST_PIECES + 1)))
_COOKS_PIECES = frozenset(
    unit_words(piece).words
    for piece in (
        *("large", "medium", "small", "extra large", "jumbo", "egg", "fruit", "clove", "slice"),
        *("sprig", "stalk", "spear", "ear", "head", "link", "strip", "patty"),
    )
)
_METRIC = (GRAM, KILOGRAM, MILLIGRAM, MILLILITRE, DECILITRE, LITRE)
_PLURALS = {
    **{unit: f"{unit}s" for unit in ("cup", "pint", "quart", "gallon", "tablespoon", "teaspoon", "liter", "litre")},
    **{piece: f"{piece}s" for piece in ("egg", "clove", "slice", "sprig", "stalk", "spear", "ear", "head", "link")},
    **{piece: f"{piece}s" for piece in ("strip", "stick", "pat", "piece", "fillet", "can", "jar", "package", "steak")},
    "leaf": "leaves",
    "patty": "patties",
    "dash": "dashes",
    "pinch": "pinches",
}
_SINGULARS = {plural: noun for noun, plural in _PLURALS.items()}

_BRACKETS = re.compile(r"\s*\([^()]*\)")

#: How big one of them is, at the end of a measure of the table: (1 oz), (2-1/2" dia), (about 23 slices).
_SIZE = re.compile(r"\(((?:about )?\d[^()]* (?:oz|dia|thick|long|slices))\)$")


@dataclass(frozen=True, slots=True)
class KitchenMeasure:
    """`amount` of `unit`, written as `text` ("1 1/2 tbsp").

    grams: what this measure itself weighs for the food; beside any other weight it is "about" so much.
    """

    amount: float
    unit: str
    text: str
    grams: float


def kitchen_measure(grams: float, food: Food) -> KitchenMeasure | None:
    """The measure a cook would use for so many grams; None where none of the food's lies within 10 %."""
    if not (math.isfinite(grams) and grams > 0):
        return None
    ranked = [
        (_nearness(found.grams, grams), found.rank, abs(found.grams - grams), place, found)
        for place, found in enumerate(_candidates(grams, food))
    ]
    near = [candidate for candidate in ranked if candidate[0] < len(NEARNESS)]
    return _in_words(min(near, key=lambda candidate: candidate[:-1])[-1], food) if near else None


def text_of(amount: float, unit: str) -> str:
    """A count and its unit as a cook reads them: "2 large", "1 1/2 tbsp", "3 cups, shredded".

    Halves, thirds, quarters, sixths and eighths are written as fractions, anything else, and all of a metric unit, to
    six digits. The noun in front is put in the plural for more than one ("1 1/2 cups"), else in the singular; and of
    more than one the size in brackets is that of each ("7 slices (1 oz each)").
    """
    number = _decimal_text(amount) if find_unit(unit) in _METRIC else _fraction_text(amount)
    words = _inflected(unit, _PLURALS if amount > 1 else _SINGULARS)
    sized = _SIZE.sub(r"(\1 each)", words) if amount > 1 else words
    return f"{number} {sized}".rstrip()


def _nearness(measured_g: float, wanted_g: float) -> int:
    """Place in `NEARNESS`, or its length when further off than all."""
    off = abs(measured_g - wanted_g) / wanted_g
    return sum(off > limit for limit in NEARNESS)


class _Candidate(NamedTuple):
    """rank: of its kind, the preferred first. grams: what `amount` of `unit` weighs."""

    rank: int
    amount: float
    unit: str
    grams: float


def _candidates(grams: float, food: Food) -> Iterator[_Candidate]:
    """For every unit a cook would think of, its amount nearest to the weight."""
    rows = rows_of(food)
    for row in rows:
        if _is_cooks_piece(row):
            yield from _nearest(0, row.measure.unit, _COOKS_COUNTS, grams, food)
    if any(row.said.unit in _COOKS_AMOUNTS and (row.said.is_plain or not row.said.bare) for row in rows):
        for unit, amounts in _COOKS_AMOUNTS.items():
            yield from _nearest(1, unit.name, amounts, grams, food)
    if any(row.said.unit is CUP and row.said.is_plain for row in rows):
        return
    for row in rows:
        if row.said.unit is CUP:
            yield from _nearest(2, row.measure.unit, _COOKS_AMOUNTS[CUP], grams, food)


def _is_cooks_piece(row: Row) -> bool:
    return row.said.unit is None and row.said.bare in _COOKS_PIECES


def _nearest(rank: int, unit: str, amounts: tuple[float, ...], grams: float, food: Food) -> Iterator[_Candidate]:
    """At most one: nothing where the food cannot be measured in the unit."""
    try:
        each_g = weigh_one(unit, food)
    except AmountError:
        return
    place = bisect_left(amounts, grams / each_g)  # amounts rise
    amount = min(amounts[max(place - 1, 0) : place + 1], key=lambda amount: abs(amount * each_g - grams))
    yield _Candidate(rank, amount, unit, amount * each_g)


def _in_words(found: _Candidate, food: Food) -> KitchenMeasure:
    """The measure, without its brackets where the food weighs the same without them."""
    unit = _BRACKETS.sub("", found.unit)
    try:
        same = math.isclose(found.amount * weigh_one(unit, food), found.grams, rel_tol=1e-12)
    except AmountError:
        same = False
    said = unit if same else found.unit
    return KitchenMeasure(found.amount, said, text_of(found.amount, said), found.grams)


def _decimal_text(amount: float) -> str:
    return f"{Decimal(f'{amount:.6g}'):f}"


def _fraction_text(amount: float) -> str:
    whole = math.floor(amount)
    part = Fraction(amount - whole).limit_denominator(8)
    if part.denominator in (5, 7) or not math.isclose(whole + part, amount, rel_tol=1e-9, abs_tol=1e-9):
        return _decimal_text(amount)
    if part in {0, 1}:
        return str(whole + int(part))
    return f"{whole} {part}" if whole else str(part)


def _inflected(unit: str, forms: Mapping[str, str]) -> str:
    """The unit with the noun it begins with in another form; sizes and abbreviations ("large", "tbsp") have none."""
    noun = re.split(r"[ ,]", unit, maxsplit=1)[0]
    return forms.get(noun, noun) + unit[len(noun) :]
