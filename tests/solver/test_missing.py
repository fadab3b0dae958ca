import itertools
from dataclasses import replace

import numpy as np
import pytest

from solver.as_eaten import PLACE
from solver.brief import Brief, EnergyBasis
from solver.catalogue import Catalogue
from solver.foods import Food
from solver.missing import count
from solver.outcome import LeftOut
from tests.solver.larder import BREAD, BUTTER, CHICKEN, NOTHING, between, brief, food, item, pantry

FIBRE, SALT = between("fibre_g", 1.0, None), between("sodium_mg", None, 800.0)
ENERGY = between("energy_kcal", 100.0, None)


def lacking(*nutrients: str) -> Food:
    """All that energy is counted from, save these."""
    return food("label", **{name: amount for name, amount in NOTHING.items() if name not in nutrients})


def left_out(asked: Brief) -> tuple[LeftOut, ...]:
    return count(asked).left_out


def test_an_item_without_a_value_that_a_target_needs_takes_no_part_and_is_named_with_what_it_lacks() -> None:
    counted = count(brief(*pantry(BUTTER, food("stock", fibre_g=0, sodium_mg=400)), targets=(ENERGY, FIBRE, SALT)))
    assert counted.items == ()
    assert counted.left_out == (
        LeftOut("butter", ("sodium_mg",)),
        LeftOut("stock", ("fat_g", "protein_g", "total_carbohydrate_g")),
    )


def test_what_no_target_needs_may_be_missing() -> None:
    counted = count(brief(*pantry(BUTTER), targets=(ENERGY,)))
    assert [counted_item.name for counted_item in counted.items] == ["butter"]
    assert np.isnan(counted.matrix[0, PLACE["sodium_mg"]])
    assert counted.left_out == ()


@pytest.mark.parametrize("of", ["energy_kcal", "fat_share_percent"])
def test_missing_alcohol_and_fibre_leave_nothing_out_for_energy_or_its_shares(of: str) -> None:
    asked = brief(*pantry(lacking("alcohol_g", "fibre_g")), targets=(between(of, 1.0, None),))
    assert left_out(asked) == ()


@pytest.mark.parametrize("of", ["energy_kcal", "fat_share_percent", "carbohydrate_share_percent"])
@pytest.mark.parametrize("nutrient", ["protein_g", "fat_g"])
def test_energy_and_its_shares_need_protein_and_fat(of: str, nutrient: str) -> None:
    asked = brief(*pantry(lacking(nutrient)), targets=(between(of, 1.0, None),))
    assert left_out(asked) == (LeftOut("label", (nutrient,)),)


@pytest.mark.parametrize(
    ("basis", "named"),
    [(EnergyBasis.GENERAL, "total_carbohydrate_g"), (EnergyBasis.REGULATION, "available_carbohydrate_g")],
)
def test_energy_needs_the_carbohydrate_that_its_basis_counts(basis: EnergyBasis, named: str) -> None:
    asked = brief(*pantry(lacking("total_carbohydrate_g", "available_carbohydrate_g")), targets=(ENERGY,))
    assert left_out(replace(asked, energy_basis=basis)) == (LeftOut("label", (named,)),)


def test_available_carbohydrate_stands_for_a_total_that_is_missing_in_energy_but_not_in_a_target_of_the_total() -> None:
    label = pantry(lacking("total_carbohydrate_g"))
    assert left_out(brief(*label, targets=(ENERGY,))) == ()
    total = between("total_carbohydrate_g", None, 20.0)
    assert left_out(brief(*label, targets=(ENERGY, total))) == (LeftOut("label", ("total_carbohydrate_g",)),)


def test_what_an_item_does_not_lack_is_not_named() -> None:
    label = pantry(lacking("total_carbohydrate_g", "protein_g"))
    assert left_out(brief(*label, targets=(ENERGY,))) == (LeftOut("label", ("protein_g",)),)


def test_the_ketogenic_ratio_needs_fat_protein_and_available_carbohydrate() -> None:
    asked = brief(*pantry(food("salt")), targets=(between("ketogenic_ratio", 1.0, None),))
    assert left_out(asked) == (LeftOut("salt", ("available_carbohydrate_g", "fat_g", "protein_g")),)


def test_declared_energy_needs_what_the_source_states_and_nothing_else() -> None:
    stated, unstated = food("stated", energy_kcal=300), replace(BUTTER, name="unstated", id="unstated")
    asked = replace(brief(*pantry(stated, unstated), targets=(ENERGY,)), energy_basis=EnergyBasis.DECLARED)
    assert [counted.name for counted in count(asked).items] == ["stated"]
    assert left_out(asked) == (LeftOut("unstated", ("energy_kcal",)),)


def test_a_missing_value_is_counted_when_the_brief_says_how() -> None:
    asked = replace(brief(*pantry(BUTTER), targets=(SALT,)), count_missing_as={"sodium_mg": 250.0})
    counted = count(asked)
    assert counted.left_out == ()
    assert counted.matrix[0, PLACE["sodium_mg"]] == 250


def test_counting_a_missing_value_changes_neither_known_values_nor_the_food_of_the_brief() -> None:
    salted = food("salted", sodium_mg=600)
    asked = brief(*pantry(BUTTER, salted), targets=(SALT,))
    counted = count(replace(asked, count_missing_as={"sodium_mg": 250.0}))
    assert counted.matrix[:, PLACE["sodium_mg"]].tolist() == [250, 600]
    assert asked.pantry[0].food.is_missing("sodium_mg")


def test_a_value_counted_for_protein_counts_in_the_energy() -> None:
    asked = brief(*pantry(lacking("protein_g")), targets=(ENERGY,))
    assert count(replace(asked, count_missing_as={"protein_g": 5.0})).matrix[0, PLACE["basis_energy_kcal"]] == 20


def test_the_order_of_the_pantry_never_matters() -> None:
    twins = (replace(item(BUTTER), name="fresh butter"), replace(item(BUTTER), name="butter of last week"))
    items = (*twins, item(CHICKEN), item(BREAD), item(food("stock")))
    counts = [count(brief(*order, targets=(ENERGY,))) for order in itertools.permutations(items)]
    for counted in counts:
        assert counted.items == counts[0].items
        assert counted.left_out == counts[0].left_out
        np.testing.assert_array_equal(counted.matrix, counts[0].matrix)
    names = [counted_item.name for counted_item in counts[0].items]
    assert names == ["bread", "butter of last week", "fresh butter", "chicken"]


def test_foods_of_the_table_without_fibre_are_left_out_of_a_brief_about_fibre(catalogue: Catalogue) -> None:
    unknown = next(row for row, counted in enumerate(catalogue.total_carbohydrate_counted) if counted)
    foods = catalogue.food(catalogue.ids[unknown]), catalogue.food("sr28:09037")
    assert left_out(brief(*pantry(*foods), targets=(FIBRE,))) == (LeftOut(foods[0].name, ("fibre_g",)),)
