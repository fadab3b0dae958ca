"""What is at home but held back: the least of it by hand, its own limits and steps, confirmed by another backend."""

from dataclasses import replace

import pytest

from solver.additions import Addition
from solver.additions_at_home import additions_at_home
from solver.backends import open_backend
from solver.brief import Brief, Preference
from solver.deadline import Deadline
from solver.foods import Food
from solver.outcome import Conflict, Plan
from solver.pantry import PantryItem, Step
from solver.practical import Eligible, Practical
from solver.rules import Group, Rule
from solver.solve import solve
from solver.ways_out import ways_out
from tests.solver import larder

OIL = larder.macronutrients("oil", fat=100)
CREAM = larder.macronutrients("cream", protein=2, fat=36, carbohydrate=3)
LEAN = larder.macronutrients("lean", protein=25, fat=2)


def held(*items: PantryItem, prefer: tuple[Preference, ...] = (Preference.BALANCED,)) -> Brief:
    """At least 30 g protein from lean meat, at least 60 % of the energy from fat; the rest is held back."""
    asked = (larder.between("protein_g", 30.0, None), larder.between("fat_share_percent", 60.0, None))
    names = frozenset(item.name for item in items)
    brief = larder.brief(larder.item(LEAN), *items, targets=asked)
    return replace(brief, leave_out=names, only_if_needed=names, prefer=prefer)


def conflict_of(brief: Brief, backend: str = "highs") -> Conflict:
    outcome = solve(brief, open_backend(backend))
    assert isinstance(outcome, Conflict), outcome
    return outcome


def proposed(brief: Brief, backend: str = "highs") -> tuple[Addition, ...]:
    return additions_at_home(conflict_of(brief), open_backend(backend), Deadline.after(20), 3)


def test_what_is_held_back_takes_no_part_in_a_plan() -> None:
    asked = held(larder.item(OIL))
    assert isinstance(solve(asked, open_backend("highs")), Conflict)
    assert isinstance(solve(replace(asked, leave_out=frozenset()), open_backend("highs")), Plan)


@pytest.mark.parametrize("backend", ["highs", "pulp-cbc"])
def test_the_least_of_a_held_oil_is_that_of_arithmetic(backend: str) -> None:
    # 120 g of lean meat: 30 g protein, 120 kcal, and 2.4 g fat; 60 % fat want 180 kcal, 20 g of fat.
    (oil,) = proposed(held(PantryItem("the good oil", OIL, on_hand_g=100.0)), backend)
    assert (oil.item, oil.component, oil.proven) == ("the good oil", "the dish", True)
    assert oil.least_g == pytest.approx(20 - 2.4)
    assert oil.least_g <= oil.grams <= oil.least_g + 0.6
    assert not oil.plan.dish.missed


def test_what_helps_with_fewer_grams_comes_first_and_what_does_not_help_not_at_all() -> None:
    found = proposed(held(larder.item(CREAM), larder.item(larder.BREAD), larder.item(OIL)))
    assert [each.item for each in found] == ["oil", "cream"]


def test_too_little_at_home_is_no_way_out() -> None:
    assert proposed(held(PantryItem("oil", OIL, on_hand_g=17.0))) == ()


def test_a_step_of_a_held_item_is_kept() -> None:
    (oil,) = proposed(held(PantryItem("oil", OIL, step=Step(1, "tbsp", 13.5))))
    assert oil.least_g == pytest.approx(27.0)
    assert oil.grams == pytest.approx(27.0)


def test_a_rule_on_a_held_item_holds_where_it_is_let_in() -> None:
    asked = held(larder.item(OIL), larder.item(CREAM))
    none_of_it = Rule("no oil", Group(frozenset({"oil"})), upper=10.0)
    assert [each.item for each in proposed(replace(asked, rules=(none_of_it,)))] == ["cream"]


def test_each_addition_is_confirmed_by_another_backend_and_less_is_refused_by_it() -> None:
    asked = held(larder.item(OIL), larder.item(CREAM))
    for addition in proposed(asked):
        outcome = {}
        for most in (addition.grams, 0.98 * addition.least_g):
            pantry = tuple(
                replace(item, at_most_g=most) if item.name == addition.item else item for item in asked.pantry
            )
            let_in = replace(asked, pantry=pantry, leave_out=asked.leave_out - {addition.item})
            outcome[most] = type(solve(let_in, open_backend("pulp-cbc")))
        assert list(outcome.values()) == [Plan, Conflict]


def test_the_cheapest_plan_is_sought_with_it_only_where_its_price_is_known() -> None:
    lean = PantryItem("lean", LEAN, price_per_g=0.01)
    for price, levels in ((0.02, ["cheapest"]), (None, ["balanced"])):
        oil = PantryItem("oil", OIL, price_per_g=price)
        asked = held(oil, prefer=(Preference.CHEAPEST,))
        priced = replace(asked, pantry=(lean, oil))
        (found,) = proposed(priced)
        assert [level.level for level in found.plan.proof.levels] == levels


def test_what_may_go_into_two_components_is_added_where_less_of_it_does() -> None:
    """In the patties a part of the fat runs out again."""
    mince = larder.into(larder.item(larder.macronutrients("mince", protein=18, fat=20)), larder.PATTIES)
    oil = larder.into(larder.item(OIL), larder.PATTIES, larder.TABLE)
    asked = (larder.between("protein_g", 30.0, None), larder.between("fat_share_percent", 80.0, None))
    kitchen = larder.kitchen(mince, oil, targets=asked, parts=(larder.PATTIES, larder.TABLE))
    names = frozenset({"oil"})
    (found,) = proposed(replace(kitchen, leave_out=names, only_if_needed=names))
    assert found.component == "at the table"


def fetched(*foods: Food) -> Eligible:
    return Eligible(tuple(Practical(food, food.name) for food in foods), lambda _: True)


def test_what_is_at_home_comes_before_what_has_to_be_fetched() -> None:
    asked = held(PantryItem("cream of ours", CREAM))
    found = ways_out(conflict_of(asked), fetched(OIL), open_backend("highs"), Deadline.after(20))
    assert [(each.item, each.food.name) for each in found.additions] == [("cream of ours", "cream"), (None, "oil")]


def test_with_nothing_held_back_and_with_no_time_there_is_none() -> None:
    assert proposed(held()) == ()
    conflict = conflict_of(held(larder.item(OIL)))
    assert additions_at_home(conflict, open_backend("highs"), Deadline.after(0), 3) == ()


def test_a_food_of_which_too_little_is_at_home_may_be_fetched_and_is_not_proposed_twice() -> None:
    for on_hand, wanted in ((5.0, [None]), (100.0, ["oil"])):
        asked = held(PantryItem("oil", OIL, on_hand_g=on_hand))
        found = ways_out(conflict_of(asked), fetched(OIL), open_backend("highs"), Deadline.after(20))
        assert [each.item for each in found.additions] == wanted
