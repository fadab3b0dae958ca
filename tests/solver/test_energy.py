"""Factors from Regulation (EU) No 1169/2011 Annex XIV (quoted) and USDA SR28 FOOD_DES and its documentation (seen)."""

from dataclasses import replace

import numpy as np
import pytest

from solver.brief import EnergyBasis
from solver.catalogue import Catalogue
from solver.energy import (
    GENERAL_KCAL,
    GENERAL_KJ,
    KJ_PER_KCAL,
    REGULATION_KCAL,
    REGULATION_KJ,
    SLICES,
    SPECIFIC_ALCOHOL_KCAL,
    factors_kcal,
    slices_kcal,
)
from solver.foods import Food, SpecificFactors
from solver.numerics import FloatArray
from solver.nutrients import COLUMN
from solver.outcome import Quantity
from solver.tally import tally
from tests.solver.larder import NOTHING, brief, food, item, macronutrients

PROTEIN, FAT, CARBOHYDRATE, ALCOHOL = range(4)

# Annex XIV: component, kcal per g, kJ per g.
ANNEX_XIV = [("fat", 9, 37), ("carbohydrate", 4, 17), ("protein", 4, 17), ("alcohol", 7, 29), ("fibre", 2, 8)]

# NDB number, stated kcal, kcal by the food's own factors, kcal by 4-9-4; per 100 g. Stated figures and compositions
# were read from a release 26 table, the sums computed from them. Where release 28 differs it wins: heavy cream has
# 2.84 g protein, 36.08 g fat, 2.74 g carbohydrate and 340 kcal there (release 26: 2.05, 37.00, 2.79 and 345). Cocoa
# has 37.0 g fibre there (33.2), and ground beef a little less water, neither of which is in these sums.
GOLDEN_ROWS = [
    ("01001", 717, 716.82, 733.63),  # butter
    ("01053", 340, 339.87, 347.04),  # heavy cream
    ("01123", 143, 143.19, 138.71),  # egg, whole
    ("01125", 322, 321.75, 316.66),  # egg yolk
    ("01129", 155, 154.67, 150.29),  # egg, hard-boiled
    ("04053", 884, 884.00, 900.00),  # olive oil
    ("04002", 902, 902.00, 900.00),  # lard
    ("23572", 254, 253.72, 248.68),  # ground beef 80/20
    ("23567", 215, 214.68, 209.36),  # ground beef 85/15
    ("13498", 332, 331.87, 327.40),  # ground beef 70/30
    ("05091", 221, 221.33, 216.57),  # chicken thigh, meat and skin
    ("10123", 417, 416.84, 412.81),  # bacon, raw
    ("10862", 468, 467.93, 458.29),  # bacon, pan-fried
    ("10219", 263, 263.21, 258.23),  # ground pork
    ("09037", 160, 160.13, 174.06),  # avocado
    ("12061", 579, 579.01, 620.17),  # almonds
    ("12155", 654, 654.46, 702.65),  # walnuts
    ("11090", 34, 33.68, 41.17),  # broccoli
    ("19165", 228, 227.54, 433.30),  # cocoa powder
]

SPIRIT_86_PROOF = "sr28:14550"  # 36.0 g alcohol, 0.10 g carbohydrate, 250 kcal


def energy_of(of: Food, basis: EnergyBasis) -> FloatArray:
    """Energy from each of SLICES in 100 g, kcal, (4,)."""
    return np.asarray(slices_kcal((of,), of.per_100g[None, :], basis)[0])


@pytest.mark.parametrize(("component", "kcal", "kj"), ANNEX_XIV)
def test_the_regulation_counts_with_annex_xiv(component: str, kcal: float, kj: float) -> None:
    assert getattr(REGULATION_KCAL, component) == kcal
    assert getattr(REGULATION_KJ, component) == kj


@pytest.mark.parametrize(("component", "kcal", "kj"), [row for row in ANNEX_XIV if row[0] != "fibre"])
def test_the_general_factors_are_those_of_annex_xiv_with_fibre_in_the_carbohydrate(
    component: str, kcal: float, kj: float
) -> None:
    assert getattr(GENERAL_KCAL, component) == kcal
    assert getattr(GENERAL_KJ, component) == kj
    assert GENERAL_KCAL.fibre is None
    assert GENERAL_KJ.fibre is None


@pytest.mark.parametrize("basis", [EnergyBasis.GENERAL, EnergyBasis.REGULATION])
def test_100_g_fat_is_900_kcal_and_3700_kj_which_is_no_conversion(basis: EnergyBasis) -> None:
    asked = replace(brief(item(macronutrients("fat", fat=100))), energy_basis=basis)
    batch = tally([Quantity(asked.pantry[0], 100.0, None)], asked).batch
    assert batch.energy_kcal == pytest.approx(900, rel=1e-12)
    assert batch.energy_kj == pytest.approx(3700, rel=1e-12)
    assert batch.energy_kj != pytest.approx(batch.energy_kcal * KJ_PER_KCAL, rel=0.01)


def test_one_kcal_is_4_184_kj() -> None:
    # SR28 documentation, "Food Energy"; UCUM 2.2, cal_th.
    assert KJ_PER_KCAL == 4.184


@pytest.mark.parametrize(("number", "stated", "specific", "general"), GOLDEN_ROWS)
def test_published_rows_give_their_published_energy(
    catalogue: Catalogue, number: str, stated: float, specific: float, general: float
) -> None:
    row = catalogue.food(f"sr28:{number}")
    assert row.value("energy_kcal") == stated
    assert energy_of(row, EnergyBasis.SPECIFIC).sum() == pytest.approx(specific, abs=0.005001)
    assert energy_of(row, EnergyBasis.GENERAL).sum() == pytest.approx(general, abs=0.005001)
    assert abs(energy_of(row, EnergyBasis.SPECIFIC).sum() - stated) < 1


def test_alcohol_counts_6_93_kcal_where_a_food_has_its_own_factors(catalogue: Catalogue) -> None:
    # SR28 documentation, "Food Energy".
    assert SPECIFIC_ALCOHOL_KCAL == 6.93
    spirit = catalogue.food(SPIRIT_86_PROOF)
    energy = energy_of(spirit, EnergyBasis.SPECIFIC)
    assert energy.sum() == pytest.approx(spirit.value("energy_kcal"), abs=1)
    assert energy[[PROTEIN, FAT, CARBOHYDRATE]].sum() != pytest.approx(spirit.value("energy_kcal"), abs=1)
    assert energy[ALCOHOL] == pytest.approx(36.0 * 6.93)


def test_at_least_95_percent_of_the_table_reproduces_its_stated_energy(catalogue: Catalogue) -> None:
    # 95.9 % of the rows with factors in a release 26 table, computed without the alcohol.
    with_factors = np.flatnonzero(np.isfinite(catalogue.factors).any(axis=1))
    foods = tuple(catalogue.food(catalogue.ids[row]) for row in with_factors)
    per_100g = catalogue.composition[with_factors]
    energy = slices_kcal(foods, per_100g, EnergyBasis.SPECIFIC).sum(axis=1)
    within_1 = np.abs(energy - per_100g[:, COLUMN["energy_kcal"]]) <= 1
    assert len(foods) > 4000
    assert within_1.mean() >= 0.95


def test_fibre_counts_2_kcal_on_the_regulation_basis_inside_the_carbohydrate_slice(catalogue: Catalogue) -> None:
    avocado = catalogue.food("sr28:09037")  # 8.53 g carbohydrate of which 6.7 g fibre
    assert energy_of(avocado, EnergyBasis.REGULATION)[CARBOHYDRATE] == pytest.approx(4 * (8.53 - 6.7) + 2 * 6.7)
    assert energy_of(avocado, EnergyBasis.GENERAL)[CARBOHYDRATE] == pytest.approx(4 * 8.53)


def test_where_fibre_is_unknown_all_carbohydrate_counts_as_available(catalogue: Catalogue) -> None:
    unknown = next(row for row, counted in enumerate(catalogue.total_carbohydrate_counted) if counted)
    without_fibre = catalogue.food(catalogue.ids[unknown])
    assert without_fibre.is_missing("fibre_g")
    regulation = energy_of(without_fibre, EnergyBasis.REGULATION)
    assert regulation[CARBOHYDRATE] == pytest.approx(4 * without_fibre.value("total_carbohydrate_g"))


@pytest.mark.parametrize("basis", EnergyBasis)
def test_where_only_the_available_carbohydrate_is_known_it_stands_for_the_total(basis: EnergyBasis) -> None:
    label = food("label", protein_g=0, fat_g=0, available_carbohydrate_g=10)
    assert energy_of(label, basis)[CARBOHYDRATE] == 40


@pytest.mark.parametrize("basis", EnergyBasis)
def test_unknown_alcohol_counts_as_none(basis: EnergyBasis) -> None:
    label = food("label", protein_g=1, fat_g=2, total_carbohydrate_g=3, available_carbohydrate_g=3)
    np.testing.assert_allclose(energy_of(label, basis), [4, 18, 12, 0])


@pytest.mark.parametrize("basis", EnergyBasis)
@pytest.mark.parametrize(("missing", "place"), [("protein_g", PROTEIN), ("fat_g", FAT)])
def test_a_missing_macronutrient_is_missing_energy_in_its_slice_alone(
    basis: EnergyBasis, missing: str, place: int
) -> None:
    label = food("label", **{name: amount for name, amount in NOTHING.items() if name != missing})
    assert np.flatnonzero(np.isnan(energy_of(label, basis))).tolist() == [place]


@pytest.mark.parametrize("basis", EnergyBasis)
def test_carbohydrate_unknown_in_total_and_available_is_missing_energy(basis: EnergyBasis) -> None:
    label = food("label", protein_g=1, fat_g=2, fibre_g=3)
    assert np.flatnonzero(np.isnan(energy_of(label, basis))).tolist() == [CARBOHYDRATE]


@pytest.mark.parametrize("basis", [EnergyBasis.SPECIFIC, EnergyBasis.DECLARED])
def test_a_food_without_factors_counts_with_the_general_ones(basis: EnergyBasis) -> None:
    assert factors_kcal(macronutrients("label"), basis) == GENERAL_KCAL


def test_a_factor_that_a_food_lacks_is_the_general_one(catalogue: Catalogue) -> None:
    olive_oil = factors_kcal(catalogue.food("sr28:04053"), EnergyBasis.SPECIFIC)
    assert (olive_oil.protein, olive_oil.fat, olive_oil.carbohydrate) == (4, 8.84, 4)


def test_a_food_with_factors_ignores_them_on_the_general_and_regulation_bases() -> None:
    own = replace(macronutrients("own"), factors=SpecificFactors(2.44, 8.37, 3.57))
    assert factors_kcal(own, EnergyBasis.GENERAL) == GENERAL_KCAL
    assert factors_kcal(own, EnergyBasis.REGULATION) == REGULATION_KCAL


@pytest.mark.parametrize("basis", EnergyBasis)
def test_many_foods_at_once_are_each_alone(catalogue: Catalogue, basis: EnergyBasis) -> None:
    foods = tuple(catalogue.food(f"sr28:{row[0]}") for row in GOLDEN_ROWS)
    together = slices_kcal(foods, np.array([one.per_100g for one in foods]), basis)
    assert together.shape == (len(foods), len(SLICES))
    np.testing.assert_array_equal(together, [energy_of(one, basis) for one in foods])


def test_no_foods_have_no_energy() -> None:
    assert slices_kcal((), np.empty((0, len(COLUMN))), EnergyBasis.SPECIFIC).shape == (0, len(SLICES))
