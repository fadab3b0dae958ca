"""The curve of a mix: concave, never more than there is, and no more for tallow than the lean can hold."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.cooking_curves import MixRow, Segment, fat_kept_g, fit_segments, fit_yield, holding_part

#: g fat kept of 100 g raw in a broiled beef patty by its fat, g per 100 g (SR28, protein conserved).
BROILED = ((5, 5.5, 81), (10, 9.0, 77), (15, 11.0, 72), (20, 11.9, 67), (25, 11.6, 62), (30, 10.6, 57))
ROWS = [MixRow(fat / 100, kept / 100, shrunk / 100) for fat, kept, shrunk in BROILED]
CURVE = fit_segments(ROWS)


def test_the_plateau_of_broiled_mince_is_met_within_half_a_gram() -> None:
    assert [fat_kept_g(CURVE, 100, fat) for fat, _, _ in BROILED] == pytest.approx([k for _, k, _ in BROILED], abs=0.55)


def test_tallow_mixed_into_fat_mince_runs_out_again() -> None:
    without, with_tallow = fat_kept_g(CURVE, 600, 150), fat_kept_g(CURVE, 650, 200)
    assert with_tallow == pytest.approx(without)


@given(st.floats(1, 1000), st.floats(0, 1))
def test_no_more_is_kept_than_there_is_and_never_less_than_none(mass_g: float, share: float) -> None:
    kept = fat_kept_g(CURVE, mass_g, share * mass_g)
    assert -1e-9 <= kept <= share * mass_g + 1e-9


@given(st.floats(0, 1), st.floats(0, 1), st.floats(0, 1))
def test_the_curve_is_concave(one: float, other: float, part: float) -> None:
    between = part * one + (1 - part) * other
    chord = part * fat_kept_g(CURVE, 1, one) + (1 - part) * fat_kept_g(CURVE, 1, other)
    assert fat_kept_g(CURVE, 1, between) >= chord - 1e-12


def test_rows_that_lie_on_a_curve_are_found_again() -> None:
    true = (Segment(0, 1), Segment(0.04, 0.5), Segment(0.15, -0.15))
    rows = [MixRow(fat / 100, fat_kept_g(true, 1, fat / 100), 0.7) for fat in (2, 4, 6, 10, 12, 14, 20, 25, 30)]
    assert [fat_kept_g(fit_segments(rows), 1, row.fat) for row in rows] == pytest.approx([r.fat_kept for r in rows])


def test_few_rows_give_one_share_up_to_what_the_fattest_held_and_a_level_yield() -> None:
    few = [MixRow(0.2, 0.1, 0.6), MixRow(0.3, 0.15, 0.8)]
    everything, share, held = fit_segments(few)
    assert everything == Segment(0, 1)
    assert (share.a_g_per_g, share.b_g_per_g) == pytest.approx((0, 0.5))
    assert held.a_g_per_g * (1 - 0.3) == pytest.approx(0.15), "more tallow than that runs out"
    assert held.b_g_per_g == -held.a_g_per_g
    assert fit_yield(few) == pytest.approx((0.7, 0))


def test_yields_on_a_line_are_met() -> None:
    found = fit_yield([MixRow(fat / 100, 0, 0.8 - fat / 100) for fat in (5, 10, 15, 20, 30)])
    assert found == pytest.approx((0.8, -1))


def test_a_curve_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one row"):
        fit_segments([])


@pytest.mark.parametrize(
    ("fat", "protein", "holds"),
    [
        (0.05, 0.214, 1.0),  # raw mince, 95 % lean (USDA SR28, 23557)
        (0.30, 0.1435, 1.0),  # raw mince, 70 % lean (USDA SR28, 13498)
        (0.0951, 0.1256, 0.7231),  # whole egg (USDA SR28, 01123)
        (1.0, 0.0, 1.0),  # tallow is all fat, and holds no more than itself
        (0.0, 0.0, 0.0),  # water holds none
        (0.001, 0.011, 0.056),  # onion
        (float("nan"), float("nan"), 0.0),  # what nobody knows holds none
    ],
)
def test_flesh_holds_fat_and_water_does_not(fat: float, protein: float, holds: float) -> None:
    assert holding_part(fat, protein) == pytest.approx(holds)


def test_water_in_a_mix_holds_no_fat() -> None:
    mince = 500 * holding_part(0.30, 0.1435)
    with_water = mince + 300 * holding_part(0.0, 0.0)
    assert fat_kept_g(CURVE, with_water, 150) == fat_kept_g(CURVE, mince, 150)
