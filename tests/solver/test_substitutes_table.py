"""The tables of what stands in: every kind is known by its words, and every amount holds together."""

import csv
from pathlib import Path

import pytest

from reference_data import reference_folder
from solver.catalogue import Catalogue
from solver.errors import ReferenceDataError
from solver.roles import Role
from solver.substitutes_table import EMULSION, MIX, PIECES, UNCOOKED, StandIns, load_stand_ins, words_of
from tests.solver.larder import macronutrients

#: Foods of USDA SR28 to what they are to a cook.
KINDS = {
    "01123": "whole egg",
    "01124": "egg white",
    "01125": "egg yolk",
    "01129": None,  # hard-boiled: it binds nothing
    "19177": "gelatine",
    "11663": "agar",
    "12220": "flaxseed",
    "01053": "cream",
    "01056": "sour cream",
    "01017": "soft cheese",
    "01009": None,
    "06172": "broth",
    "14411": "water",
    "09152": "lemon juice",
    "02048": "vinegar",
    "04053": "oil",
    "04707": "oil",  # "Oil, flaxseed": not the seed
    "01001": "butter",
    "01003": "ghee",
    "04002": "animal fat",
    "16098": "peanut butter",  # and no butter
    "20481": "flour",
    "20027": "cornstarch",
    "18079": "breadcrumbs",
    "10123": "bacon",
    "10150": "ham",
    "07254": "turkey bacon",
    "01230": "buttermilk",
    "01019": "feta",
    "12166": "tahini",
    "04025": "mayonnaise",
    "05058": None,  # chicken fried with flour is no flour
    "23572": "mince",
    "02030": None,  # "Spices, pepper, black", though others are "ground"
    "05091": "poultry piece",
    "15236": "fish",
    "11246": "leek",
    "11282": "onion",
    "11291": "spring onion",
    "11529": "tomato",
}


@pytest.fixture(scope="module")
def stand_ins(catalogue: Catalogue) -> StandIns:
    return load_stand_ins(reference_folder(), catalogue)


@pytest.mark.parametrize("number", KINDS)
def test_a_food_is_known_by_the_words_of_its_name(catalogue: Catalogue, stand_ins: StandIns, number: str) -> None:
    assert stand_ins.kind_of(catalogue.food(f"sr28:{number}")) == KINDS[number]


@pytest.mark.parametrize(
    ("name", "kind"),
    [("free range eggs", "whole egg"), ("Lard", "animal fat"), ("psyllium husk", "psyllium"), ("granite", None)],
)
def test_what_a_cook_calls_it_is_read_as_well(stand_ins: StandIns, name: str, kind: str | None) -> None:
    assert stand_ins.kind_of(macronutrients(name)) == kind


def test_plurals_are_read_as_their_singulars() -> None:
    assert words_of("Tomatoes, red, 2 eggs") == {"tomatoes", "tomatoe", "tomato", "red", "eggs", "egg"}


def test_every_food_is_of_the_kind_that_its_row_says(stand_ins: StandIns) -> None:
    wrong = [
        (row.food.name, row.kind) for row in stand_ins.rows if row.food and stand_ins.kind_of(row.food) != row.kind
    ]
    assert wrong == []


def test_every_row_speaks_of_known_kinds_places_and_roles(stand_ins: StandIns) -> None:
    kinds = {kind.name for kind in stand_ins.kinds}
    for row in stand_ins.rows:
        assert {row.of, row.kind} <= kinds
        assert row.where <= {MIX, PIECES, UNCOOKED, EMULSION}
        assert row.where
        assert Role(row.role)


def test_binders_and_liquids_have_candidates(stand_ins: StandIns) -> None:
    """Where a role follows from no likeness, the table alone helps: each of these kinds has something."""
    for kind in ("whole egg", "egg yolk", "egg white", "gelatine", "agar", "broth", "water", "milk", "lemon juice"):
        assert any(row.of == kind and row.food is not None for row in stand_ins.rows), kind


def test_the_parts_of_an_egg_are_as_published(catalogue: Catalogue, stand_ins: StandIns) -> None:
    """USDA SR28, Weight: 1 large whole egg 50 g, white 33 g, yolk 17 g; two yolks, or two whites, for one egg."""
    large = {
        number: next(each.grams for each in catalogue.food(f"sr28:{number}").measures if each.unit == "large")
        for number in ("01123", "01124", "01125")
    }
    assert large == {"01123": 50.0, "01124": 33.0, "01125": 17.0}
    ratio = {(row.of, row.kind): row.grams_per_gram for row in stand_ins.rows if row.grams_per_gram is not None}
    assert ratio["whole egg", "egg yolk"] == pytest.approx(2 * 17 / 50, abs=0.005)
    assert ratio["whole egg", "egg white"] == pytest.approx(2 * 33 / 50, abs=0.005)
    assert ratio["egg yolk", "whole egg"] == pytest.approx(50 / (2 * 17), abs=0.005)
    assert ratio["egg white", "whole egg"] == pytest.approx(50 / (2 * 33), abs=0.005)


@pytest.mark.parametrize(
    "pair", [("whole egg", "flaxseed"), ("whole egg", "chia"), ("gelatine", "agar"), ("flour", "cornstarch")]
)
def test_there_and_back_is_about_as_much(stand_ins: StandIns, pair: tuple[str, str]) -> None:
    ratio = {(row.of, row.kind): row.grams_per_gram for row in stand_ins.rows if row.grams_per_gram is not None}
    assert ratio[pair] * ratio[pair[1], pair[0]] == pytest.approx(1.0, abs=0.02)


def test_a_damaged_table_is_named_with_its_line(catalogue: Catalogue, tmp_path: Path) -> None:
    for name in ("stand_in_kinds.csv", "stand_ins.csv"):
        (tmp_path / name).write_text((reference_folder() / name).read_text())
    path = tmp_path / "stand_ins.csv"
    rows = list(csv.reader(path.read_text().splitlines()))
    rows[3][3] = "sr28:99999"
    with path.open("w", newline="") as stream:
        csv.writer(stream, lineterminator="\n").writerows(rows)
    with pytest.raises(ReferenceDataError, match=r"stand_ins.csv, line 4: there is no food 'sr28:99999'"):
        load_stand_ins(tmp_path, catalogue)
