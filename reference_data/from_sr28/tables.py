"""The tables as texts: CSV with LF, numbers exactly as SR28 prints them, empty where missing, the source last."""

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import astuple

from reference_data.from_sr28.ascii_files import FoodRow, MeasureRow, Release
from reference_data.from_sr28.checks import Finding, findings
from reference_data.from_sr28.refuse import CORRECTIONS, correct_refuse
from reference_data.from_sr28.selection import names_a_brand, why_dropped
from reference_data.from_sr28.siblings import sibling_findings
from reference_data.from_sr28.summary import summary
from solver.nutrients import NUTRIENTS

#: The id of SR28 in sources.csv.
SOURCE = "sr28"

_READ = tuple((nutrient, nutrient.sr28_number) for nutrient in NUTRIENTS if nutrient.sr28_number is not None)

_FOODS = (
    "food id",
    "description",
    "group id",
    "refuse %",
    "refuse description",
    "nitrogen factor g/g",
    "protein factor kcal/g",
    "fat factor kcal/g",
    "carbohydrate factor kcal/g",
)
_GROUPS = ("group id", "title")
_NUTRIENTS = ("food id", *(f"{nutrient.tagname} {nutrient.unit}" for nutrient, _ in _READ))
_MEASURES = ("food id", "amount", "unit", "grams g")
_REFUSE_AUDIT = ("food id", "field", "was %", "is %", "reason")
_AUDIT = ("food id", "check", "found", "expected")


def all_tables(release: Release) -> dict[str, str]:
    """File name to content, for every file of the food table."""
    foods = correct_refuse(food for food in release.foods if why_dropped(food) is None)
    audit = _audit(foods, release)
    measures = [(food, measure) for food in foods for measure in release.measures.get(food.number, ())]
    plain = [(food, measure) for food, measure in measures if not names_a_brand(measure.unit)]
    return {
        "foods.csv": _csv(_FOODS, map(_food_cells, foods)),
        "food_groups.csv": _csv(_GROUPS, ((_id(code), title) for code, title in release.groups.items())),
        "composition.csv": _csv(_NUTRIENTS, (_nutrient_cells(food, release.values) for food in foods)),
        "standard_errors.csv": _csv(_NUTRIENTS, (_nutrient_cells(food, release.standard_errors) for food in foods)),
        "measures.csv": _csv(_MEASURES, (_measure_cells(food, measure) for food, measure in plain)),
        "refuse_audit.csv": _csv(
            _REFUSE_AUDIT, ((_id(c.food), "refuse", c.was, c.corrected, c.reason) for c in CORRECTIONS)
        ),
        "audit.csv": _csv(_AUDIT, ((_id(finding.food), *astuple(finding)[1:]) for finding in audit)),
        "README.md": summary(release, foods, audit, measures=len(plain), dropped_measures=len(measures) - len(plain)),
    }


def _id(number: str) -> str:
    return f"{SOURCE}:{number}"


def _csv(header: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow((*header, "source"))
    writer.writerows((*row, SOURCE) for row in rows)
    return stream.getvalue()


def _food_cells(food: FoodRow) -> tuple[str, ...]:
    return (
        _id(food.number),
        food.description,
        _id(food.group),
        food.refuse,
        food.refuse_description,
        food.nitrogen_factor,
        food.protein_factor,
        food.fat_factor,
        food.carbohydrate_factor,
    )


def _nutrient_cells(food: FoodRow, numbers: Mapping[str, Mapping[int, str]]) -> tuple[str, ...]:
    printed = numbers.get(food.number, {})
    return (_id(food.number), *(printed.get(number, "") for _, number in _READ))


def _measure_cells(food: FoodRow, measure: MeasureRow) -> tuple[str, ...]:
    return (_id(food.number), measure.amount, measure.unit, measure.grams)


def _audit(foods: Sequence[FoodRow], release: Release) -> list[Finding]:
    """All findings, by check and then by food."""
    found = [finding for food in foods for finding in findings(food, release.values.get(food.number, {}))]
    return sorted([*found, *sibling_findings(foods)], key=lambda finding: (finding.check, finding.food, finding.found))
