"""What is new in a pantry is counted by the groups that it belongs to, by arithmetic and on another backend."""

from dataclasses import replace

import pytest

from solver.additions import Addition, additions
from solver.backends import open_backend
from solver.brief import Brief
from solver.choices import Choice, Then
from solver.deadline import Deadline
from solver.joining import MOST_PAIRS, door, joined, joined_for_search
from solver.joins import all_join
from solver.outcome import Conflict, Plan
from solver.pantry import PantryItem
from solver.practical import Eligible, Practical
from solver.rules import By, Group, Rule
from solver.solve import solve
from tests.solver import larder

OIL = larder.macronutrients("oil", fat=100)
CREAM = larder.macronutrients("cream", protein=2, fat=36, carbohydrate=3)
LEAN = larder.macronutrients("lean", protein=25, fat=2)
DOUBTFUL = larder.macronutrients("doubtful", fat=90)


def of_milk(item: PantryItem) -> bool | None:
    """Cream is of milk, oil and meat are not, and of what is doubtful nobody knows."""
    return None if item.food is DOUBTFUL else item.food is CREAM


def may_be_milk(item: PantryItem) -> bool:
    """What is doubtful counts."""
    return of_milk(item) is not False


LEAN_ONLY = frozenset({"lean"})
NO_MILK = Rule("no milk", Group(frozenset(), joins=may_be_milk), upper=10.0)


def too_lean(*rules: Rule, choices: tuple[Choice, ...] = ()) -> Brief:
    """At least 30 g protein from lean meat, at least 60 % of the energy from fat."""
    asked = (larder.between("protein_g", 30.0, None), larder.between("fat_share_percent", 60.0, None))
    return replace(larder.brief(larder.item(LEAN), targets=asked), rules=rules, choices=choices)


def proposed(brief: Brief, backend: str = "highs") -> tuple[Addition, ...]:
    outcome = solve(brief, open_backend(backend))
    assert isinstance(outcome, Conflict), outcome
    eligible = Eligible(tuple(Practical(food, food.name) for food in (CREAM, DOUBTFUL, OIL)), lambda _: True)
    return additions(outcome, eligible, open_backend(backend), Deadline.after(20))


def named(found: tuple[Addition, ...]) -> set[str]:
    return {each.food.name for each in found}


def rule(group: Group, **fields: object) -> Rule:
    return replace(Rule("rule", group, upper=10.0), **fields)  # type: ignore[arg-type]


@pytest.mark.parametrize("backend", ["highs", "scipy-highs"])
def test_without_a_rule_all_that_is_rich_is_proposed_and_with_one_only_what_it_does_not_count(backend: str) -> None:
    assert named(proposed(too_lean(), backend)) == {"oil", "cream", "doubtful"}
    group = Group(LEAN_ONLY, joins=may_be_milk)
    assert named(proposed(too_lean(rule(group, upper=125.0)), backend)) == {"oil"}


def test_a_rule_over_everything_counts_what_is_added() -> None:
    # 120 g of lean meat and 17.6 g of oil, of which nothing fits into 137 g and all into 139 g.
    group = Group(LEAN_ONLY, joins=all_join)
    assert proposed(too_lean(rule(group, upper=137.0))) == ()
    first, *_ = proposed(too_lean(rule(group, upper=139.0)))
    assert first.food is OIL
    (counted,) = first.plan.brief.rules
    assert counted.of.items == {"lean", "oil"}


def test_a_ratio_to_everything_counts_what_is_added_in_its_second_group() -> None:
    # Meat at most 85 % of the whole: 120 g of it want 141.2 g, so 21.2 g of oil where 17.6 would do for the fat.
    share = rule(Group(LEAN_ONLY), to=Group(LEAN_ONLY, joins=all_join), upper=0.85)
    first = next(each for each in proposed(too_lean(share)) if each.food is OIL)
    assert first.least_g == pytest.approx(120 / 0.85 - 120, rel=0.01)


def test_of_what_nobody_can_say_it_may_not_join() -> None:
    of_both_ends = too_lean(rule(Group(LEAN_ONLY, joins=of_milk), lower=1.0, upper=1000.0))
    assert not door(of_both_ends)(larder.item(DOUBTFUL))
    assert named(proposed(of_both_ends)) == {"oil", "cream"}


def test_pieces_of_what_is_not_counted_out_may_not_join() -> None:
    brief = too_lean(rule(Group(LEAN_ONLY, joins=may_be_milk), by=By.PIECES))
    assert [door(brief)(larder.item(food)) for food in (OIL, CREAM)] == [True, False]


def test_a_group_of_names_is_joined_by_nothing() -> None:
    brief = too_lean(rule(Group(LEAN_ONLY)), choices=(Choice("one", LEAN_ONLY, upper=1),))
    wide = joined(brief, [larder.item(OIL)])
    assert (wide.rules, wide.choices) == (brief.rules, brief.choices)
    assert [item.name for item in wide.pantry] == ["lean", "oil"]


@pytest.mark.parametrize(
    "choice",
    [
        Choice("none", LEAN_ONLY, upper=1, joins=may_be_milk),
        Choice("never", LEAN_ONLY, then=Then.NONE_OF, others=frozenset(), others_join=may_be_milk),
        Choice("either", LEAN_ONLY, then=Then.NONE_OF, others=frozenset(), joins=all_join, others_join=may_be_milk),
    ],
)
def test_a_choice_counts_what_is_added(choice: Choice) -> None:
    found = proposed(too_lean(choices=(choice,)))
    assert named(found) == {"oil"}
    assert isinstance(solve(found[0].plan.brief, open_backend("scipy-highs")), Plan)


def test_a_search_speaks_of_no_pairs_of_what_is_new_and_leaves_too_many_to_the_plan() -> None:
    either = Choice("either", LEAN_ONLY, then=Then.NONE_OF, joins=all_join, others_join=all_join)
    new = [PantryItem(f"oil {number}", OIL) for number in range(MOST_PAIRS + 1)]
    few, many = (joined_for_search(too_lean(choices=(either,)), items) for items in (new[:9], new))
    assert sum(len(choice.rows()) for choice in few.choices) == 9
    assert many.choices == (either,)
    assert len(many.pantry) == MOST_PAIRS + 2
