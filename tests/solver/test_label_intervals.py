"""How far a label leaves the truth open. Ranges: European Commission guidance (2012), 21 CFR 101.9(g), both quoted."""

from math import isnan

import pytest

from solver.label_intervals import eu_tolerance, half_of, nutrient_row, tolerance_rows, us_tolerance
from solver.label_rounding import US, Interval, Printed, may_stand_for
from solver.nutrients import COLUMN


def test_half_of_an_interval_reaches_from_what_was_read_to_its_farther_end() -> None:
    nine = may_stand_for(Printed(9), US["fat_g"])
    assert half_of(nine, 9) == 0.5
    small = may_stand_for(Printed(0), US["total_carbohydrate_g"])
    assert half_of(small, 0.5) == half_of(small, 0.0) == 0.5
    assert half_of(Interval(2, 5), 3) == 2


def test_us_limits_have_one_side() -> None:
    below, above = us_tolerance("fat_g", 30)
    assert isnan(below)
    assert above == pytest.approx(6)
    for name in ("protein_g", "total_carbohydrate_g"):
        below, above = us_tolerance(name, 30)
        assert below == pytest.approx(6)
        assert isnan(above)
    assert all(isnan(side) for side in us_tolerance("water_g", 30))


@pytest.mark.parametrize(
    ("name", "declared", "low", "high"),
    [("protein_g", 3.4, 1.4, 5.4), ("protein_g", 20, 16, 24), ("fat_g", 5, 3.5, 6.5), ("fat_g", 30, 24, 36)],
)
def test_eu_tolerances_are_those_of_the_worked_examples(name: str, declared: float, low: float, high: float) -> None:
    below, above = eu_tolerance(name, declared)
    assert (declared - below, declared + above) == pytest.approx((low, high))


def test_rows_hold_only_what_is_printed_and_known() -> None:
    below, above = tolerance_rows({"fat_g": 0.5, "sodium_mg": 1}, {"fat_g": 30, "protein_g": 9}, eu_tolerance)
    assert below[COLUMN["fat_g"]] == above[COLUMN["fat_g"]] == pytest.approx(6)
    assert isnan(below[COLUMN["protein_g"]])
    assert isnan(below[COLUMN["sodium_mg"]])
    assert nutrient_row({"fat_g": 3})[COLUMN["fat_g"]] == 3
