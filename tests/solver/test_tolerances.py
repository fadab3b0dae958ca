"""US limits: FDA, Guide for Developing and Using Data Bases (1998), quoted. EU: Commission guidance (2012), quoted."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.tolerances import UsGroup, eu_range, us_complies, us_group

# The six worked ranges of the quoting pages: field, declared in 100 g, least and most that may be found.
WORKED = [
    ("protein_g", 3.4, 1.4, 5.4),
    ("protein_g", 20, 16, 24),
    ("sugars_g", 55, 47, 63),
    ("fat_g", 5, 3.5, 6.5),
    ("fat_g", 30, 24, 36),
    ("saturated_fat_g", 2, 1.2, 2.8),
]


def width(name: str, declared: float) -> tuple[float, float]:
    interval = eu_range(name, declared)
    assert interval is not None
    return interval.low, interval.high


@pytest.mark.parametrize(("name", "declared", "least", "most"), WORKED)
def test_the_six_worked_eu_ranges_come_out(name: str, declared: float, least: float, most: float) -> None:
    assert width(name, declared) == pytest.approx((least, most), abs=1e-12)


def test_the_allowance_of_fat_jumps_at_ten_grams_and_that_of_carbohydrate_does_not() -> None:
    below = 10 - 1e-9
    assert width("fat_g", below)[1] - below == pytest.approx(1.5)
    assert width("fat_g", 10)[1] - 10 == pytest.approx(2)
    assert width("carbohydrate_g", below)[1] - below == pytest.approx(2)
    assert width("carbohydrate_g", 10)[1] - 10 == pytest.approx(2)


@pytest.mark.parametrize("name", ["fat_g", "protein_g", "fibre_g", "available_carbohydrate_g"])
def test_at_forty_grams_a_fifth_is_the_eight_grams_of_the_next_row(name: str) -> None:
    for declared in (40 - 1e-9, 40, 40 + 1e-9):
        assert width(name, declared)[1] - declared == pytest.approx(8)


# From memory; no source at hand has printed these two rows.
@pytest.mark.parametrize(
    ("name", "declared", "off"),
    [("sodium_mg", 400, 150), ("sodium_mg", 1000, 200), ("salt_g", 1.2, 0.375), ("salt_g", 2, 0.4)],
)
def test_sodium_and_salt_have_rows_of_their_own(name: str, declared: float, off: float) -> None:
    assert width(name, declared) == pytest.approx((declared - off, declared + off))


def test_no_less_than_nothing_may_be_found_and_energy_has_no_row() -> None:
    assert width("fat_g", 0) == (0, 1.5)
    assert eu_range("energy_kcal", 400) is None


@pytest.mark.parametrize(
    ("name", "fortified", "group"),
    [
        ("iron_mg", True, UsGroup.CLASS_I),
        ("iron_mg", False, UsGroup.CLASS_II),
        ("protein_g", False, UsGroup.CLASS_II),
        ("total_carbohydrate_g", False, UsGroup.CLASS_II),
        ("fibre_g", False, UsGroup.CLASS_II),
        ("energy_kcal", False, UsGroup.THIRD_GROUP),
        ("sugars_g", True, UsGroup.THIRD_GROUP),
        ("saturated_fat_g", False, UsGroup.THIRD_GROUP),
        ("water_g", False, None),
    ],
)
def test_nutrients_are_in_their_us_groups(name: str, fortified: bool, group: UsGroup | None) -> None:  # noqa: FBT001
    assert us_group(name, fortified=fortified) is group


def test_what_is_added_must_be_there_in_full_and_what_grows_there_to_four_fifths() -> None:
    assert us_complies("iron_mg", 10, 10, fortified=True) is None
    added = us_complies("iron_mg", 10, 9.9, fortified=True)
    assert added is not None
    assert added.by == pytest.approx(0.1)
    assert us_complies("protein_g", 10, 8) is None
    grown = us_complies("protein_g", 10, 7.9)
    assert grown is not None
    assert (grown.limit, grown.by) == pytest.approx((8, 0.1))


def test_the_third_group_may_be_found_up_to_six_fifths() -> None:
    assert us_complies("fat_g", 10, 12) is None
    breach = us_complies("fat_g", 10, 12.5)
    assert breach is not None
    assert (breach.group, breach.limit, breach.by) == (UsGroup.THIRD_GROUP, 12, 0.5)


@given(st.floats(0, 100), st.floats(0, 1000))
def test_us_limits_guarantee_neither_a_carbohydrate_ceiling_nor_a_fat_floor(declared: float, more: float) -> None:
    assert us_complies("total_carbohydrate_g", declared, declared + more) is None
    assert us_complies("fat_g", declared, max(0.0, declared - more)) is None
