"""Every row of reference data has its source, and every number its unit."""

import csv
import re
from pathlib import Path

import pytest

from reference_data import reference_folder

FOLDER = reference_folder()
TABLES = sorted(path for path in FOLDER.rglob("*.csv") if path.name != "sources.csv")
FOOD_TABLE = sorted((FOLDER / "sr28").glob("*.csv"))

#: Units that columns of the food table may name.
UNITS = {"g", "mg", "ug", "kcal", "%", "g/g", "kcal/g"}


def read(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def name(path: Path) -> str:
    return str(path.relative_to(FOLDER))


def test_there_are_tables_to_look_at() -> None:
    assert {"foods.csv", "composition.csv", "measures.csv"} <= {path.name for path in FOOD_TABLE}


def test_every_source_is_described_and_says_whether_it_was_read_or_remembered() -> None:
    sources = read(FOLDER / "sources.csv")
    assert all(all(row.values()) for row in sources)
    assert {row["label"] for row in sources} <= {"seen", "second hand", "memory"}
    assert len({row["source"] for row in sources}) == len(sources)


@pytest.mark.parametrize("path", TABLES, ids=name)
def test_every_row_names_a_source_that_is_listed(path: Path) -> None:
    listed = {row["source"] for row in read(FOLDER / "sources.csv")}
    rows = read(path)
    assert rows
    assert {row["source"] for row in rows} <= listed


@pytest.mark.parametrize("path", FOOD_TABLE, ids=name)
def test_every_column_of_numbers_names_its_unit(path: Path) -> None:
    rows = read(path)
    for column in rows[0]:
        filled = [row[column] for row in rows if row[column]]
        if filled and all(re.fullmatch(r"\d*\.?\d+", text) for text in filled):
            says_its_unit = column.split()[-1] in UNITS or (column == "amount" and "unit" in rows[0])
            assert says_its_unit, column
