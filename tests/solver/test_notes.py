from dataclasses import replace

import numpy as np
import pytest

from solver.brief import Brief, EnergyBasis, Preference
from solver.foods import SpecificFactors
from solver.notes import notes
from solver.outcome import Dish, Quantity
from solver.pantry import PantryItem
from solver.verify import dish_of
from tests.solver.larder import BREAD, BUTTER, CHICKEN, NOTHING, between, brief, food, item, macronutrients, pantry

ONE_SIDED, TWO_SIDED = between("protein_g", 30.0, None), between("energy_kcal", 400.0, 600.0)
OWN_FACTORS = item(replace(macronutrients("oil", fat=100), factors=SpecificFactors(None, 8.84, None)))
UNKNOWN_FIBRE = item(replace(CHICKEN, name="mash", total_carbohydrate_counted=True))

NOTHING_TO_BALANCE = "No target has two sides, so there was nothing to balance; give an aim to steer the amounts."
GENERAL_FACTORS = "No energy factors of their own, counted with the general 4-9-4: {}."
DIVIDED = "Energy as declared, but divided among the macronutrients by 4-9-4: {}."
ALL_AVAILABLE = "Fibre is unknown, so all carbohydrate counts as available, an upper bound: {}."
COUNTED = "{} is missing and was counted as {} in 100 g, as asked: {}."


def dish(asked: Brief, *used: PantryItem) -> Dish:
    return dish_of([Quantity(one, 10.0, None) for one in used], asked, frozenset())


def notes_on(asked: Brief, *used: PantryItem) -> tuple[str, ...]:
    return notes(asked, dish(asked, *used))


def test_a_plain_dish_needs_no_notes() -> None:
    butter, bread = pantry(BUTTER, BREAD)
    assert notes_on(brief(butter, bread), butter, bread) == ()


def test_balancing_with_one_sided_targets_alone_is_noted_even_without_a_dish() -> None:
    asked = brief(targets=(ONE_SIDED,))
    assert notes_on(asked) == (NOTHING_TO_BALANCE,)
    assert notes(asked, None) == (NOTHING_TO_BALANCE,)


def test_with_something_to_balance_or_another_preference_it_is_not() -> None:
    assert notes_on(brief(targets=(ONE_SIDED, TWO_SIDED))) == ()
    assert notes_on(replace(brief(targets=(ONE_SIDED,)), prefer=(Preference.CHEAPEST,))) == ()


@pytest.mark.parametrize(("basis", "note"), [(EnergyBasis.SPECIFIC, GENERAL_FACTORS), (EnergyBasis.DECLARED, DIVIDED)])
def test_used_foods_without_factors_are_named_where_factors_count(basis: EnergyBasis, note: str) -> None:
    butter, bread = pantry(BUTTER, BREAD)
    asked = replace(brief(butter, bread, OWN_FACTORS, targets=(TWO_SIDED,)), energy_basis=basis)
    assert notes_on(asked, butter, OWN_FACTORS, bread) == (note.format("butter, bread"),)
    assert notes_on(asked, OWN_FACTORS) == ()


@pytest.mark.parametrize("basis", [EnergyBasis.GENERAL, EnergyBasis.REGULATION])
def test_they_are_not_where_all_foods_count_with_the_same_factors(basis: EnergyBasis) -> None:
    butter = item(BUTTER)
    assert notes_on(replace(brief(butter), energy_basis=basis), butter) == ()


def test_used_foods_of_unknown_fibre_are_named() -> None:
    butter = item(BUTTER)
    asked = brief(butter, UNKNOWN_FIBRE)
    assert notes_on(asked, butter, UNKNOWN_FIBRE) == (ALL_AVAILABLE.format("mash"),)
    assert notes_on(asked, butter) == ()


def test_values_that_were_counted_as_asked_are_named_by_nutrient_and_food() -> None:
    butter, salted = item(BUTTER), item(food("salted", **NOTHING, sodium_mg=600.0))
    asked = replace(brief(butter, salted), count_missing_as={"sodium_mg": 12.5, "iron_mg": 0.0})
    assert notes_on(asked, butter, salted) == (
        COUNTED.format("iron_mg", "0", "butter, salted"),
        COUNTED.format("sodium_mg", "12.5", "butter"),
    )


def test_a_value_to_count_that_no_used_food_lacks_is_not_noted() -> None:
    salted = item(food("salted", **NOTHING, sodium_mg=600.0))
    asked = replace(brief(item(BUTTER), salted), count_missing_as={"sodium_mg": 12.5})
    assert notes_on(asked, salted) == ()


def test_a_macronutrient_that_is_missing_is_noted_with_what_follows() -> None:
    broth = item(food("broth", **{**NOTHING, "protein_g": np.nan}))
    assert notes_on(brief(item(BUTTER), broth), broth) == (
        "protein_g is missing, so energy is a lower bound and its distribution is not stated: broth.",
    )


def test_without_a_dish_nothing_was_used() -> None:
    asked = replace(brief(UNKNOWN_FIBRE), energy_basis=EnergyBasis.SPECIFIC, count_missing_as={"sodium_mg": 1.0})
    assert notes(asked, None) == ()
