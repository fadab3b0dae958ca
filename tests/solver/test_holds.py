"""What a food holds at either end of a tolerance."""

from dataclasses import replace

import numpy as np
import pytest

from solver.brief import EnergyBasis
from solver.energy import slices_kcal
from solver.holds import Holds, Tolerance
from solver.holds_ends import at_corner, ends
from solver.label_intervals import nutrient_row
from solver.nutrients import COLUMN
from tests.solver.larder import BREAD, BUTTER, food

EU = Holds(Tolerance.EU)
LOW, HIGH = (False, False), (True, True)


# The ranges that are worked in articles on the Commission's guidance document of December 2012 (second hand).
@pytest.mark.parametrize(
    ("nutrient", "declared", "low", "high"),
    [
        ("protein_g", 3.4, 1.4, 5.4),
        ("protein_g", 20, 16, 24),
        ("sugars_g", 55, 47, 63),
        ("fat_g", 5, 3.5, 6.5),
        ("fat_g", 30, 24, 36),
        ("saturated_fat_g", 2, 1.2, 2.8),
    ],
)
def test_an_item_moves_as_the_guidance_allows_by_its_content(
    nutrient: str, declared: float, low: float, high: float
) -> None:
    least, most = ends(food("any", **{nutrient: declared}), EU)
    assert (least[COLUMN[nutrient]], most[COLUMN[nutrient]]) == pytest.approx((low, high))


def test_nothing_holds_less_than_nothing_and_what_is_unknown_stays_unknown() -> None:
    least, most = ends(food("any", fat_g=0.5, water_g=60), EU)
    assert (least[COLUMN["fat_g"]], most[COLUMN["fat_g"]]) == (0.0, 2.0)
    assert least[COLUMN["water_g"]] == most[COLUMN["water_g"]] == 60
    assert np.isnan(least[COLUMN["protein_g"]])


def test_label_rounding_moves_only_what_was_printed() -> None:
    holds = Holds(Tolerance.LABEL_ROUNDING)
    printed = replace(BUTTER, half_interval=nutrient_row({"fat_g": 0.5}))
    least, most = ends(printed, holds)
    assert (least[COLUMN["fat_g"]], most[COLUMN["fat_g"]]) == (79.5, 80.5)
    assert least[COLUMN["protein_g"]] == 1
    assert np.array_equal(*ends(BUTTER, holds), equal_nan=True)


def test_a_part_of_a_tolerance_moves_by_that_part() -> None:
    least, most = ends(BREAD, Holds(Tolerance.PERCENT, {"protein_g": 10}, scale=0.5))
    assert (least[COLUMN["protein_g"]], most[COLUMN["protein_g"]]) == (9.5, 10.5)


def test_fat_can_move_against_the_rest() -> None:
    moved = at_corner(BREAD, EU, EnergyBasis.GENERAL, (True, False))
    assert (moved.value("fat_g"), moved.value("protein_g")) == (3.5, 8.0)


def test_stated_energy_moves_with_the_macronutrients() -> None:
    stated = replace(BREAD, per_100g=BREAD.per_100g.copy())
    stated.per_100g[COLUMN["energy_kcal"]] = 260
    moved = at_corner(stated, EU, EnergyBasis.DECLARED, HIGH)
    assert moved.value("energy_kcal") == pytest.approx(260 + 4 * 2 + 9 * 1.5 + 4 * 8)


def test_stated_energy_moves_by_its_own_percent_where_one_is_given() -> None:
    stated = replace(BREAD, per_100g=BREAD.per_100g.copy())
    stated.per_100g[COLUMN["energy_kcal"]] = 260
    holds = Holds(Tolerance.PERCENT, {"energy_kcal": 10, "fat_g": 50})
    assert at_corner(stated, holds, EnergyBasis.DECLARED, LOW).value("energy_kcal") == pytest.approx(234)


def test_energy_that_was_printed_moves_by_its_own_rounding_and_other_with_the_macronutrients() -> None:
    holds, stated = Holds(Tolerance.LABEL_ROUNDING), replace(BREAD, per_100g=BREAD.per_100g.copy())
    stated.per_100g[COLUMN["energy_kcal"]] = 260
    printed = replace(stated, half_interval=nutrient_row({"energy_kcal": 5, "fat_g": 0.5}))
    assert at_corner(printed, holds, EnergyBasis.DECLARED, HIGH).value("energy_kcal") == pytest.approx(265)
    counted = replace(stated, half_interval=nutrient_row({"fat_g": 0.5}))
    assert at_corner(counted, holds, EnergyBasis.DECLARED, HIGH).value("energy_kcal") == pytest.approx(260 + 9 * 0.5)


@pytest.mark.parametrize("basis", EnergyBasis)
def test_energy_of_every_slice_grows_with_what_it_is_counted_from(basis: EnergyBasis) -> None:
    low, stated, high = (
        slices_kcal((each,), each.per_100g[None, :], basis)[0]
        for each in (at_corner(BREAD, EU, basis, LOW), BREAD, at_corner(BREAD, EU, basis, HIGH))
    )
    assert (low <= stated).all()
    assert (stated <= high).all()
    assert low.sum() < stated.sum() < high.sum()
