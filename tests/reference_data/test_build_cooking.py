"""The committed cooking table is what the build makes of the food table, and it agrees with what is published."""

import csv
from pathlib import Path

import pytest

from reference_data import reference_folder
from reference_data.build_cooking import build
from solver.catalogue import Catalogue

COMMITTED = reference_folder() / "cooking"

#: Raw and cooked food, yield % and percent of raw fat kept, worked out by hand from SR28 composition: P_raw / P_cooked
#: and F_cooked / F_raw times that. An earlier working gave 107, 46 and 34 for three of the broiled patties and a yield
#: of 82.9 for the sausage; with the protein and fat that the release prints (21.41, 26.29, 5.00, 6.80; 15.76, 25.56,
#: 25.00, 18.87; 14.35, 25.38, 30.00, 18.66; 15.39, 18.53) they are these.
DERIVED = (
    ("23557", "23558", 81.4, 111),
    ("23557", "23560", 73.4, 111),
    ("23562", "23563", 76.6, 90),
    ("23562", "23565", 70.3, 85),
    ("23567", "23568", 71.7, 74),
    ("23567", "23570", 67.0, 68),
    ("23572", "23573", 66.7, 59),
    ("23572", "23574", 71.4, 57),
    ("23572", "23575", 63.6, 55),
    ("23572", "23576", 68.0, 55),
    ("23577", "23578", 61.7, 47),
    ("13498", "13497", 56.5, 35),
    ("13498", "13495", 60.1, 31),
    ("10123", "10862", 37.2, 33),
    ("10123", "10860", 35.3, 38),
    ("10123", "10861", 32.4, 28),
    ("05332", "05333", 74.9, 101),
    ("07063", "07064", 83.1, 91),
)

#: USDA Table of Cooking Yields for Meat and Poultry, release 2 (2014), from independent copies: food number of the
#: cooked or raw row it names, our pair, yield %.
PUBLISHED = (
    ("chicken breast, meat and skin, roasted", "05057", "05060", 72),
    ("chicken thigh, meat and skin, roasted", "05091", "05094", 69),
    ("ground beef, 10 % fat, broiled patty", "23562", "23563", 73),
    ("pork loin centre, roasted", "10036", "10039", 77),
)


def rows(name: str, folder: Path = COMMITTED) -> list[dict[str, str]]:
    with (folder / name).open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


PAIRS = {(row["raw food id"], row["cooked food id"]): row for row in rows("pairs.csv")}


def test_building_anew_gives_the_committed_files_byte_for_byte(tmp_path: Path) -> None:
    build(tmp_path)
    built = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    assert built == {path.name: path.read_bytes() for path in COMMITTED.iterdir()}


def test_every_pair_is_measured_or_excluded_with_its_reason() -> None:
    assert {row["status"] for row in PAIRS.values()} == {"measured", "excluded"}
    assert all(row["reason"] for row in PAIRS.values() if row["status"] == "excluded")
    assert all(row["method"] for row in PAIRS.values() if row["status"] == "measured")


def test_no_usable_pair_keeps_more_than_it_had() -> None:
    usable = [row for row in PAIRS.values() if row["status"] == "measured"]
    assert all(0 < float(row["yield g/g"]) <= 1 for row in usable)
    assert all(0 < float(row["fat retention g/g"]) <= 1 for row in usable)


@pytest.mark.parametrize(("raw", "cooked", "yield_percent", "fat_kept_percent"), DERIVED)
def test_yield_and_fat_kept_are_those_worked_out_by_hand(
    raw: str, cooked: str, yield_percent: float, fat_kept_percent: float
) -> None:
    row = PAIRS[f"sr28:{raw}", f"sr28:{cooked}"]
    assert row["status"] == "measured"
    assert 100 * float(row["yield g/g"]) == pytest.approx(yield_percent, abs=0.051)
    assert 100 * float(row["fat retention as sampled g/g"]) == pytest.approx(fat_kept_percent, abs=0.51)


@pytest.mark.parametrize(("what", "raw", "cooked", "yield_percent"), PUBLISHED)
def test_the_yield_is_within_five_points_of_the_published_one(
    what: str, raw: str, cooked: str, yield_percent: float
) -> None:
    assert 100 * float(PAIRS[f"sr28:{raw}", f"sr28:{cooked}"]["yield g/g"]) == pytest.approx(yield_percent, abs=5), what


def test_pan_fried_pork_and_braised_beef_yield_what_is_published_within_five_points() -> None:
    # The same USDA table: pork chop centre loin pan-fried 76 %; all boneless beef cuts braised 67 % (n = 361).
    estimates = {(row["kind"], row["method"]): 100 * float(row["yield g/g"]) for row in rows("estimates.csv")}
    assert estimates["pork, lean and fat", "pan-fried"] == pytest.approx(76, abs=5)
    assert estimates["beef, lean and fat", "braised"] == pytest.approx(67, abs=5)


def test_the_cooked_mince_is_fat_as_the_release_says_whatever_it_was_raw(catalogue: Catalogue) -> None:
    for raw, cooked in (("23572", "23573"), ("23577", "23578"), ("13498", "13497")):
        row = PAIRS[f"sr28:{raw}", f"sr28:{cooked}"]
        fat_percent = float(row["fat retention g/g"]) * float(row["raw fat g"]) / float(row["yield g/g"])
        assert fat_percent == pytest.approx(catalogue.food(f"sr28:{cooked}").value("fat_g"), abs=0.005)
        assert 17 < fat_percent < 19


#: g of fat kept of 100 g raw, broiled patties of 5 to 30 % fat: the plateau.
PLATEAU = (("23557", 5.5), ("23562", 9.0), ("23567", 11.0), ("23572", 11.9), ("23577", 11.6), ("13498", 10.6))


def test_broiled_mince_keeps_no_more_fat_from_fifteen_percent_up() -> None:
    kept = {row["raw food id"]: 100 * float(row["fat kept g/g"]) for row in rows("curve_rows.csv") if is_broiled(row)}
    half_a_digit_each = 0.055  # the plateau is stated to 0.1 g, the table to 0.01 g
    for raw, fat_kept_g in PLATEAU:
        assert kept[f"sr28:{raw}"] == pytest.approx(fat_kept_g, abs=half_a_digit_each)


def is_broiled(row: dict[str, str]) -> bool:
    return row["mix"] == "broiled patty"


def test_what_cannot_be_believed_is_excluded() -> None:
    reasons = {cooked: row["reason"] for (_, cooked), row in PAIRS.items() if row["status"] == "excluded"}
    assert "added fat or milk" in reasons["sr28:01132"]  # egg, scrambled
    assert "collagen" in reasons["sr28:05018"]  # chicken skin, roasted
    assert any("pumped" in reason for reason in reasons.values())
    assert any("broth" in reason for reason in reasons.values())


def test_hot_air_is_never_measured_and_always_wider_than_what_it_stands_on() -> None:
    table = {(row["kind"], row["method"]): row for row in rows("estimates.csv")}
    hot_air = [row for (_, method), row in table.items() if method == "hot air"]
    assert hot_air
    for row in hot_air:
        assert row["pairs of kind and method"] == "0"
        assert "no pairs with hot air exist" in row["remark"]
    beef = "beef, lean and fat"
    assert float(table[beef, "hot air"]["fat retention factor g/g"]) > float(
        table[beef, "roasted"]["fat retention factor g/g"]
    )
