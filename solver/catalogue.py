"""The foods of one table, held as arrays; a `Food` is made when it is first asked for, as a view of its row."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from solver.errors import ReferenceDataError
from solver.foods import Food, Measure, SpecificFactors
from solver.numerics import BoolArray, FloatArray, IntArray
from solver.nutrients import COLUMN, NUTRIENTS
from solver.tables import Table, read_table

Scalar = TypeVar("Scalar", bound=np.generic)

_FACTORS = ("protein factor kcal/g", "fat factor kcal/g", "carbohydrate factor kcal/g")


@dataclass(frozen=True, slots=True, eq=False)
class MeasureColumns:
    """Household measures of all foods: those of food i are amount[start[i]:start[i+1]], with unit and grams alike."""

    start: IntArray
    amount: FloatArray
    unit: tuple[str, ...]
    grams: FloatArray

    def of(self, row: int) -> tuple[Measure, ...]:
        """The measures of one food, in the order of the table."""
        places = range(self.start[row], self.start[row + 1])
        return tuple(Measure(float(self.amount[p]), self.unit[p], float(self.grams[p])) for p in places)


@dataclass(frozen=True, slots=True, eq=False)
class Catalogue:
    """All foods of one table, in its order. The arrays are read-only.

    ids, names, groups, sources: (foods,), e.g. "sr28:01001", "Butter, salted", "Dairy and Egg Products", "sr28".
    composition: (foods, len(NUTRIENTS)) per 100 g edible portion, NaN where missing. Available carbohydrate is
    derived: total less fibre, never below 0, and the total where fibre is missing (`total_carbohydrate_counted`).
    standard_errors: the same shape, NaN where not given; none is given for what is derived.
    factors: (foods, 3) kcal per g protein, fat, carbohydrate; NaN where the food has none of its own.
    refuse_percent: (foods,) of the weight as purchased; NaN where the source does not know it.
    made: by id, the foods that were asked for before.
    """

    ids: tuple[str, ...]
    names: tuple[str, ...]
    groups: tuple[str, ...]
    sources: tuple[str, ...]
    composition: FloatArray
    standard_errors: FloatArray
    total_carbohydrate_counted: BoolArray
    factors: FloatArray
    refuse_percent: FloatArray
    measures: MeasureColumns
    row_of: Mapping[str, int]
    made: dict[str, Food] = field(default_factory=dict, init=False, repr=False)

    def __len__(self) -> int:
        return len(self.ids)

    def __contains__(self, food_id: object) -> bool:
        return food_id in self.row_of

    def food(self, food_id: str) -> Food:
        """One food, the same each time. Raises KeyError for an id that is not in the table.

        Its arrays are views of this catalogue's.
        """
        found = self.made.get(food_id)
        if found is None:
            found = self.made[food_id] = self._make(food_id)
        return found

    def _make(self, food_id: str) -> Food:
        row = self.row_of[food_id]
        return Food(
            id=food_id,
            name=self.names[row],
            group=self.groups[row],
            per_100g=self.composition[row],
            measures=self.measures.of(row),
            factors=_specific_factors(self.factors[row]),
            standard_error=self.standard_errors[row],
            refuse_percent=float(self.refuse_percent[row]),
            source=self.sources[row],
            total_carbohydrate_counted=bool(self.total_carbohydrate_counted[row]),
        )


def name_parts(name: str) -> tuple[str, ...]:
    """A food's name as its comma-separated parts, general before particular; parentheses are not split."""
    return tuple(re.split(r", (?![^(]*\))", name))


def load_catalogue(folder: Path) -> Catalogue:
    """Read the food table in a folder: foods, food_groups, composition, standard_errors and measures, all .csv.

    Raises ReferenceDataError naming file, line and what is wrong when a table is missing or damaged.
    """
    foods = read_table(folder / "foods.csv")
    row_of = _row_of(foods)
    composition = _nutrients(read_table(folder / "composition.csv"), foods)
    counted = _derive_available_carbohydrate(composition)
    return Catalogue(
        ids=tuple(row_of),
        names=foods.texts("description"),
        groups=_groups(foods, read_table(folder / "food_groups.csv")),
        sources=foods.texts("source"),
        composition=_read_only(composition),
        standard_errors=_read_only(_nutrients(read_table(folder / "standard_errors.csv"), foods)),
        total_carbohydrate_counted=_read_only(counted),
        factors=_read_only(foods.numbers(_FACTORS)),
        refuse_percent=_read_only(foods.numbers(["refuse %"])[:, 0]),
        measures=_measures(read_table(folder / "measures.csv"), row_of),
        row_of=row_of,
    )


def _row_of(foods: Table) -> dict[str, int]:
    """Food id to row, in order."""
    row_of: dict[str, int] = {}
    for row, food_id in enumerate(foods.texts("food id")):
        if row_of.setdefault(food_id, row) != row:
            raise foods.damage(row, f"{food_id!r} is there twice")
    return row_of


def _groups(foods: Table, groups: Table) -> tuple[str, ...]:
    titles = dict(zip(groups.texts("group id"), groups.texts("title"), strict=True))
    of_food = foods.texts("group id")
    for row, group in enumerate(of_food):
        if group not in titles:
            raise foods.damage(row, f"{group!r} is not in {groups.path.name}")
    return tuple(titles[group] for group in of_food)


def _nutrients(table: Table, foods: Table) -> FloatArray:
    """(foods, len(NUTRIENTS)), NaN where missing and in the columns that are derived."""
    ids = foods.texts("food id")
    if table.texts("food id") != ids:
        raise _first_difference(table, ids)
    read = [(place, f"{n.tagname} {n.unit}") for place, n in enumerate(NUTRIENTS) if n.sr28_number is not None]
    matrix = np.full((len(ids), len(NUTRIENTS)), np.nan)
    matrix[:, [place for place, _ in read]] = table.numbers([column for _, column in read])
    return matrix


def _first_difference(table: Table, ids: tuple[str, ...]) -> ReferenceDataError:
    found = table.texts("food id")
    row = next((row for row, pair in enumerate(zip(found, ids, strict=False)) if pair[0] != pair[1]), None)
    if row is None:
        return table.damage(min(len(found), len(ids)), f"{len(found)} foods where foods.csv has {len(ids)}")
    return table.damage(row, f"{found[row]!r} where foods.csv has {ids[row]!r}")


def _derive_available_carbohydrate(composition: FloatArray) -> BoolArray:
    """Fill the column in; where the total had to stand for it, (foods,)."""
    total, fibre = composition[:, COLUMN["total_carbohydrate_g"]], composition[:, COLUMN["fibre_g"]]
    composition[:, COLUMN["available_carbohydrate_g"]] = np.maximum(total - np.nan_to_num(fibre), 0)
    return np.isnan(fibre) & ~np.isnan(total)


def _measures(table: Table, row_of: Mapping[str, int]) -> MeasureColumns:
    place: list[int] = []
    for row, food_id in enumerate(table.texts("food id")):
        if food_id not in row_of or (place and row_of[food_id] < place[-1]):
            raise table.damage(row, f"{food_id!r} is not in foods.csv, or not in its order")
        place.append(row_of[food_id])
    start = np.searchsorted(np.array(place, dtype=np.int32), np.arange(len(row_of) + 1)).astype(np.int32)
    amounts = _read_only(table.numbers(["amount", "grams g"]))
    if not (amounts > 0).all():
        raise table.damage(int(np.argmin((amounts > 0).all(axis=1))), "a measure needs an amount and grams above 0")
    return MeasureColumns(start, amounts[:, 0], table.texts("unit"), amounts[:, 1])


def _specific_factors(factors: FloatArray) -> SpecificFactors | None:
    protein, fat, carbohydrate = (None if np.isnan(factor) else float(factor) for factor in factors)
    if protein is None and fat is None and carbohydrate is None:
        return None
    return SpecificFactors(protein, fat, carbohydrate)


def _read_only(array: NDArray[Scalar]) -> NDArray[Scalar]:
    array.setflags(write=False)
    return array
