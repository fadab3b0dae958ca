"""Energy of polyols: Annex XIV of Regulation (EU) No 1169/2011, 2.4 kcal and 10 kJ, erythritol none (quoted).

Allulose at 0.4 kcal per g is from memory (FDA guidance, 2020).
"""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference_data import reference_folder
from solver.as_eaten import PLACE, as_weighed
from solver.brief import EnergyBasis
from solver.foods import Food, Polyols
from solver.outcome import Quantity
from solver.polyols import combined, load_polyols
from solver.tally import Tally, tally
from tests.solver.larder import brief, food, item

BY_FACTORS = (EnergyBasis.GENERAL, EnergyBasis.REGULATION, EnergyBasis.SPECIFIC)


def sweet(held: Polyols, total: float = 60, fibre: float = 0) -> Food:
    """100 g with protein and fat of none."""
    available = max(0.0, total - fibre - held.stated_g + held.counted_g)
    values = {"total_carbohydrate_g": total, "available_carbohydrate_g": available, "fibre_g": fibre}
    return replace(food("sweet", protein_g=0, fat_g=0, **values), polyols=held)


def tallied(of: Food, basis: EnergyBasis) -> Tally:
    return tally([Quantity(item(of), 100.0, None)], replace(brief(item(of)), energy_basis=basis))


def matrix_kcal(of: Food, basis: EnergyBasis) -> float:
    return float(as_weighed((of,), basis)[0, PLACE["energy_from_carbohydrate_kcal"]])


@pytest.mark.parametrize("basis", BY_FACTORS)
@pytest.mark.parametrize(
    ("held", "kcal"),
    [
        (Polyols(20, 0, 0, 10), 40 * 4 + 20 * 2.4),
        (Polyols(0, 20, 0, 0), 40 * 4),
        (Polyols(0, 0, 20, 0), 40 * 4 + 20 * 0.4),
        (Polyols(10, 5, 5, 20), 40 * 4 + 10 * 2.4 + 5 * 0.4),
    ],
)
def test_polyols_count_by_their_own_factors_whatever_share_counts_as_carbohydrate(
    held: Polyols, kcal: float, basis: EnergyBasis
) -> None:
    assert matrix_kcal(sweet(held), basis) == pytest.approx(kcal)
    assert tallied(sweet(held), basis).macro.carbohydrate == pytest.approx(kcal)


def test_kj_of_polyols_have_a_factor_of_their_own() -> None:
    for basis in (EnergyBasis.GENERAL, EnergyBasis.REGULATION):
        assert tallied(sweet(Polyols(20, 10, 0, 10)), basis).batch.energy_kj == pytest.approx(30 * 17 + 20 * 10)


amounts = st.floats(0, 40)


@given(
    held=st.builds(Polyols, amounts, amounts, amounts, amounts),
    total=st.floats(0, 100),
    fibre=amounts,
    basis=st.sampled_from(BY_FACTORS),
)
def test_the_matrix_and_the_tally_agree_on_any_polyols(
    held: Polyols, total: float, fibre: float, basis: EnergyBasis
) -> None:
    of = sweet(held, total, fibre)
    assert matrix_kcal(of, basis) == pytest.approx(tallied(of, basis).macro.carbohydrate, abs=1e-9)


def test_erythritol_and_allulose_are_kept_apart_from_the_other_kinds() -> None:
    grams = {"maltitol": 10.0, "xylitol": 2.0, "erythritol": 5.0, "allulose": 3.0}
    held = combined(grams, {"maltitol": 0.5, "xylitol": 0.5, "erythritol": 0, "allulose": 0})
    assert held == Polyols(polyols_g=12, erythritol_g=5, allulose_g=3, counted_g=6)


def test_the_table_leaves_out_erythritol_and_never_maltitol() -> None:
    kinds = load_polyols(reference_folder() / "polyols.csv")
    assert kinds["erythritol"].counted == 0
    assert kinds["allulose"].counted == 0
    assert kinds["other"].counted == 1
    assert {name for name, kind in kinds.items() if not kind.may_be_left_out} == {"maltitol", "other"}
    assert all(0 <= kind.counted <= 1 for kind in kinds.values())
