"""The audit: what in the table looks wrong and is left as it is, because the release does not show what is right.

Every check is arithmetic on the printed numbers, in decimals, so that it says the same on every machine.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from reference_data.from_sr28.ascii_files import STARCH, FoodRow
from reference_data.from_sr28.refuse import CORRECTED
from solver.nutrients import NUTRIENTS

_NUMBER: Mapping[str, int] = {n.tagname: n.sr28_number for n in NUTRIENTS if n.sr28_number is not None}

#: g per 100 g that decimals, rounded to two places each, may be off in a sum.
ROUNDING_G = Decimal("0.05")
PROXIMATES_G = (Decimal(97), Decimal(103))
UNEXPLAINED_CARBOHYDRATE_G = Decimal(1)
ENERGY_KCAL = Decimal(1)
REFUSE_POINTS = Decimal(1)

#: kcal per g alcohol (SR28 documentation, "Food Energy").
ALCOHOL_KCAL = Decimal("6.93")

#: Dairy and eggs, poultry, pork, beef, fish, lamb and game: foods without starch of their own.
_ANIMAL_GROUPS = frozenset({"0100", "0500", "1000", "1300", "1500", "1700"})


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that looks wrong: what was found against what was expected."""

    food: str
    check: str
    found: str
    expected: str


@dataclass(frozen=True, slots=True)
class Row:
    """A food with its numbers per 100 g; a missing nutrient is None."""

    food: FoodRow
    values: Mapping[int, Decimal]

    def value(self, tagname: str) -> Decimal | None:
        """The amount by INFOODS tagname."""
        return self.values.get(_NUMBER[tagname])

    def known(self, *tagnames: str) -> list[Decimal]:
        """The amounts that are not missing."""
        return [value for value in map(self.value, tagnames) if value is not None]


def findings(food: FoodRow, printed: Mapping[int, str]) -> Iterator[Finding]:
    """All that looks wrong with one food. printed: nutrient number to the printed number."""
    row = Row(food, {number: Decimal(text) for number, text in printed.items()})
    for check in (_fibre, _proximates, _unexplained, _parts_of_carbohydrate, _fatty_acids, _energy, _refuse):
        yield from check(row)


def _fibre(row: Row) -> Iterator[Finding]:
    if row.value("FIBTG") is None:
        yield Finding(row.food.number, "fibre missing", "", "a value; all carbohydrate counts as available")


def _proximates(row: Row) -> Iterator[Finding]:
    parts = row.known("WATER", "PROCNT", "FAT", "ASH", "CHOCDF")
    total = sum(parts) + sum(row.known("ALC"))
    low, high = PROXIMATES_G
    if len(parts) == len(("water", "protein", "fat", "ash", "carbohydrate")) and not low <= total <= high:
        yield Finding(row.food.number, "proximates", f"{total} g", f"{low} to {high} g")


def _unexplained(row: Row) -> Iterator[Finding]:
    """Carbohydrate by difference gathers the errors of the other proximates: cheddar has 3.1 g, its sugars 0.5."""
    carbohydrate, sugars = row.value("CHOCDF"), row.value("SUGAR")
    if carbohydrate is None or sugars is None or row.food.group not in _ANIMAL_GROUPS:
        return
    explained = sugars + sum(row.known("FIBTG")) + row.values.get(STARCH, Decimal(0))
    if carbohydrate - explained >= UNEXPLAINED_CARBOHYDRATE_G:
        expected = f"{explained} g of sugars, fibre and starch"
        yield Finding(row.food.number, "carbohydrate by difference", f"{carbohydrate} g", expected)


def _parts_of_carbohydrate(row: Row) -> Iterator[Finding]:
    carbohydrate, parts = row.value("CHOCDF"), sum(row.known("SUGAR", "FIBTG"))
    if carbohydrate is not None and parts > carbohydrate + ROUNDING_G:
        yield Finding(row.food.number, "sugars and fibre", f"{parts} g", f"at most carbohydrate {carbohydrate} g")


def _fatty_acids(row: Row) -> Iterator[Finding]:
    fat, acids = row.value("FAT"), sum(row.known("FASAT", "FAMS", "FAPU"))
    if fat is not None and acids > fat + ROUNDING_G:
        yield Finding(row.food.number, "fatty acids", f"{acids} g", f"at most fat {fat} g")


def _energy(row: Row) -> Iterator[Finding]:
    """The stated energy against the food's own factors; a blank factor counts as 0, as for oils without protein."""
    food, stated = row.food, row.value("ENERC_KCAL")
    factors = [Decimal(text or 0) for text in (food.protein_factor, food.fat_factor, food.carbohydrate_factor)]
    amounts = row.known("PROCNT", "FAT", "CHOCDF")
    if not any(factors) or stated is None or len(amounts) != len(factors):
        return
    energy = sum(f * a for f, a in zip(factors, amounts, strict=True)) + ALCOHOL_KCAL * sum(row.known("ALC"))
    if abs(stated - energy) > ENERGY_KCAL:
        yield Finding(food.number, "energy", f"{stated} kcal", f"{energy:.1f} kcal by its factors")


def _refuse(row: Row) -> Iterator[Finding]:
    items = [Decimal(text) for text in re.findall(r"(\d*\.?\d+) ?%", row.food.refuse_description)]
    itemised = items and "Total" not in row.food.refuse_description
    if not itemised or not row.food.refuse or row.food.number in CORRECTED:
        return
    if abs(sum(items) - Decimal(row.food.refuse)) > REFUSE_POINTS:
        yield Finding(row.food.number, "refuse items", f"{row.food.refuse} %", f"{sum(items)} %, the sum of its items")
