"""Which demands a conflict is made of: limits put back where they were before steps, suspects, and what is in time."""

from dataclasses import replace

import numpy as np
import pytest

from solver.backends import open_backend
from solver.backends.base import Session
from solver.brief import Brief
from solver.certificate import Bounds
from solver.chain import Chain
from solver.conflict import Irreducible, accused, demands, irreducible
from solver.deadline import Deadline
from solver.formulate import Formulation, formulate
from solver.levels import least_miss
from solver.missing import count
from solver.outcome import Conflict, Member, MemberKind
from solver.pantry import PantryItem, Step
from solver.solve import solve
from solver.solved import Solved
from solver.targets import Target
from tests.solver import larder

EGG = PantryItem("egg", larder.macronutrients("egg", protein=12, fat=10), step=Step(1, "large", 50.0))
STEPS = Member(MemberKind.STEPS, None)
PROTEIN = Member(MemberKind.TARGET, "protein_g")

OTHER_TABLE = replace(larder.TABLE, name="in the soup")


def members(brief: Brief) -> set[Member]:
    outcome = solve(brief, open_backend("highs"))
    assert isinstance(outcome, Conflict), outcome
    assert outcome.irreducible
    return set(outcome.members)


def at_two_places(item: PantryItem, targets: tuple[Target, ...]) -> Brief:
    """The item may go into either of two components that are eaten as they are."""
    parts = (larder.TABLE, OTHER_TABLE)
    return larder.kitchen(larder.into(item, *parts), targets=targets, parts=parts)


def test_a_limit_between_two_steps_counts_as_it_was_given_once_the_steps_are_dropped() -> None:
    # By hand: of at most 120 g, two eggs are 100 g with 12 g protein; 120 g would hold 14.4 g, of 14 asked for.
    egg = replace(EGG, at_most_g=120.0)
    asked = larder.brief(egg, targets=(larder.between("protein_g", 14.0, None),))
    assert members(asked) == {STEPS, PROTEIN, Member(MemberKind.MOST_AMOUNT, "egg")}


def test_a_least_amount_between_two_steps_counts_as_it_was_given_too() -> None:
    # By hand: at least 60 g are two eggs, with 12 g protein; 60 g would hold 7.2 g, of at most 8.
    asked = (larder.between("protein_g", None, 8.0),)
    expected = {STEPS, PROTEIN, Member(MemberKind.LEAST_AMOUNT, "egg")}
    assert members(larder.brief(replace(EGG, at_least_g=60.0), targets=asked)) == expected


def test_a_least_amount_of_what_may_go_into_two_components_is_of_both_together() -> None:
    # By hand, as above: once the steps are dropped 60 g do, wherever they are, and not 60 g in each.
    asked = (larder.between("protein_g", None, 8.0),)
    expected = {STEPS, PROTEIN, Member(MemberKind.LEAST_AMOUNT, "egg")}
    # The row of both counts grams as they were given, so that it takes 60 g and two eggs in it make 100.
    assert members(at_two_places(replace(EGG, at_least_g=60.0), asked)) in (expected, expected - {STEPS})


@pytest.mark.parametrize("number", [1, 2])
def test_a_least_amount_of_steps_that_is_too_much_by_itself_needs_no_steps(number: int) -> None:
    # 100 g hold 12 g, of at most 8, between the eggs or not.
    egg, asked = replace(EGG, at_least_g=100.0), (larder.between("protein_g", None, 8.0),)
    brief = larder.brief(egg, targets=asked) if number == 1 else at_two_places(egg, asked)
    assert members(brief) == {PROTEIN, Member(MemberKind.LEAST_AMOUNT, "egg")}


def elastic(brief: Brief) -> tuple[Formulation, Solved]:
    """The brief posed, and its least miss without whole numbers."""
    posed = formulate(brief, count(brief), relaxable=True)
    chain = Chain(open_backend("highs"), posed)
    upper = posed.program.column_upper.copy()
    upper[posed.layout.miss_columns] = np.inf
    program = posed.program
    chain.restart(
        Bounds(program.row_lower, program.row_upper, program.column_lower, upper), np.zeros_like(program.integer)
    )
    (solved,) = chain.run([least_miss(posed)], Deadline.after(10)).solved
    chain.close()
    return posed, solved


TOO_RICH = (
    larder.between("energy_kcal", 445.0, 450.0),
    larder.between("fat_share_percent", 80.0, None),
    larder.between("protein_g", 35.0, None),
    larder.between("total_carbohydrate_g", None, 20.0),
)


def test_the_certificate_accuses_the_targets_it_leans_on_and_no_other() -> None:
    stocked = [replace(one, on_hand_g=5000.0) for one in larder.pantry(*larder.PURE)]
    suspects = accused(*elastic(larder.brief(*stocked, targets=TOO_RICH)))
    assert {member.name for member in suspects} == {"energy_kcal", "fat_share_percent", "protein_g"}


def test_the_certificate_accuses_the_short_stock_and_not_the_others() -> None:
    short = PantryItem("chicken", larder.CHICKEN, on_hand_g=50.0)
    butter = PantryItem("butter", larder.BUTTER, on_hand_g=1000.0)
    asked = (larder.between("protein_g", 30.0, None), larder.between("fat_g", None, 20.0))
    suspects = accused(*elastic(larder.brief(short, butter, targets=asked)))
    assert Member(MemberKind.ON_HAND, "chicken") in suspects
    assert Member(MemberKind.ON_HAND, "butter") not in suspects


@pytest.mark.parametrize(
    ("item", "target", "kind"),
    [
        (replace(larder.item(larder.CHICKEN), at_least_g=200.0), (None, 20.0), MemberKind.LEAST_AMOUNT),
        (replace(larder.item(larder.CHICKEN), on_hand_g=50.0), (30.0, None), MemberKind.ON_HAND),
    ],
    ids=["too much", "too little"],
)
def test_the_certificate_accuses_the_stock_of_what_may_go_into_two_components(
    item: PantryItem, target: tuple[float | None, float | None], kind: MemberKind
) -> None:
    suspects = accused(*elastic(at_two_places(item, (larder.between("protein_g", *target),))))
    assert set(suspects) == {Member(kind, "chicken"), PROTEIN}


def filtered(brief: Brief, suspects: tuple[Member, ...], deadline: Deadline) -> Irreducible:
    posed = formulate(brief, count(brief), relaxable=True)
    session: Session = open_backend("highs").open(posed.program)
    try:
        return irreducible(session, posed, suspects, deadline)
    finally:
        session.close()


def rich() -> Brief:
    return larder.brief(*larder.pantry(*larder.PURE), targets=TOO_RICH)


def target(name: str) -> Member:
    return Member(MemberKind.TARGET, name)


REASON = {target("energy_kcal"), target("fat_share_percent"), target("protein_g")}


@pytest.mark.parametrize(
    "suspects", [(), (target("protein_g"),), (target("total_carbohydrate_g"), target("energy_kcal"))]
)
def test_suspects_that_are_not_enough_do_not_mislead(suspects: tuple[Member, ...]) -> None:
    found = filtered(rich(), suspects, Deadline.after(10))
    assert set(found.members) == REASON
    assert found.proven


def test_only_suspects_that_are_enough_are_filtered() -> None:
    # Two reasons side by side: without suspects the filter keeps the one whose members come last.
    items = (replace(larder.item(pure), on_hand_g=5.0) for pure in larder.PURE[:2])
    brief = larder.brief(*items, targets=(larder.between("fat_g", 80.0, None), larder.between("protein_g", 10.0, None)))
    protein = (PROTEIN, Member(MemberKind.ON_HAND, "pure protein"))
    fat = (target("fat_g"), Member(MemberKind.ON_HAND, "pure fat"))
    for suspects, other in ((protein, fat), (fat, protein)):
        found = filtered(brief, suspects, Deadline.after(10))
        assert set(found.members) == set(suspects)
        assert [set(each) for each in found.others] == [set(other)]


def test_what_no_amounts_can_do_is_told_before_what_a_stock_cannot() -> None:
    # By hand: 80 g of fat are 720 kcal. The stock of protein is in the way as well, but more of it would not help.
    items = (replace(larder.item(larder.PURE[0]), on_hand_g=5.0), larder.item(larder.PURE[1]))
    protein = larder.between("protein_g", 10.0, None)
    asked = (larder.between("energy_kcal", None, 500.0), larder.between("fat_g", 80.0, None), protein)
    stock = (PROTEIN, Member(MemberKind.ON_HAND, "pure protein"))
    found = filtered(larder.brief(*items, targets=asked), stock, Deadline.after(10))
    assert set(found.members) == {target("energy_kcal"), target("fat_g")}
    assert [set(each) for each in found.others] == [set(stock)]


def test_where_there_is_a_plan_after_all_no_set_is_called_irreducible() -> None:
    found = filtered(larder.brief(), (), Deadline.after(10))
    assert not found.proven
    assert found.others == ()


def test_without_time_all_are_kept_and_nothing_is_proven() -> None:
    brief = rich()
    found = filtered(brief, (), Deadline.after(0))
    assert found.members == demands(formulate(brief, count(brief), relaxable=True))
    assert not found.proven
    assert found.others == ()


def test_a_brief_that_is_not_printed_on_a_grid_has_no_member_of_printing() -> None:
    asked = rich()
    kinds = {member.kind for member in demands(formulate(asked, count(asked)))}
    on_grid = {member.kind for member in demands(formulate(asked, count(asked), grid=True))}
    assert on_grid - kinds == {MemberKind.PRINTING}


def test_a_stock_of_more_than_may_be_eaten_limits_nothing() -> None:
    # 10 kg of one item in a portion is the most that any plan may hold.
    stocks = {5000.0: True, 10_000.0: False, 20_000.0: False}
    for grams, limits in stocks.items():
        asked = larder.brief(PantryItem("butter", larder.BUTTER, on_hand_g=grams))
        named = Member(MemberKind.ON_HAND, "butter") in demands(formulate(asked, count(asked)))
        assert named is limits, grams
