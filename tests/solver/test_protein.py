"""Collagen is poor protein: it counts for at most a fifth of what counts (common practice, no source)."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.backends import open_backend
from solver.foods import Food, Ingredient, Made
from solver.outcome import Conflict, Plan
from solver.protein import COLLAGEN_PART, collagen_protein_g, counted_protein_g
from solver.solve import solve
from tests.solver.larder import BUTTER, between, brief, item, macronutrients

GELATINE = macronutrients("Gelatin, dry powder", protein=85)
EGG_WHITE = macronutrients("egg white", protein=11)


def test_up_to_a_fifth_of_what_counts_may_be_collagen() -> None:
    # 8 g other protein carry 2 g collagen: 2 of 10 is a fifth.
    assert counted_protein_g(10.0, 2.0, COLLAGEN_PART) == pytest.approx(10.0)
    assert counted_protein_g(20.0, 12.0, COLLAGEN_PART) == pytest.approx(10.0)
    assert counted_protein_g(20.0, 20.0, COLLAGEN_PART) == 0.0
    assert counted_protein_g(20.0, 20.0, 1.0) == 20.0


@given(st.floats(0, 1e3), st.floats(0, 1e3), st.floats(0, 0.9))
def test_what_counts_is_no_more_than_there_is_and_holds_the_part(other: float, collagen: float, part: float) -> None:
    counted = counted_protein_g(other + collagen, collagen, part)
    assert counted <= other + collagen
    assert counted - other <= part * counted + 1e-9


def test_a_dish_brings_the_collagen_of_its_ingredients() -> None:
    made = Made({}, {}, (Ingredient(GELATINE, 10.0, cooked=True), Ingredient(EGG_WHITE, 50.0, cooked=True)))
    aspic = Food("dish:aspic", "aspic of the house", None, np.full(39, np.nan), made=made)
    assert collagen_protein_g(aspic) == pytest.approx(8.5)


def test_a_plan_does_not_meet_its_protein_with_gelatine_alone() -> None:
    asked = brief(
        item(GELATINE), item(BUTTER), targets=(between("protein_g", 20.0, None), between("energy_kcal", 1, 2000))
    )
    assert isinstance(solve(asked, open_backend("highs")), Conflict)
    assert isinstance(solve(replace(asked, collagen_part=1.0), open_backend("highs")), Plan)


def test_a_plan_says_what_did_not_count() -> None:
    cheap = replace(item(GELATINE), at_least_g=20.0, at_most_g=20.0)
    asked = brief(cheap, item(EGG_WHITE), targets=(between("protein_g", 20.0, 40.0), between("energy_kcal", 1, 2000)))
    plan = solve(asked, open_backend("highs"))
    assert isinstance(plan, Plan)
    result = plan.dish.targets[0]
    assert result.value is not None
    protein = plan.dish.batch.values["protein_g"]
    assert protein is not None
    assert result.value == pytest.approx(min(protein, (protein - 17.0) / 0.8))
    assert 20.0 - 1e-6 <= result.value < protein <= 40.0
    assert any("Collagen counts for at most 20 %" in warning for warning in plan.warnings)
