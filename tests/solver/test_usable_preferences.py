"""New purchases are counted, orders are kept, and what is ambiguous is refused: against brute force over subsets."""

from dataclasses import replace
from datetime import date
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.alternatives import alternatives
from solver.backends import open_backend
from solver.brief import Brief, Preference
from solver.deadline import Deadline
from solver.errors import UnusableBrief
from solver.outcome import Conflict, Plan
from solver.pantry import PantryItem
from solver.solve import solve
from solver.worth import worth
from tests.solver.larder import BREAD, BUTTER, CHICKEN, between, brief, macronutrients

CREAM = macronutrients("cream", protein=2, fat=36, carbohydrate=3)


def plan(asked: Brief, backend: str = "highs") -> Plan:
    outcome = solve(asked, open_backend(backend))
    assert isinstance(outcome, Plan), outcome
    return outcome


def grams(of: Plan) -> dict[str, float]:
    return {quantity.item.name: quantity.grams for quantity in of.dish.quantities}


def refused(asked: Brief) -> list[tuple[str, str]]:
    with pytest.raises(UnusableBrief) as caught:
        solve(asked, open_backend("highs"))
    return [(problem.pointer, problem.code) for problem in caught.value.problems]


def buying() -> Brief:
    """Protein is at home, fat and carbohydrate are not; bread with butter is two purchases, cream brings both."""
    items = (
        PantryItem("chicken", CHICKEN, on_hand_g=500.0),
        PantryItem("butter", BUTTER, to_buy=True),
        PantryItem("bread", BREAD, to_buy=True),
        PantryItem("cream", CREAM, to_buy=True),
    )
    targets = (
        between("energy_kcal", 600.0, 700.0),
        between("fat_g", 36.0, None),
        between("available_carbohydrate_g", 3.0, None),
    )
    return replace(brief(*items, targets=targets), prefer=(Preference.FEWEST_PURCHASES,))


@pytest.mark.parametrize("backend", ["highs", "pulp-cbc"])
def test_one_purchase_that_does_for_two_is_made_however_much_of_it(backend: str) -> None:
    found = plan(buying(), backend)
    assert set(grams(found)) - {"chicken"} == {"cream"}
    level = found.proof.levels[0]
    assert level.level == "fewest new purchases"
    assert level.value == pytest.approx(1.0)


def test_what_is_at_home_is_no_purchase() -> None:
    asked = buying()
    home = replace(asked, pantry=tuple(replace(item, to_buy=item.name == "cream") for item in asked.pantry))
    found = plan(home)
    assert "cream" not in grams(found)
    assert found.proof.levels[0].value == pytest.approx(0.0)


def test_where_nothing_has_to_be_bought_the_preference_is_refused() -> None:
    asked = replace(brief(), prefer=(Preference.FEWEST_PURCHASES,))
    assert refused(asked) == [("/prefer", "nothing_to_buy")]


def test_where_all_that_would_be_bought_is_left_out_the_plan_is_balanced() -> None:
    # Chicken has 156 kcal in 100 g.
    asked = replace(buying(), targets=(between("energy_kcal", 300.0, 400.0),))
    found = plan(replace(asked, leave_out=frozenset({"butter", "bread", "cream"})))
    assert [level.level for level in found.proof.levels] == ["balanced"]


def random_larder(seed: int) -> Brief:
    rng = np.random.default_rng(seed)
    items = [
        PantryItem(
            f"item {n}",
            macronutrients(f"item {n}", protein=float(rng.integers(0, 30)), fat=float(rng.integers(0, 60))),
            at_most_g=float(rng.integers(20, 150)),
            to_buy=n >= 2,
        )
        for n in range(6)
    ]
    targets = (between("energy_kcal", 480.0, 520.0), between("protein_g", float(rng.integers(5, 35)), None))
    return replace(brief(*items, targets=targets), prefer=(Preference.FEWEST_PURCHASES,))


@given(st.integers(0, 2**32 - 1))
def test_no_fewer_purchases_have_a_plan_than_a_plan_of_fewest_makes(seed: int) -> None:
    asked = random_larder(seed)
    outcome = solve(asked, open_backend("highs"))
    if not isinstance(outcome, Plan):
        assert isinstance(outcome, Conflict)
        return
    home = [item for item in asked.pantry if not item.to_buy]
    bought = [item for item in asked.pantry if item.to_buy]
    fewest = sum(quantity.item.to_buy for quantity in outcome.dish.quantities)
    assert outcome.proof.levels[0].value == pytest.approx(fewest)
    for few in combinations(bought, fewest - 1) if fewest else ():
        smaller = replace(asked, pantry=(*home, *few), prefer=(Preference.BALANCED,))
        assert isinstance(solve(smaller, open_backend("highs")), Conflict)


def ordered(*places: tuple[str, int | None]) -> Brief:
    """Cream, 100 g of each: 346 kcal. Between 500 and 520 kcal are one and a half of them."""
    items = [PantryItem(name, CREAM, on_hand_g=100.0, use_up_order=place) for name, place in places]
    return replace(brief(*items, targets=(between("energy_kcal", 500.0, 520.0),)), prefer=(Preference.USE_UP_FIRST,))


@pytest.mark.parametrize("backend", ["highs", "pulp-cbc"])
def test_what_is_first_in_the_order_is_used_up_first(backend: str) -> None:
    found = plan(ordered(("keeps", None), ("tenth", 10), ("second", 2)), backend)
    assert grams(found)["second"] == pytest.approx(100)
    assert set(grams(found)) == {"second", "tenth"}
    assert [level.level for level in found.proof.levels] == ["use up first: 2", "use up first: 10"]


def test_days_and_an_order_in_one_brief_are_refused_where_the_order_stands() -> None:
    asked = ordered(("first", 1), ("dated", None))
    first, dated = asked.pantry
    mixed = replace(asked, pantry=(first, replace(dated, use_by=date(2026, 11, 27))))
    assert refused(mixed) == [("/pantry/0/use_up_order", "days_and_order")]
    both = replace(asked, pantry=(replace(first, use_by=date(2026, 11, 27)), dated))
    assert refused(both) == [("/pantry/0/use_up_order", "days_and_order")]
    assert isinstance(solve(replace(mixed, prefer=(Preference.BALANCED,)), open_backend("highs")), Plan)


def test_another_plan_may_take_one_purchase_more() -> None:
    found = alternatives(plan(buying()), 2, open_backend("highs"), Deadline.after(20))
    assert (found.level, found.most_loss) == ("fewest new purchases", 1.0)
    losses = [other.loss for other in found.found]
    assert losses
    assert max(losses) <= 1.0 + 1e-6


def test_a_stock_is_worth_a_purchase_where_more_of_it_would_save_one() -> None:
    """36 g of fat are in 100 g of cream, and 99.9 g are at home; so butter is bought, but for a gram of cream."""
    items = (
        PantryItem("cream", CREAM, on_hand_g=99.9, price_per_g=0.001),
        PantryItem("butter", BUTTER, to_buy=True, at_most_g=100.0, price_per_g=0.1),  # so the cream is used up
    )
    asked = brief(*items, targets=(between("fat_g", 36.0, 40.0),))
    prefer = (Preference.FEWEST_PURCHASES, Preference.CHEAPEST)
    found = worth(plan(replace(asked, prefer=prefer)), open_backend("highs"), Deadline.after(20))
    cream = {one.level: one for one in found if one.name == "cream"}["fewest new purchases"]
    assert cream.more == pytest.approx(-1.0)
    assert cream.less == pytest.approx(0.0)
