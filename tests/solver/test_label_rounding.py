"""US rounding from FDA, A Food Labeling Guide, Appendix H (seen); EU from the Commission's guidance (quoted)."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.label_rounding import EU, US, Interval, Printed, Rounding, may_stand_for

# Boundary rows of Appendix H: the field, the amount in a serving, and what is printed for it; figures computed from
# the rule. A text stands for "less than".
APPENDIX_H = [
    ("energy_kcal", 4.9, 0),
    ("energy_kcal", 47, 45),
    ("energy_kcal", 50, 50),
    ("energy_kcal", 52, 50),
    ("energy_kcal", 56, 60),
    ("fat_g", 0.49, 0),
    ("fat_g", 0.74, 0.5),
    ("fat_g", 4.74, 4.5),
    ("fat_g", 5.4, 5),
    ("sodium_mg", 4.9, 0),
    ("sodium_mg", 137, 135),
    ("sodium_mg", 141, 140),
    ("sodium_mg", 146, 150),
    ("cholesterol_mg", 1.9, 0),
    ("cholesterol_mg", 7, 5),
    ("cholesterol_mg", 8, 10),
    ("total_carbohydrate_g", 0.49, 0),
    ("total_carbohydrate_g", 1.4, 1),
    # 101.9(c)(1), quoted: amounts under 5 calories may be printed as zero, so 3 is lawfully 0 or 5.
    ("energy_kcal", 3, 0),
    ("energy_kcal", 3, 5),
    # Protein from 0.5 to under 1 g may be printed as 1 g.
    ("protein_g", 0.6, 1),
]

# The Commission's guidance: amount in 100 g and what is printed for it.
GUIDANCE = [
    ("fat_g", 0.49, 0),
    ("fat_g", 9.94, 9.9),
    ("fat_g", 10.4, 10),
    ("carbohydrate_g", 0.5, 0),
    ("saturated_fat_g", 0.1, 0),
    ("saturated_fat_g", 0.14, 0.1),
    ("salt_g", 0.0125, 0),
    ("salt_g", 0.126, 0.13),
    ("salt_g", 1.04, 1.0),
    ("energy_kj", 1540.4, 1540),
]


def ends(printed: Printed, rounding: Rounding | None) -> tuple[float, float]:
    interval = may_stand_for(printed, rounding)
    return interval.low, interval.high


@pytest.mark.parametrize(("field", "amount", "printed"), APPENDIX_H)
def test_a_us_amount_is_inside_the_interval_of_what_is_printed_for_it(
    field: str, amount: float, printed: float
) -> None:
    interval = may_stand_for(Printed(printed), US[field])
    assert interval.low <= amount <= interval.high


@pytest.mark.parametrize(("field", "amount", "printed"), GUIDANCE)
def test_an_eu_amount_is_inside_the_interval_of_what_is_printed_for_it(
    field: str, amount: float, printed: float
) -> None:
    interval = may_stand_for(Printed(printed, decimals=2), EU[field])
    assert interval.low <= amount <= interval.high


@pytest.mark.parametrize(
    ("field", "amount", "printed"),
    [
        ("energy_kcal", 5.1, 0),
        ("fat_g", 0.5001, 0),
        ("fat_g", 4.74, 5),
        ("fat_g", 5.51, 5),
        ("sodium_mg", 5.1, 0),
        ("sodium_mg", 146, 140),
        ("total_carbohydrate_g", 0.49, 1),
    ],
)
def test_an_amount_that_is_printed_otherwise_is_outside(field: str, amount: float, printed: float) -> None:
    interval = may_stand_for(Printed(printed), US[field])
    assert not interval.low <= amount <= interval.high


def test_the_two_steps_that_meet_at_a_number_both_count() -> None:
    assert ends(Printed(5), US["fat_g"]) == (4.75, 5.5)
    assert ends(Printed(50), US["energy_kcal"]) == (47.5, 55)
    assert ends(Printed(10), EU["fat_g"]) == pytest.approx((9.95, 10.5))


def test_less_than_stands_for_everything_below() -> None:
    assert ends(Printed(1, less_than=True), US["total_carbohydrate_g"]) == (0, 1)


def test_the_least_salt_that_the_eu_prints_is_a_little_more_than_its_number() -> None:
    # The guidance: up to 0.0125 g is printed "<0.01 g".
    assert ends(Printed(0.01, 2, less_than=True), EU["salt_g"]) == (0, 0.0125)
    assert ends(Printed(0.02, 2, less_than=True), EU["salt_g"]) == (0, 0.02)


def test_what_the_rules_would_not_print_stands_for_its_last_digit() -> None:
    assert ends(Printed(15.5, 1), EU["protein_g"]) == pytest.approx((15.45, 15.55))
    assert ends(Printed(0.4, 1), None) == pytest.approx((0.35, 0.45))
    assert ends(Printed(400, -2), None) == (350, 450)


@given(st.floats(0.5, 1000))
def test_every_amount_of_us_fat_is_inside_what_it_rounds_to(grams: float) -> None:
    step = 0.5 if grams < 5 else 1.0
    printed = math.floor(grams / step + 0.5) * step
    interval = may_stand_for(Printed(printed), US["fat_g"])
    assert interval.low - 1e-9 <= grams <= interval.high + 1e-9


@given(st.floats(0, 100), st.floats(0, 100), st.floats(0, 100), st.floats(0, 100))
def test_what_is_left_holds_every_difference(a: float, width: float, b: float, other: float) -> None:
    left = Interval(a, a + width).less(Interval(b, b + other))
    for more in (a, a + width):
        for less in (b, b + other):
            assert left.low <= max(0.0, more - less) <= left.high
