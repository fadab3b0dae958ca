"""Energy on the plate: factors of USDA SR28 (seen); kJ of Regulation (EU) No 1169/2011, Annex XIV (quoted)."""

from collections.abc import Sequence

import pytest

from solver.brief import EnergyBasis
from solver.catalogue import Catalogue
from solver.components import Placed
from solver.energy_eaten import MacroEnergy, energy_lost_kcal, macro_energy_kcal, macro_energy_kj
from solver.outcome import Quantity
from solver.used import Used
from tests.solver.larder import NOTHING, food, item

#: 100 g of each per 100 g: 17.17 g protein and 20 g fat; its own factors are 4.27 and 9.02, 254 kcal stated.
MINCE = "sr28:23572"

#: 36 g alcohol and 0.1 g carbohydrate; only carbohydrate has a factor of its own, 4.12; alcohol 6.93; 250 kcal stated.
SPIRIT = "sr28:14550"


def used(catalogue: Catalogue, food_id: str, lost_fat_g: float = 0.0, **retention: float) -> Sequence[Used]:
    """200 g."""
    return [Used(Quantity(item(catalogue.food(food_id)), 200.0, None, Placed(retention=retention)), {}, lost_fat_g)]


@pytest.mark.parametrize(
    ("basis", "protein", "fat"),
    [
        (EnergyBasis.GENERAL, 4.0, 9.0),
        (EnergyBasis.REGULATION, 4.0, 9.0),
        (EnergyBasis.SPECIFIC, 4.27, 9.02),
        (EnergyBasis.DECLARED, 4.27, 9.02),
    ],
)
def test_fat_that_is_lost_takes_its_own_energy_along_and_no_other(
    catalogue: Catalogue, basis: EnergyBasis, protein: float, fat: float
) -> None:
    macro = macro_energy_kcal(used(catalogue, MINCE, lost_fat_g=16.0), basis)
    assert macro.protein == pytest.approx(protein * 2 * 17.17)
    assert macro.fat == pytest.approx(fat * (40 - 16))
    assert (macro.carbohydrate, macro.alcohol) == (0, 0)
    assert macro.total == pytest.approx(macro.protein + macro.fat)


@pytest.mark.parametrize("basis", [EnergyBasis.GENERAL, EnergyBasis.REGULATION])
def test_kilojoules_of_lost_fat_are_counted_by_their_own_factor(catalogue: Catalogue, basis: EnergyBasis) -> None:
    macro = macro_energy_kj(used(catalogue, MINCE, lost_fat_g=16.0), basis)
    assert macro is not None
    assert macro.fat == pytest.approx(37 * 24)
    assert macro.protein == pytest.approx(17 * 2 * 17.17)


@pytest.mark.parametrize("basis", [EnergyBasis.SPECIFIC, EnergyBasis.DECLARED])
def test_a_basis_without_factors_in_kilojoules_has_none(catalogue: Catalogue, basis: EnergyBasis) -> None:
    assert macro_energy_kj(used(catalogue, MINCE), basis) is None


def test_alcohol_that_boils_off_takes_its_energy_along(catalogue: Catalogue) -> None:
    # USDA retention factors, release 6 (quoted): 40 % is left after 15 minutes of simmering.
    macro = macro_energy_kcal(used(catalogue, SPIRIT, alcohol_g=0.4), EnergyBasis.GENERAL)
    assert macro.alcohol == pytest.approx(7 * 0.4 * 72)
    assert macro.carbohydrate == pytest.approx(4 * 0.2)


def test_stated_energy_loses_what_its_fat_and_alcohol_brought_by_the_foods_own_factors(catalogue: Catalogue) -> None:
    (mince,) = used(catalogue, MINCE, lost_fat_g=16.0)
    (spirit,) = used(catalogue, SPIRIT, alcohol_g=0.4)
    assert energy_lost_kcal(mince) == pytest.approx(16 * 9.02)
    assert energy_lost_kcal(spirit) == pytest.approx(0.6 * 72 * 6.93)
    assert energy_lost_kcal(mince.uncooked) == 0


def test_all_of_the_fat_lost_is_no_energy_from_fat() -> None:
    tallow = food("tallow", **NOTHING | {"fat_g": 100.0})
    lost = [Used(Quantity(item(tallow), 30.0, None), {}, lost_fat_g=30.0)]
    assert macro_energy_kcal(lost, EnergyBasis.GENERAL) == MacroEnergy(0, 0, 0, 0)


def test_a_missing_macronutrient_brings_none_and_counts_as_the_brief_says() -> None:
    stock = food("stock", protein_g=2)
    one = Quantity(item(stock), 100.0, None)
    assert macro_energy_kcal([Used(one, {})], EnergyBasis.GENERAL) == MacroEnergy(8, 0, 0, 0)
    counted = macro_energy_kcal([Used(one, {"fat_g": 5.0}, lost_fat_g=2.0)], EnergyBasis.GENERAL)
    assert counted.fat == pytest.approx(9 * 3)


def test_energies_of_several_foods_are_summed(catalogue: Catalogue) -> None:
    both = [*used(catalogue, MINCE, lost_fat_g=16.0), *used(catalogue, SPIRIT)]
    parts = [macro_energy_kcal([each], EnergyBasis.SPECIFIC) for each in both]
    whole = macro_energy_kcal(both, EnergyBasis.SPECIFIC)
    assert whole.total == pytest.approx(sum(part.total for part in parts))
