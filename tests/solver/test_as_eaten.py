from dataclasses import replace

import numpy as np
import pytest

from solver.as_eaten import COLUMNS, PLACE, SLICE_COLUMNS, as_weighed
from solver.brief import EnergyBasis
from solver.catalogue import Catalogue
from solver.energy import SLICES
from solver.nutrients import NUTRIENTS
from tests.solver.larder import BUTTER, CHICKEN, food


def test_the_columns_are_the_nutrients_the_energy_from_each_macronutrient_and_the_energy() -> None:
    assert COLUMNS[: len(NUTRIENTS)] == tuple(nutrient.name for nutrient in NUTRIENTS)
    assert COLUMNS[len(NUTRIENTS) :] == (*(SLICE_COLUMNS[of] for of in SLICES), "basis_energy_kcal")
    assert [COLUMNS[place] for place in PLACE.values()] == list(PLACE)


def test_what_is_eaten_is_what_was_weighed() -> None:
    eaten = as_weighed((BUTTER, CHICKEN), EnergyBasis.GENERAL)
    np.testing.assert_array_equal(eaten[:, : len(NUTRIENTS)], [BUTTER.per_100g, CHICKEN.per_100g])


@pytest.mark.parametrize("basis", [EnergyBasis.GENERAL, EnergyBasis.REGULATION, EnergyBasis.SPECIFIC])
def test_energy_is_the_sum_over_the_macronutrients(catalogue: Catalogue, basis: EnergyBasis) -> None:
    eaten = as_weighed((catalogue.food("sr28:09037"), catalogue.food("sr28:14550")), basis)
    slices = eaten[:, [PLACE[column] for column in SLICE_COLUMNS.values()]]
    np.testing.assert_allclose(eaten[:, PLACE["basis_energy_kcal"]], slices.sum(axis=1))


def test_declared_energy_is_the_stated_one_divided_as_the_specific_factors_do(catalogue: Catalogue) -> None:
    walnuts = (catalogue.food("sr28:12155"),)  # 654 kcal
    declared, specific = (as_weighed(walnuts, basis)[0] for basis in (EnergyBasis.DECLARED, EnergyBasis.SPECIFIC))
    assert declared[PLACE["basis_energy_kcal"]] == 654
    slices = [PLACE[column] for column in SLICE_COLUMNS.values()]
    np.testing.assert_array_equal(declared[slices], specific[slices])


def test_missing_values_stay_missing() -> None:
    eaten = as_weighed((food("label", fat_g=10),), EnergyBasis.GENERAL)[0]
    assert np.isnan(eaten[PLACE["protein_g"]])
    assert np.isnan(eaten[PLACE["basis_energy_kcal"]])
    assert eaten[PLACE["energy_from_fat_kcal"]] == 90


def test_energy_that_a_source_does_not_state_is_missing_on_the_declared_basis_alone() -> None:
    assert np.isnan(as_weighed((BUTTER,), EnergyBasis.DECLARED)[0, PLACE["basis_energy_kcal"]])
    assert as_weighed((BUTTER,), EnergyBasis.GENERAL)[0, PLACE["basis_energy_kcal"]] == 728


def test_no_foods_have_no_rows() -> None:
    assert as_weighed((), EnergyBasis.GENERAL).shape == (0, len(COLUMNS))


def test_what_was_worked_out_of_a_food_does_not_go_with_a_changed_copy() -> None:
    as_weighed((BUTTER,), EnergyBasis.GENERAL)
    lean = replace(BUTTER, per_100g=CHICKEN.per_100g)
    of_lean, of_chicken = as_weighed((lean, CHICKEN), EnergyBasis.GENERAL)
    np.testing.assert_array_equal(of_lean, of_chicken)


def test_a_basis_does_not_take_what_was_worked_out_for_another(catalogue: Catalogue) -> None:
    walnuts = (catalogue.food("sr28:12155"),)
    by_basis = [as_weighed(walnuts, basis)[0, PLACE["basis_energy_kcal"]] for basis in EnergyBasis]
    assert len(set(by_basis)) == len(EnergyBasis)


def test_whoever_gets_the_rows_may_change_them() -> None:
    as_weighed((BUTTER,), EnergyBasis.GENERAL)[:] = 0
    assert as_weighed((BUTTER,), EnergyBasis.GENERAL)[0, PLACE["energy_from_fat_kcal"]] > 0
