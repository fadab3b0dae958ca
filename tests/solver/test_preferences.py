"""What spoils first is used up first, and fewest ingredients means fewest: against brute force over small pantries."""

from dataclasses import replace
from datetime import date
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.backends import open_backend
from solver.brief import Brief, Preference
from solver.errors import UnusableBrief
from solver.outcome import Conflict, Plan
from solver.pantry import PantryItem
from solver.solve import solve
from tests.solver.larder import between, brief, macronutrients

FIRST, SECOND = date(2026, 11, 26), date(2026, 11, 28)


def plan(asked: Brief) -> Plan:
    outcome = solve(asked, open_backend("highs"))
    assert isinstance(outcome, Plan)
    return outcome


def grams(of: Plan, name: str) -> float:
    return sum(quantity.grams for quantity in of.dish.quantities if quantity.item.name == name)


def larder(*dated: tuple[str, date | None]) -> tuple[PantryItem, ...]:
    food = macronutrients("cream", protein=2, fat=36, carbohydrate=3)
    return tuple(PantryItem(name, food, on_hand_g=100.0, use_by=day) for name, day in dated)


def test_what_spoils_first_is_used_up_before_what_spoils_later() -> None:
    items = larder(("keeps", None), ("later", SECOND), ("first", FIRST))
    asked = brief(*items, targets=(between("energy_kcal", 500.0, 520.0),))
    found = plan(replace(asked, prefer=(Preference.USE_UP_FIRST,)))
    assert grams(found, "first") == pytest.approx(100)
    assert 35 < grams(found, "later") < 60
    assert grams(found, "keeps") == 0
    assert [level.level for level in found.proof.levels] == ["use up first: 2026-11-26", "use up first: 2026-11-28"]


def test_to_use_up_what_nothing_says_spoils_is_refused() -> None:
    asked = brief(*larder(("keeps", None)), targets=(between("energy_kcal", 50.0, 520.0),))
    with pytest.raises(UnusableBrief, match="spoils"):
        solve(replace(asked, prefer=(Preference.USE_UP_FIRST,)), open_backend("highs"))


def test_where_nothing_dated_takes_part_the_plan_is_balanced() -> None:
    asked = brief(*larder(("keeps", None), ("dated", FIRST)), targets=(between("energy_kcal", 50.0, 250.0),))
    found = plan(replace(asked, prefer=(Preference.USE_UP_FIRST,), leave_out=frozenset({"dated"})))
    assert [level.level for level in found.proof.levels] == ["balanced"]
    assert grams(found, "keeps") > 0


def random_larder(seed: int) -> Brief:
    rng = np.random.default_rng(seed)
    items = [
        PantryItem(
            f"item {n}",
            macronutrients(f"item {n}", protein=float(rng.integers(0, 30)), fat=float(rng.integers(0, 60))),
            on_hand_g=float(rng.integers(20, 150)),
        )
        for n in range(6)
    ]
    targets = (between("energy_kcal", 480.0, 520.0), between("protein_g", float(rng.integers(5, 35)), None))
    return replace(brief(*items, targets=targets), prefer=(Preference.FEWEST_INGREDIENTS,))


@given(st.integers(0, 2**32 - 1))
def test_no_fewer_ingredients_have_a_plan_than_a_plan_of_fewest_uses(seed: int) -> None:
    asked = random_larder(seed)
    outcome = solve(asked, open_backend("highs"))
    if not isinstance(outcome, Plan):
        assert isinstance(outcome, Conflict)
        return
    fewest = len(outcome.dish.quantities)
    assert outcome.proof.levels[0].value == pytest.approx(fewest)
    for few in combinations(asked.pantry, fewest - 1):
        if few:
            smaller = replace(asked, pantry=few, prefer=(Preference.BALANCED,))
            assert isinstance(solve(smaller, open_backend("highs")), Conflict)
