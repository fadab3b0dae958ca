"""Compositions and factors of USDA SR28 (seen), kJ factors of Regulation (EU) No 1169/2011 Annex XIV (quoted)."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from solver.as_eaten import PLACE, SLICE_COLUMNS, as_weighed
from solver.brief import Brief, EnergyBasis
from solver.catalogue import Catalogue
from solver.energy_eaten import MacroEnergy
from solver.outcome import Quantity
from solver.tally import Tally, tally
from tests.solver.larder import BUTTER, brief, food, item, pantry

# Per 100 g:                P      F      C     fibre  alcohol  stated kcal   own factors P, F, C kcal per g
# sr28:23572 ground beef   17.17  20.00  0.00   0.0     0.0      254          4.27  9.02  3.87
# sr28:09037 avocado        2.00  14.66  8.53   6.7     0.0      160          3.36  8.37  3.60
# sr28:14550 spirit         0.00   0.00  0.10   0.0    36.0      250          none  none  4.12
DISH_G = {"sr28:23572": 200.0, "sr28:09037": 60.0, "sr28:14550": 20.0}
PORTIONS = 2

GENERAL = MacroEnergy(
    protein=4 * (2 * 17.17 + 0.6 * 2.00),
    fat=9 * (2 * 20.00 + 0.6 * 14.66),
    carbohydrate=4 * (0.6 * 8.53 + 0.2 * 0.10),
    alcohol=7 * (0.2 * 36.0),
)
REGULATION = replace(GENERAL, carbohydrate=4 * (0.6 * (8.53 - 6.7) + 0.2 * 0.10) + 2 * (0.6 * 6.7))
SPECIFIC = MacroEnergy(
    protein=4.27 * 2 * 17.17 + 3.36 * 0.6 * 2.00,
    fat=9.02 * 2 * 20.00 + 8.37 * 0.6 * 14.66,
    carbohydrate=3.60 * 0.6 * 8.53 + 4.12 * 0.2 * 0.10,
    alcohol=6.93 * 0.2 * 36.0,
)
STATED_KCAL = 2 * 254 + 0.6 * 160 + 0.2 * 250

GENERAL_KJ = (
    17 * (2 * 17.17 + 0.6 * 2.00) + 37 * (2 * 20.00 + 0.6 * 14.66) + 17 * (0.6 * 8.53 + 0.2 * 0.10) + 29 * (0.2 * 36.0)
)
FIBRE_G = 0.6 * 6.7
REGULATION_KJ = GENERAL_KJ - 17 * FIBRE_G + 8 * FIBRE_G

BY_HAND = {
    EnergyBasis.GENERAL: (GENERAL, GENERAL.total, GENERAL_KJ),
    EnergyBasis.REGULATION: (REGULATION, REGULATION.total, REGULATION_KJ),
    EnergyBasis.SPECIFIC: (SPECIFIC, SPECIFIC.total, SPECIFIC.total * 4.184),
    EnergyBasis.DECLARED: (SPECIFIC, STATED_KCAL, STATED_KCAL * 4.184),
}


def tally_of(catalogue: Catalogue, dish_g: dict[str, float], basis: EnergyBasis) -> Tally:
    asked = replace(brief(portions=PORTIONS), energy_basis=basis)
    return tally([Quantity(item(catalogue.food(of)), grams, None) for of, grams in dish_g.items()], asked)


@pytest.mark.parametrize("basis", EnergyBasis)
def test_a_small_dish_comes_to_what_was_worked_by_hand(catalogue: Catalogue, basis: EnergyBasis) -> None:
    macro, kcal, kj = BY_HAND[basis]
    sums = tally_of(catalogue, DISH_G, basis)
    for slice_name in ("protein", "fat", "carbohydrate", "alcohol", "total"):
        assert getattr(sums.macro, slice_name) == pytest.approx(getattr(macro, slice_name), rel=1e-12)
    assert sums.batch.energy_kcal == pytest.approx(kcal, rel=1e-12)
    assert sums.batch.energy_kj == pytest.approx(kj, rel=1e-12)


def test_amounts_are_summed_over_the_foods_and_divided_into_portions(catalogue: Catalogue) -> None:
    sums = tally_of(catalogue, DISH_G, EnergyBasis.GENERAL)
    by_hand = {
        "energy_kcal": STATED_KCAL,
        "protein_g": 2 * 17.17 + 0.6 * 2.00,
        "fat_g": 2 * 20.00 + 0.6 * 14.66,
        "total_carbohydrate_g": 0.6 * 8.53 + 0.2 * 0.10,
        "available_carbohydrate_g": 0.6 * (8.53 - 6.7) + 0.2 * 0.10,
        "fibre_g": 0.6 * 6.7,
        "alcohol_g": 0.2 * 36.0,
    }
    for name, amount in by_hand.items():
        assert sums.batch.values[name] == pytest.approx(amount, rel=1e-12)
        assert sums.portion.values[name] == pytest.approx(amount / PORTIONS, rel=1e-12)
    assert (sums.batch.grams, sums.portion.grams) == (280, 140)
    assert sums.portion.energy_kcal == pytest.approx(sums.batch.energy_kcal / PORTIONS)
    assert sums.portion.energy_kj == pytest.approx(sums.batch.energy_kj / PORTIONS)


def test_stated_energy_is_kept_beside_the_energy_of_the_basis(catalogue: Catalogue) -> None:
    # Walnuts, SR28 12155: 654 kcal stated, 702.65 kcal by 4-9-4 (computed).
    walnuts = tally_of(catalogue, {"sr28:12155": 100.0}, EnergyBasis.GENERAL).batch
    assert walnuts.values["energy_kcal"] == 654
    assert walnuts.energy_kcal == pytest.approx(702.65, abs=0.005001)


rows_and_grams = st.lists(
    st.tuples(st.integers(0, 10**6), st.floats(0, 1000)), min_size=1, max_size=6, unique_by=lambda pair: pair[0]
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(rows_and_grams, st.sampled_from(EnergyBasis))
def test_the_tally_and_the_optimised_matrix_agree_on_any_dish_of_the_table(
    catalogue: Catalogue, dish: list[tuple[int, float]], basis: EnergyBasis
) -> None:
    foods = tuple(catalogue.food(catalogue.ids[row % len(catalogue)]) for row, _ in dish)
    grams = np.array([grams for _, grams in dish])
    asked = replace(brief(), energy_basis=basis)
    sums = tally([Quantity(item(of), float(g), None) for of, g in zip(foods, grams, strict=True)], asked)
    by_matrix = grams / 100 @ np.nan_to_num(as_weighed(foods, basis))
    for name, column in SLICE_COLUMNS.items():
        assert getattr(sums.macro, name) == pytest.approx(by_matrix[PLACE[column]], rel=1e-9, abs=1e-9)
    assert sums.batch.energy_kcal == pytest.approx(by_matrix[PLACE["basis_energy_kcal"]], rel=1e-9, abs=1e-9)
    for name, value in sums.batch.values.items():
        assert (value or 0.0) == pytest.approx(by_matrix[PLACE[name]], rel=1e-9, abs=1e-9)


STOCK = food("stock", protein_g=2.0, sodium_mg=300.0)


def of_butter_and_stock(asked: Brief | None = None) -> Tally:
    butter, stock = pantry(BUTTER, STOCK)
    return tally([Quantity(butter, 50.0, None), Quantity(stock, 200.0, None)], asked or brief())


def test_a_nutrient_that_some_used_item_lacks_is_a_sum_of_the_known_and_says_whose_value_is_missing() -> None:
    sums = of_butter_and_stock()
    assert sums.batch.values["sodium_mg"] == pytest.approx(600)
    assert sums.batch.lacking["sodium_mg"] == ("butter",)
    assert sums.batch.lacking["fat_g"] == ("stock",)
    assert sums.portion.lacking == sums.batch.lacking


def test_a_nutrient_that_every_used_item_has_lacks_nothing() -> None:
    assert "protein_g" not in of_butter_and_stock().batch.lacking


def test_a_nutrient_that_no_used_item_has_is_unknown_and_not_zero() -> None:
    sums = of_butter_and_stock()
    assert sums.batch.values["iron_mg"] is None
    assert sums.portion.values["iron_mg"] is None
    assert sums.batch.lacking["iron_mg"] == ("butter", "stock")


def test_a_missing_value_is_counted_as_the_brief_says_and_then_is_not_lacking() -> None:
    sums = of_butter_and_stock(replace(brief(), count_missing_as={"sodium_mg": 10.0, "fat_g": 1.0}))
    assert sums.batch.values["sodium_mg"] == pytest.approx(600 + 5)
    assert sums.batch.values["fat_g"] == pytest.approx(40 + 2)
    assert sums.macro.fat == pytest.approx(9 * 42)
    assert not {"sodium_mg", "fat_g"} & set(sums.batch.lacking)


def test_where_only_available_carbohydrate_is_known_its_energy_counts() -> None:
    label = item(food("label", protein_g=0, fat_g=0, available_carbohydrate_g=10))
    for basis in (EnergyBasis.GENERAL, EnergyBasis.REGULATION):
        assert tally([Quantity(label, 50.0, None)], replace(brief(), energy_basis=basis)).macro.carbohydrate == 20


@pytest.mark.parametrize("basis", EnergyBasis)
def test_no_quantities_come_to_nothing(basis: EnergyBasis) -> None:
    sums = tally([], replace(brief(), energy_basis=basis))
    assert (sums.batch.grams, sums.batch.energy_kcal, sums.batch.energy_kj, sums.macro.total) == (0, 0, 0, 0)
    assert set(sums.batch.values.values()) == {None}
    assert sums.batch.lacking == {}
