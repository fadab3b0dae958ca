"""The committed food table is what the build makes of the pinned source, byte for byte."""

import math
from pathlib import Path

import pytest

from reference_data import reference_folder
from reference_data.build import build
from reference_data.from_sr28.ascii_files import FILES, Release, read_release
from reference_data.from_sr28.fetch import fetch, read_members
from reference_data.from_sr28.selection import why_dropped
from solver.catalogue import Catalogue

COMMITTED = reference_folder() / "sr28"


@pytest.fixture(scope="module")
def source(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return fetch(tmp_path_factory.mktemp("source"))


@pytest.fixture(scope="module")
def release(source: Path) -> Release:
    return read_release(read_members(source, FILES))


def test_building_anew_gives_the_committed_files_byte_for_byte(source: Path, tmp_path: Path) -> None:
    build(source, tmp_path)
    built = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    assert built.keys() == {path.name for path in COMMITTED.iterdir()}
    assert [name for name in built if built[name] != (COMMITTED / name).read_bytes()] == []


def test_every_food_of_the_release_is_either_kept_or_dropped_for_a_reason(
    release: Release, catalogue: Catalogue
) -> None:
    for food in release.foods:
        assert (f"sr28:{food.number}" in catalogue) == (why_dropped(food) is None)


def test_no_kept_food_has_a_manufacturer_or_is_a_restaurant_dish(release: Release, catalogue: Catalogue) -> None:
    kept = [food for food in release.foods if f"sr28:{food.number}" in catalogue]
    assert {food.manufacturer for food in kept} == {""}
    assert release.groups["3600"] == "Restaurant Foods"
    assert "3600" not in {food.group for food in kept}


def test_a_cell_is_missing_exactly_where_the_release_has_no_value(release: Release, catalogue: Catalogue) -> None:
    fibre = 291
    for food_id in catalogue.ids:
        printed = release.values[food_id.removeprefix("sr28:")].get(fibre)
        value = catalogue.food(food_id).value("fibre_g")
        assert math.isnan(value) if printed is None else value == float(printed)
