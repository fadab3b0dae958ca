"""Choices among items, against every subset of a small pantry."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import chain, combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.backends import open_backend
from solver.brief import Brief
from solver.choices import Choice, Then
from solver.errors import UnusableBrief
from solver.outcome import Conflict, Member, MemberKind, Plan
from solver.pantry import PantryItem
from solver.solve import solve
from tests.solver.larder import between, brief, macronutrients

NAMES = ("cheddar", "gouda", "butter", "bread", "ham")
FOODS = {
    "cheddar": macronutrients("cheddar", protein=25, fat=33, carbohydrate=1),
    "gouda": macronutrients("gouda", protein=25, fat=27, carbohydrate=2),
    "butter": macronutrients("butter", protein=1, fat=81),
    "bread": macronutrients("bread", protein=9, fat=3, carbohydrate=49),
    "ham": macronutrients("ham", protein=21, fat=6, carbohydrate=1),
}

groups = st.sets(st.sampled_from(NAMES), min_size=1, max_size=4).map(frozenset)
numbers = st.builds(Choice, st.just("number"), groups, st.integers(0, 3), st.integers(0, 4))
thens = st.builds(Choice, st.just("then"), groups, then=st.sampled_from(Then), others=groups)


def subsets() -> Iterator[frozenset[str]]:
    sizes = (combinations(NAMES, size) for size in range(len(NAMES) + 1))
    return map(frozenset, chain.from_iterable(sizes))


def said(choice: Choice, used: frozenset[str]) -> bool:
    """The same in plain words."""
    if choice.then is None:
        return (choice.lower or 0) <= len(used & choice.items) <= (99 if choice.upper is None else choice.upper)
    if choice.then is Then.ONE_OF:
        return not (used & (choice.items - choice.others)) or bool(used & choice.others)
    return not any({item, other} <= used for item in choice.items for other in choice.others - {item})


@given(st.one_of(numbers, thens))
def test_the_rows_hold_for_just_the_subsets_that_the_words_allow(choice: Choice) -> None:
    for used in subsets():
        assert choice.holds(used) == said(choice, used), sorted(used)


def test_the_steps_are_not_blamed_for_what_a_choice_rules_out() -> None:
    # By hand: 60 g of ham hold 12.6 g of protein and 60 g of butter 48.6 g of fat, so half of each would do for both.
    one = Choice("one of them", frozenset({"ham", "butter"}), upper=1)
    targets = (between("protein_g", 6.0, None), between("fat_g", 24.0, None))
    outcome = solve(replace(brief(item("ham"), item("butter"), targets=targets), choices=(one,)), open_backend("highs"))
    assert isinstance(outcome, Conflict)
    stocks, targeted = ("ham", "butter"), ("protein_g", "fat_g")
    assert set(outcome.members) == {
        Member(MemberKind.RULE, "one of them"),
        *(Member(MemberKind.ON_HAND, name) for name in stocks),
        *(Member(MemberKind.TARGET, name) for name in targeted),
    }


def item(name: str) -> PantryItem:
    return PantryItem(name, FOODS[name], on_hand_g=60.0)


def asked(*choices: Choice) -> Brief:
    targets = (between("energy_kcal", 480.0, 520.0), between("protein_g", 22.0, None))
    return replace(brief(*map(item, NAMES), targets=targets), choices=choices)


def outcome(of: Brief) -> Plan | Conflict:
    found = solve(of, open_backend("highs"))
    assert isinstance(found, Plan | Conflict)
    return found


@given(st.lists(st.one_of(numbers, thens), min_size=1, max_size=2))
def test_a_plan_keeps_its_choices_and_a_conflict_means_that_no_subset_does(choices: list[Choice]) -> None:
    named = tuple(replace(choice, id=f"choice {number}") for number, choice in enumerate(choices))
    found = outcome(asked(*named))
    if isinstance(found, Plan):
        used = {quantity.item.name for quantity in found.dish.quantities}
        assert all(choice.holds(used) for choice in named)
        assert [result.met for result in found.dish.choices] == [True] * len(named)
        return
    for allowed in subsets():
        if all(choice.holds(allowed) for choice in named):
            some = tuple(replace(item(name), at_least_g=0.1 if name in allowed else 0.0) for name in NAMES)
            barred = tuple(one if one.name in allowed else replace(one, on_hand_g=0.0) for one in some)
            assert isinstance(outcome(replace(asked(), pantry=barred)), Conflict), sorted(allowed)


def test_at_most_one_cheese_is_one_cheese() -> None:
    one = Choice("one cheese", frozenset({"cheddar", "gouda"}), None, 1)
    plan = outcome(asked(one))
    assert isinstance(plan, Plan)
    assert len(plan.dish.choices[0].used) <= 1


def test_a_conflict_names_the_choice_and_without_it_the_rest_can_be_met() -> None:
    none = Choice("no meat, no cheese", frozenset({"cheddar", "gouda", "ham"}), None, 0)
    found = outcome(asked(none))
    assert isinstance(found, Conflict)
    assert Member(MemberKind.RULE, "no meat, no cheese") in found.members
    assert isinstance(outcome(asked()), Plan)


def test_more_than_there_are_is_a_conflict_of_the_choice_alone() -> None:
    found = outcome(asked(Choice("four cheeses", frozenset({"cheddar", "gouda"}), 4, None)))
    assert isinstance(found, Conflict)
    assert found.members == (Member(MemberKind.RULE, "four cheeses"),)


@pytest.mark.parametrize(
    "choice",
    [Choice("energy_kcal", frozenset({"ham"}), None, 1), Choice("other", frozenset({"sage"}), None, 1)],
    ids=["an id that is taken", "an item that is not there"],
)
def test_a_choice_that_cannot_be_read_is_refused(choice: Choice) -> None:
    with pytest.raises(UnusableBrief):
        solve(asked(choice), open_backend("highs"))
