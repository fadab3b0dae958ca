"""The chart: foodsafety.gov, "Cook to a Safe Minimum Internal Temperature" (read), and FDA Food Code 2022, 3-401.11
(from transcriptions). The UK's 70 C for 2 minutes is from memory.
"""

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference_data import reference_folder
from solver.cautions.safe_temperatures import (
    PROFILES,
    SafeTemperatures,
    at_least_celsius,
    at_least_fahrenheit,
    load_safe_temperatures,
)
from solver.errors import ReferenceDataError


@pytest.fixture(scope="module")
def chart() -> SafeTemperatures:
    return load_safe_temperatures(reference_folder() / "safe_temperatures.csv", reference_folder() / "sources.csv")


@pytest.mark.parametrize(
    ("kind", "fahrenheit", "rest_min"),
    [
        ("whole cut", 145, 3),
        ("minced", 160, None),
        ("casserole", 165, None),
        ("poultry", 165, None),
        ("egg dish", 160, None),
        ("egg dish with meat", 165, None),
        ("ham", 145, 3),
        ("precooked ham", 165, None),
        ("precooked ham from an inspected plant", 140, None),
        ("reheated", 165, None),
        ("game", 160, None),
        ("fish", 145, None),
        ("egg", None, None),
        ("crustacean", None, None),
        ("mollusc", None, None),
    ],
)
def test_the_consumer_chart_is_as_foodsafety_gov_publishes_it(
    chart: SafeTemperatures, kind: str, fahrenheit: float | None, rest_min: float | None
) -> None:
    row = chart.row("us consumer", kind)
    assert (row.fahrenheit, row.rest_min, row.held_s) == (fahrenheit, rest_min, None)
    assert row.source == "foodsafety-gov-chart"


@pytest.mark.parametrize(
    ("kind", "fahrenheit", "held_s"),
    [
        ("poultry", 165, 1),
        ("stuffed", 165, 1),
        ("minced", 155, 17),
        ("injected", 155, 17),
        ("tenderised", 155, 17),
        ("whole cut", 145, 15),
        ("fish", 145, 15),
        ("egg", 145, 15),
        ("roast", 145, 240),
        ("reheated", 165, 15),
        ("plant food", 135, None),
    ],
)
def test_the_retail_chart_is_the_food_code_of_2022(
    chart: SafeTemperatures, kind: str, fahrenheit: float, held_s: float | None
) -> None:
    row = chart.row("us retail", kind)
    assert (row.fahrenheit, row.held_s) == (fahrenheit, held_s)
    assert "2022" in row.edition


def test_the_two_american_charts_are_never_mixed(chart: SafeTemperatures) -> None:
    sources = {profile: {row.source for row in chart.of(profile)} for profile in PROFILES}
    assert "fda-food-code-2022" not in sources["us consumer"]
    assert "foodsafety-gov-chart" not in sources["us retail"]
    assert not {"fda-food-code-2022", "foodsafety-gov-chart"} & sources["uk"]
    assert chart.row("us consumer", "minced").fahrenheit == 160


def test_no_celsius_is_below_its_fahrenheit_source(chart: SafeTemperatures) -> None:
    stated = [row for row in chart.rows if row.fahrenheit is not None and row.celsius is not None]
    assert len(stated) > 30
    for row in stated:
        assert row.celsius is not None
        assert row.fahrenheit is not None
        assert Fraction(str(row.celsius)) >= (Fraction(row.fahrenheit) - 32) * 5 / 9 or row.profile == "uk"


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    # 140 F is 60 C exactly; 145, 155, 160, 165, 135 F are 62.78, 68.33, 71.11, 73.89, 57.22 C.
    [(140, 60.0), (145, 62.8), (155, 68.4), (160, 71.2), (165, 73.9), (135, 57.3), (41, 5.0)],
)
def test_celsius_is_rounded_up(fahrenheit: float, celsius: float) -> None:
    assert at_least_celsius(fahrenheit) == celsius


@given(st.integers(-400, 5000))
def test_rounding_up_adds_less_than_a_tenth_of_a_degree(fahrenheit: int) -> None:
    exact = (Fraction(fahrenheit) - 32) * 5 / 9
    assert exact <= Fraction(str(at_least_celsius(fahrenheit))) < exact + Fraction(1, 10)


def test_the_uk_profile_holds_70_celsius_for_two_minutes_for_every_class(chart: SafeTemperatures) -> None:
    row = chart.row("uk", "minced")
    assert (row.celsius, row.fahrenheit, row.held_s) == (70.0, 158.0, 120.0)
    assert chart.row("uk", "poultry") is row
    assert at_least_fahrenheit(71) == 160


@pytest.mark.parametrize("profile", PROFILES)
def test_every_profile_has_a_row_for_every_class_that_a_dish_can_have(chart: SafeTemperatures, profile: str) -> None:
    forms = ("whole cut", "minced", "stuffed", "rolled", "injected", "tenderised", "casserole", "reheated")
    foods = ("poultry", "game", "offal", "ham", "precooked ham", "fish", "minced fish", "crustacean", "mollusc")
    for kind in (*forms, *foods, "egg dish", "egg dish with meat", "roast"):
        assert chart.row(profile, kind).profile == profile


@pytest.mark.parametrize(
    "row",
    [
        "moon,minced,mince,160,,,,,,sr28",
        "uk,minced,mince,160,,,,,,nobody",
        "uk,minced,mince,,,,,,,sr28",
        "uk,minced,mince,160,,,,until brown,,sr28",
        "uk,minced,mince,160,,,,,,sr28\nuk,minced,mince,165,,,,,,sr28",
    ],
)
def test_a_damaged_chart_is_refused(tmp_path: Path, row: str) -> None:
    path = tmp_path / "safe_temperatures.csv"
    path.write_text(f"profile,class,foods,least F,least C,held s,rest min,sign,note,source\n{row}\n")
    with pytest.raises(ReferenceDataError):
        load_safe_temperatures(path, reference_folder() / "sources.csv")
