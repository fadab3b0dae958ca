from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.bands import MODEST_MEAL_KCAL, Centre, Side, centre, energy_aim_kcal, sides
from solver.brief import Brief, EnergyBasis
from solver.foods import Food
from solver.numerics import FloatArray
from solver.targets import Per, Target
from tests.solver.larder import BREAD, BUTTER, CHICKEN, NOTHING, PURE, between, board, brief, food, macronutrients

FOODS = (BUTTER, CHICKEN, BREAD)
PROTEIN, FAT, CARBOHYDRATE = np.array([[1, 30, 10], [80, 4, 2], [1, 0, 50]], dtype=np.float64)  # g in 100 g of each

MACROS_KCAL = {"protein": 4, "fat": 9, "carbohydrate": 4}


def sides_of(target: Target, asked: Brief | None = None, foods: tuple[Food, ...] = FOODS) -> tuple[Side, ...]:
    return sides(target, board(*foods), asked or brief())


def centre_of(target: Target, asked: Brief | None = None) -> Centre:
    found = centre(target, board(*FOODS), asked or brief())
    assert found is not None
    return found


@given(st.floats(0, 100))
def test_a_least_fat_share_is_the_collected_row_of_the_macronutrients(lower: float) -> None:
    (side,) = sides_of(between("fat_share_percent", lower, None), foods=PURE)
    part = lower / 100
    # 9 (1 - lo) F - 4 lo P - 4 lo C >= 0, for 100 g of each.
    np.testing.assert_allclose(side.weights / 100, [-4 * part, 9 * (1 - part), -4 * part], atol=1e-12)
    assert side.least == 0


@given(st.floats(0, 100))
def test_a_largest_fat_share_is_the_same_row_turned_round(upper: float) -> None:
    (least,) = sides_of(between("fat_share_percent", upper, None))
    (most,) = sides_of(between("fat_share_percent", None, upper))
    np.testing.assert_array_equal(most.weights, -least.weights)
    assert most.least == 0


def test_a_ketogenic_ratio_weighs_fat_against_protein_and_available_carbohydrate() -> None:
    lower, upper = sides_of(between("ketogenic_ratio", 3.0, 4.0))
    np.testing.assert_allclose(lower.weights, FAT - 3 * (PROTEIN + CARBOHYDRATE))
    np.testing.assert_allclose(upper.weights, 4 * (PROTEIN + CARBOHYDRATE) - FAT)


def test_an_amount_is_its_own_row() -> None:
    lower, upper = sides_of(between("protein_g", 30.0, 40.0))
    np.testing.assert_array_equal(lower.weights, PROTEIN)
    np.testing.assert_array_equal(upper.weights, -PROTEIN)
    assert (lower.least, upper.least) == (30, -40)
    assert (lower.is_lower, upper.is_lower) == (True, False)


def test_missing_values_of_other_nutrients_do_not_reach_a_row() -> None:
    (side,) = sides_of(between("protein_g", 30.0, None))
    assert np.isfinite(side.weights).all()


# Compositions in whole grams and amounts in whole units of 100 g make the truth exact.
dishes = st.lists(
    st.tuples(st.integers(0, 100), st.integers(0, 100), st.integers(0, 100), st.integers(0, 20)), min_size=1, max_size=5
)


def foods_and_amounts(dish: list[tuple[int, int, int, int]]) -> tuple[tuple[Food, ...], FloatArray]:
    foods = tuple(macronutrients("food", protein=p, fat=f, carbohydrate=c) for p, f, c, _ in dish)
    return foods, np.array([amount for *_, amount in dish], dtype=np.float64)


def total(dish: list[tuple[int, int, int, int]], macronutrient: int) -> int:
    return sum(row[macronutrient] * row[3] for row in dish)


def assert_holds_exactly_when(side: Side, amounts: FloatArray, surplus: Fraction) -> None:
    """surplus: how far the dish is inside the band, in the row's own unit; negative outside."""
    assert float(side.weights @ amounts) - side.least == pytest.approx(float(surplus), abs=1e-8)


@given(dishes, st.sampled_from(list(MACROS_KCAL)), st.integers(0, 100), st.integers(0, 100))
def test_the_rows_of_a_share_hold_exactly_when_the_share_is_in_its_band(
    dish: list[tuple[int, int, int, int]], of: str, lower: int, upper: int
) -> None:
    foods, amounts = foods_and_amounts(dish)
    of_lower, of_upper = sides_of(between(f"{of}_share_percent", float(lower), float(upper)), foods=foods)
    energies = {name: kcal * total(dish, place) for place, (name, kcal) in enumerate(MACROS_KCAL.items())}
    whole = sum(energies.values())
    # share >= lo is energy of it - lo * energy >= 0, multiplied by what is never negative.
    assert_holds_exactly_when(of_lower, amounts, energies[of] - Fraction(lower, 100) * whole)
    assert_holds_exactly_when(of_upper, amounts, Fraction(upper, 100) * whole - energies[of])


@given(dishes, st.integers(0, 60), st.integers(0, 60))
def test_the_rows_of_the_ketogenic_ratio_hold_exactly_when_it_is_in_its_band(
    dish: list[tuple[int, int, int, int]], lower: int, upper: int
) -> None:
    foods, amounts = foods_and_amounts(dish)
    of_lower, of_upper = sides_of(between("ketogenic_ratio", lower / 10, upper / 10), foods=foods)
    protein, fat, carbohydrate = (total(dish, place) for place in range(3))
    assert_holds_exactly_when(of_lower, amounts, fat - Fraction(lower, 10) * (protein + carbohydrate))
    assert_holds_exactly_when(of_upper, amounts, Fraction(upper, 10) * (protein + carbohydrate) - fat)


@given(dishes, st.integers(0, 5000), st.integers(0, 5000), st.integers(1, 12))
def test_the_rows_of_an_amount_hold_exactly_when_a_portion_is_in_its_band(
    dish: list[tuple[int, int, int, int]], lower: int, upper: int, portions: int
) -> None:
    foods, amounts = foods_and_amounts(dish)
    target = between("fat_g", float(lower), float(upper))
    of_lower, of_upper = sides_of(target, brief(portions=portions), foods)
    fat = Fraction(total(dish, 1))
    assert_holds_exactly_when(of_lower, amounts, fat - lower * portions)
    assert_holds_exactly_when(of_upper, amounts, upper * portions - fat)


@pytest.mark.parametrize(("per", "least"), [(Per.PORTION, 120.0), (Per.BATCH, 30.0)])
def test_an_amount_is_for_the_batch_or_for_every_portion_of_it(per: Per, least: float) -> None:
    (side,) = sides_of(replace(between("protein_g", 30.0, None), per=per), brief(portions=4))
    assert side.least == least
    assert side.normaliser == least


@pytest.mark.parametrize("per", Per)
def test_a_ratio_is_the_same_for_a_portion_and_the_batch(per: Per) -> None:
    target = between("fat_share_percent", 70.0, None)
    (side,), (of_portion,) = sides_of(replace(target, per=per)), sides_of(target, brief(portions=4))
    np.testing.assert_array_equal(side.weights, of_portion.weights)
    assert side.least == 0


@pytest.mark.parametrize("of", ["protein_g", "fat_share_percent", "ketogenic_ratio"])
def test_a_one_sided_target_has_one_side_and_no_centre(of: str) -> None:
    for target, is_lower in ((between(of, 3.0, None), True), (between(of, None, 3.0), False)):
        (side,) = sides_of(target)
        assert side.is_lower is is_lower
        assert centre(target, board(*FOODS), brief()) is None


def test_a_band_of_one_point_has_two_sides_and_no_centre() -> None:
    target = between("protein_g", 30.0, 30.0)
    assert len(sides_of(target)) == 2
    assert centre(target, board(*FOODS), brief()) is None


def test_the_centre_of_an_amount_is_the_middle_of_its_band_for_the_batch() -> None:
    middle = centre_of(between("protein_g", 30.0, 40.0), brief(portions=4))
    np.testing.assert_array_equal(middle.weights, PROTEIN)
    assert (middle.middle, middle.half) == (140, 20)


def test_at_the_end_of_a_share_the_deviation_is_one_half_band_when_the_energy_is_at_its_aim() -> None:
    asked = brief(targets=(between("energy_kcal", 700.0, 756.0),))  # 100 g butter are 728 kcal, 98.9 % from fat
    share = 100 * 9 * 80 / 728
    for lower, upper in ((share, share - 8.0), (share - 8.0, share)):
        middle = centre_of(between("fat_share_percent", min(lower, upper), max(lower, upper)), asked)
        deviation = abs(float(middle.weights @ [1.0, 0.0, 0.0]) - middle.middle) / middle.half
        assert deviation == pytest.approx(1.0, rel=1e-9)


def test_in_the_middle_of_a_band_the_deviation_is_none() -> None:
    share = 100 * 9 * 80 / 728
    for target in (
        between("fat_share_percent", share - 1.0, share + 1.0),
        between("ketogenic_ratio", 39.0, 41.0),
        between("fat_g", 70.0, 90.0),
    ):
        middle = centre_of(target)
        assert float(middle.weights @ [1.0, 0.0, 0.0]) - middle.middle == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    ("lower", "upper", "normaliser"), [(30.0, None, 60.0), (None, 40.0, 80.0), (None, 0.0, 2.0), (1e-6, None, 0.002)]
)
def test_a_miss_of_an_amount_is_counted_in_the_end_that_is_missed(
    lower: float | None, upper: float | None, normaliser: float
) -> None:
    found = sides_of(between("protein_g", lower, upper), brief(portions=2))
    assert {side.normaliser for side in found} == {normaliser}


def test_a_miss_of_a_share_is_counted_at_the_energy_aim() -> None:
    asked = brief(targets=(between("energy_kcal", 600.0, 700.0),), portions=4)
    found = sides_of(between("fat_share_percent", 70.0, 80.0), asked)
    # The numerator falls short by (share missed) x energy, so a miss of 1 is the whole energy.
    assert {side.normaliser for side in found} == {4 * 650}


def test_a_miss_of_the_ketogenic_ratio_is_counted_in_the_fat_it_asks_for_at_the_energy_aim() -> None:
    asked = brief(targets=(between("energy_kcal", 400.0, 400.0),))
    (side,) = sides_of(between("ketogenic_ratio", 4.0, None), asked)
    # 4:1 is 40 kcal a dietary unit, so 400 kcal are 10 units and 40 g fat.
    assert side.normaliser == pytest.approx(40)


@pytest.mark.parametrize("of", ["fat_share_percent", "ketogenic_ratio"])
def test_the_normaliser_of_a_ratio_is_never_nothing(of: str) -> None:
    (side,) = sides_of(between(of, None, 0.0))
    assert side.normaliser > 0


@pytest.mark.parametrize(
    ("target", "aim"),
    [
        (between("energy_kcal", 600.0, 700.0), 4 * 650),
        (between("energy_kcal", 600.0, None), 4 * 600),
        (between("energy_kcal", None, 700.0), 4 * 700),
        (replace(between("energy_kcal", 600.0, 700.0), per=Per.BATCH), 650),
        (between("energy_kcal", None, 0.0), 4 * MODEST_MEAL_KCAL),
        (between("protein_g", 30.0, None), 4 * MODEST_MEAL_KCAL),
    ],
)
def test_the_energy_aim_is_the_middle_of_the_energy_band_or_a_modest_meal(target: Target, aim: float) -> None:
    assert energy_aim_kcal(brief(targets=(target,), portions=4)) == aim


def test_of_several_energy_targets_the_first_by_id_is_the_aim_in_any_order() -> None:
    small, large = (replace(between("energy_kcal", kcal, kcal), id=name) for kcal, name in ((300.0, "a"), (900.0, "b")))
    assert energy_aim_kcal(brief(targets=(small, large))) == energy_aim_kcal(brief(targets=(large, small))) == 300


def test_the_energy_basis_decides_what_a_share_is_counted_in() -> None:
    given = {"protein_g": 15, "fat_g": 65, "total_carbohydrate_g": 14, "available_carbohydrate_g": 6, "fibre_g": 8}
    nut = food("nut", **{**NOTHING, **given})
    (general, regulation) = (
        sides(between("fat_share_percent", 50.0, None), board(nut, basis=basis), brief())[0]
        for basis in (EnergyBasis.GENERAL, EnergyBasis.REGULATION)
    )
    # 100 g: 9 x 65 kcal from fat; 14 g carbohydrate of which 8 g are fibre, at 4 kcal or at 2.
    assert general.weights[0] == pytest.approx(9 * 65 - 0.5 * (4 * 15 + 9 * 65 + 4 * 14))
    assert regulation.weights[0] == pytest.approx(9 * 65 - 0.5 * (4 * 15 + 9 * 65 + 4 * 6 + 2 * 8))
