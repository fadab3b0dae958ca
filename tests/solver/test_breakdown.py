"""The numbers of a dish as it is: Woodyatt's ratio against published values, and who brings what."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.breakdown import SHARED, Breakdown, break_down, woodyatt
from solver.brief import Brief, EnergyBasis
from solver.catalogue import Catalogue
from solver.outcome import Quantity
from solver.pantry import PantryItem

AMOUNT_G = st.floats(0, 1000, allow_subnormal=False)


@pytest.mark.parametrize(
    ("protein_g", "fat_g", "carbohydrate_g", "ratio"),
    [(18, 117, 21, 2.6328), (20, 160, 20, 3.2185), (100, 120, 20, 1.7111), (0, 1, 0, 9.0), (1, 0, 0, 0.7931)],
)
def test_the_ratio_has_its_published_values(
    protein_g: float, fat_g: float, carbohydrate_g: float, ratio: float
) -> None:
    # The formula: Woodyatt, Arch Intern Med 1921;28:125-141, quoted second hand; values computed from it. The first
    # dish is the worked example of a 3:1 diet in ISRN 2012, article 263139, Table 2.
    assert woodyatt(protein_g, fat_g, carbohydrate_g) == pytest.approx(ratio, abs=5e-5)


def test_a_strongly_ketogenic_diet_has_a_ratio_of_one_and_a_half() -> None:
    # Wilder and Winter's short form F = 2 C + P / 2 stands for about 1.5 (from memory); exact at F = 72.8.
    assert woodyatt(60, 72.8, 20) == pytest.approx(1.5, abs=0.001)
    assert woodyatt(60, 70, 20) == pytest.approx(1.5, abs=0.05)


def test_carbohydrate_alone_has_none_of_it_and_nothing_has_no_ratio() -> None:
    assert woodyatt(0, 0, 30) == 0
    assert woodyatt(0, 0, 0) is None


@given(AMOUNT_G, AMOUNT_G, st.floats(1, 1000), st.floats(1, 100))
def test_more_fat_raises_it_and_more_carbohydrate_lowers_it(
    protein_g: float, fat_g: float, carbohydrate_g: float, more_g: float
) -> None:
    here = woodyatt(protein_g, fat_g, carbohydrate_g)
    fatter = woodyatt(protein_g, fat_g + more_g, carbohydrate_g)
    sweeter = woodyatt(protein_g, fat_g, carbohydrate_g + more_g)
    assert here is not None
    assert fatter is not None
    assert sweeter is not None
    assert fatter > here >= sweeter
    assert here == 0 or here > sweeter


@given(AMOUNT_G, AMOUNT_G, st.floats(1, 1000), st.floats(0.1, 10))
def test_the_size_of_a_dish_does_not_change_it(
    protein_g: float, fat_g: float, carbohydrate_g: float, times: float
) -> None:
    larger = woodyatt(protein_g * times, fat_g * times, carbohydrate_g * times)
    assert larger == pytest.approx(woodyatt(protein_g, fat_g, carbohydrate_g), rel=1e-9)


def broken_down(catalogue: Catalogue, amounts_g: dict[str, float], basis: EnergyBasis) -> Breakdown:
    items = [PantryItem(food_id, catalogue.food(food_id)) for food_id in amounts_g]
    quantities = [Quantity(item, grams, None) for item, grams in zip(items, amounts_g.values(), strict=True)]
    return break_down(quantities, {}, Brief("dish", 1, tuple(items), (), energy_basis=basis))


#: USDA SR28: egg, butter, avocado, paprika.
DISH = {"sr28:01123": 100.0, "sr28:01001": 14.2, "sr28:09037": 80.0, "sr28:02028": 2.3}


@pytest.mark.parametrize("basis", EnergyBasis)
def test_who_brings_what_sums_to_all_of_it(catalogue: Catalogue, basis: EnergyBasis) -> None:
    found = broken_down(catalogue, DISH, basis)
    for name in SHARED:
        assert sum(each.percent[name] or 0 for each in found.brings) == pytest.approx(100)
    energy = sum(each.amounts["energy_kcal"] or 0 for each in found.brings)
    assert energy == pytest.approx(found.dish.batch.energy_kcal)


def test_every_basis_is_told_and_the_dish_is_on_its_own(catalogue: Catalogue) -> None:
    found = broken_down(catalogue, DISH, EnergyBasis.SPECIFIC)
    by_basis = {each.basis: each for each in found.bases}
    assert list(by_basis) == list(EnergyBasis)
    assert by_basis[EnergyBasis.SPECIFIC].energy_kcal == found.dish.batch.energy_kcal
    assert len({round(each.energy_kcal, 3) for each in found.bases}) == 4
    for each in found.bases:
        assert each.shares is not None
        assert sum(each.shares.values()) == pytest.approx(100)
        assert each.fat_share_percent == each.shares["fat"]


def test_the_ratio_of_a_dish_is_that_of_its_macronutrients(catalogue: Catalogue) -> None:
    found = broken_down(catalogue, DISH, EnergyBasis.GENERAL)
    names = ("protein_g", "fat_g", "available_carbohydrate_g")
    protein, fat, carbohydrate = (found.dish.batch.values[name] or 0 for name in names)
    assert found.woodyatt == pytest.approx(woodyatt(protein, fat, carbohydrate))


def test_only_spices_and_herbs_are_seasoning(catalogue: Catalogue) -> None:
    found = broken_down(catalogue, DISH, EnergyBasis.GENERAL)
    # USDA SR28, 02028: carbohydrate 53.99 g less fibre 34.9 g in 100 g.
    assert found.seasoning_carbohydrate_g == pytest.approx(0.023 * (53.99 - 34.9))
    assert [each.seasoning_carbohydrate_g > 0 for each in found.brings] == [False, False, False, True]
