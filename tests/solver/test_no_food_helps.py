"""Bounds that no food can move, by arithmetic: 4 kcal to the gram of protein and carbohydrate, 9 of fat."""

from dataclasses import replace

import pytest

from solver.backends import open_backend
from solver.brief import Brief, EnergyBasis
from solver.catalogue import Catalogue
from solver.deadline import Deadline
from solver.no_food_helps import Bound, no_food_helps
from solver.outcome import Conflict
from solver.pantry import PantryItem
from solver.solve import solve
from solver.targets import Target
from tests.solver import larder


def bound(*asked: Target, basis: EnergyBasis = EnergyBasis.GENERAL, portions: int = 1) -> Bound | None:
    brief = replace(larder.brief(targets=asked, portions=portions), energy_basis=basis)
    return no_food_helps(brief, open_backend("highs"), Deadline.after(10))


FOURTH = (
    larder.between("energy_kcal", 440.0, 450.0),
    larder.between("protein_g", 35.0, None),
    larder.between("fat_share_percent", 80.0, None),
    larder.between("sodium_mg", None, 600.0),
)


@pytest.mark.parametrize("portions", [1, 4])
def test_the_fat_share_that_energy_and_protein_leave_is_a_ceiling(portions: int) -> None:
    # 35 g protein are 140 of the 450 kcal.
    found = bound(*FOURTH, portions=portions)
    assert found is not None
    assert found.value == pytest.approx(100 * 310 / 450)
    assert found.is_ceiling
    assert found.text == "450 kcal with 35 g protein cannot exceed 68.9 % fat, whatever is added"
    assert {member.name for member in found.members} == {"energy_kcal", "protein_g", "fat_share_percent"}


def test_the_ketogenic_ratio_that_energy_and_protein_leave_is_a_ceiling() -> None:
    # 20 g protein leave 370 kcal, 41.1 g of fat.
    asked = (larder.between("energy_kcal", None, 450.0), larder.between("ketogenic_ratio", 4.0, None))
    found = bound(*asked, larder.between("protein_g", 20.0, None))
    assert found is not None
    assert found.value == pytest.approx(370 / 9 / 20)
    assert found.text == "450 kcal with 20 g protein cannot exceed a ketogenic ratio of 2.06 : 1, whatever is added"


def test_energy_cannot_go_below_that_of_its_parts() -> None:
    asked = (larder.between("energy_kcal", 300.0, 500.0), larder.between("fat_g", 50.0, None))
    found = bound(*asked, larder.between("protein_g", 30.0, None))
    assert found is not None
    assert not found.is_ceiling
    assert found.text == "50 g fat with 30 g protein cannot go below 570 kcal, whatever is added"


def test_on_the_regulation_basis_fibre_has_half_the_energy() -> None:
    # 100 g of carbohydrate are at least 200 kcal, all of it fibre; with sweeteners that have none, nothing.
    asked = (larder.between("energy_kcal", 100.0, 150.0), larder.between("fibre_g", 100.0, None))
    found = bound(*asked, basis=EnergyBasis.REGULATION)
    assert found is not None
    assert found.value == pytest.approx(200.0)


@pytest.mark.parametrize(
    "asked",
    [
        # What any food could do, a little oil for instance.
        (larder.between("energy_kcal", 440.0, 450.0), larder.between("fat_share_percent", 80.0, None)),
        # Sodium is no matter of pure foods.
        (larder.between("energy_kcal", 440.0, 450.0), larder.between("sodium_mg", 90000.0, None)),
        # Alcohol brings energy without protein, fat or carbohydrate.
        (
            larder.between("energy_kcal", 700.0, None),
            *(larder.between(of, None, 10.0) for of in ("protein_g", "fat_g", "total_carbohydrate_g")),
        ),
        # A wish is no must.
        (*FOURTH[:2], replace(FOURTH[2], priority=1)),
        # More than a plate holds is no matter of arithmetic.
        (larder.between("protein_g", 50000.0, None),),
    ],
)
def test_where_some_food_could_help_nothing_is_claimed(asked: tuple[Target, ...]) -> None:
    assert bound(*asked) is None


@pytest.mark.parametrize("basis", [EnergyBasis.SPECIFIC, EnergyBasis.DECLARED])
def test_nothing_is_claimed_where_foods_have_factors_of_their_own(basis: EnergyBasis) -> None:
    assert bound(*FOURTH, basis=basis) is None


def test_no_pantry_of_the_whole_table_gets_beyond_the_ceiling(catalogue: Catalogue) -> None:
    items = tuple(PantryItem(food_id, catalogue.food(food_id)) for food_id in catalogue.ids[::7])
    brief = Brief("any", 1, items, (*FOURTH[:2], larder.between("fat_share_percent", 68.95, None)), time_limit_s=20.0)
    assert isinstance(solve(brief, open_backend("highs")), Conflict)
    within = replace(brief, targets=(*FOURTH[:2], larder.between("fat_share_percent", 66.0, None)))
    assert not isinstance(solve(within, open_backend("highs")), Conflict)
