"""The bands are common practice, no source: a cook's numbers, recalled, and worked into grams per gram here."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from reference_data import reference_folder
from solver.errors import ReferenceDataError
from solver.rules import By
from solver.trade_rules import TradeRule, load_trade_rules

TABLE = reference_folder() / "trade_rules.csv"

EGG, YOLK = 50, 17

#: Common densities from memory, g/ml: milk 1.03, oil 0.92.
MILK, OIL = Fraction("1.03"), Fraction("0.92")

#: Common practice, no source: name to what is counted, and the band as a cook says it.
SAID: dict[str, tuple[By, Fraction | None, Fraction | None]] = {
    "binder": (By.RAW_MASS, Fraction(EGG, 700), Fraction(EGG, 450)),  # an egg to 450 to 700 g of mince
    "salt of patties": (By.SALT, Fraction("1.0") / 100, Fraction("1.5") / 100),  # percent of the raw mix
    "salt of fresh sausage": (By.SALT, Fraction("1.5") / 100, Fraction("1.8") / 100),
    "salt of a finished dish": (By.SALT, Fraction("0.8") / 100, Fraction("1.2") / 100),
    "mayonnaise": (By.RAW_MASS, Fraction(70, 100), Fraction(80, 100)),  # percent oil
    "hollandaise": (By.RAW_MASS, Fraction(60, YOLK), Fraction(90, YOLK)),  # 60 to 90 g butter to a yolk
    "cheese sauce citrate": (By.RAW_MASS, Fraction(2, 100), Fraction(4, 100)),  # percent of the cheese
    "soft jelly": (By.RAW_MASS, Fraction("0.8") / 100, Fraction("1.2") / 100),  # percent gelatine of the liquid
    "sliceable jelly": (By.RAW_MASS, Fraction("1.5") / 100, Fraction(2, 100)),
    "terrine": (By.RAW_MASS, Fraction(2, 100), Fraction(3, 100)),
    "custard": (By.RAW_MASS, EGG / (150 * MILK), EGG / (120 * MILK)),  # an egg to 120 to 150 ml
    "equilibrium brine": (By.SALT, Fraction("1.0") / 100, Fraction("1.5") / 100),  # percent of meat and water
    "mayonnaise yolk": (By.RAW_MASS, 150 * OIL / YOLK, 250 * OIL / YOLK),  # 150 to 250 ml of oil to a yolk
    "mayonnaise water phase": (By.RAW_MASS, None, Fraction(85, 15)),  # it breaks above about 85 % oil
    "mayonnaise in the United States": (By.RAW_MASS, Fraction(65, 100), None),  # 21 CFR 169.140 (memory)
    "xanthan": (By.RAW_MASS, Fraction("0.1") / 100, Fraction("0.5") / 100),  # percent of the liquid
}


@pytest.fixture(scope="module")
def rules() -> dict[str, TradeRule]:
    return load_trade_rules(TABLE)


def rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("name", SAID)
def test_a_band_is_what_cooks_say(rules: dict[str, TradeRule], name: str) -> None:
    by, lower, upper = SAID[name]
    rule = rules[name]
    assert rule.by is by
    # The table rounds to two decimals, or to a part in a thousand.
    for end, said in ((rule.lower, lower), (rule.upper, upper)):
        assert (end is None) is (said is None)
        if said is not None:
            assert end == pytest.approx(float(said), rel=0.0015, abs=0.002 if name == "binder" else 0)


def test_every_rule_of_the_table_is_checked_here(rules: dict[str, TradeRule]) -> None:
    assert rules.keys() == SAID.keys()


def test_every_row_is_a_ratio_with_a_source_that_is_listed() -> None:
    sources = {row["source"]: row for row in rows(reference_folder() / "sources.csv")}
    for row in rows(TABLE):
        assert row["unit"] == "g/g"
        assert row["what"]
        assert sources[row["source"]]["label"] == "memory", "nobody has read these in print"


def test_each_band_has_room(rules: dict[str, TradeRule]) -> None:
    for rule in rules.values():
        assert rule.lower is not None or rule.upper is not None
        assert 0 < (rule.lower or 1e-6) < (rule.upper or 1e6)


def test_a_mayonnaise_of_the_table_stays_below_where_it_breaks(rules: dict[str, TradeRule]) -> None:
    # It breaks above about 85 % oil (common practice, no source); US identity at least 65 % (21 CFR 169.140, memory).
    rule = rules["mayonnaise"]
    assert rule.lower is not None
    assert rule.upper is not None
    assert rule.lower >= 0.65
    assert rule.upper < 0.85


def written(folder: Path, *lines: str) -> Path:
    path = folder / "trade_rules.csv"
    path.write_text("\n".join(["rule,what,by,at_least,at_most,unit,source", *lines]) + "\n", encoding="utf-8")
    return path


def test_an_empty_end_is_an_open_side(tmp_path: Path) -> None:
    path = written(tmp_path, "thick,starch to milk,raw mass,0.1,,g/g,here", "thin,starch to milk,salt,,0.2,g/g,here")
    assert load_trade_rules(path) == {
        "thick": TradeRule("thick", "starch to milk", By.RAW_MASS, 0.1, None, "here"),
        "thin": TradeRule("thin", "starch to milk", By.SALT, None, 0.2, "here"),
    }


def test_a_damaged_table_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ReferenceDataError, match="line 2"):
        load_trade_rules(written(tmp_path, "thick,starch to milk,raw mass,a pinch,,g/g,here"))
    with pytest.raises(ReferenceDataError, match="counts by volume"):
        load_trade_rules(written(tmp_path, "thick,starch to milk,volume,0.1,,g/g,here"))
    with pytest.raises(ReferenceDataError, match="thick comes twice"):
        load_trade_rules(written(tmp_path, *("thick,starch to milk,raw mass,0.1,,g/g,here" for _ in range(2))))
    with pytest.raises(ReferenceDataError):
        load_trade_rules(tmp_path / "nothing.csv")
