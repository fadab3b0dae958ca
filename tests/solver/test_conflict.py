"""The deletion filter of `conflict` alone; an oracle that is known beforehand says whether a plan exists."""

from collections.abc import Callable, Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.deletion import MOST_OTHERS, deletion_filter, disjoint, each_is_needed
from solver.outcome import Member, MemberKind

Oracle = Callable[[Sequence[Member]], bool]


def members(count: int) -> list[Member]:
    return [Member(MemberKind.TARGET, f"target {n}") for n in range(count)]


def conflict_of(*reasons: frozenset[Member]) -> Oracle:
    """There is no plan while any of the reasons is wholly kept."""
    return lambda kept: any(reason <= frozenset(kept) for reason in reasons)


def sets_of(places: int) -> st.SearchStrategy[frozenset[int]]:
    return st.frozensets(st.integers(0, places - 1), min_size=1)


@st.composite
def conflicts(draw: st.DrawFn) -> tuple[list[Member], list[frozenset[Member]]]:
    every = members(draw(st.integers(1, 24)))
    reasons = draw(st.lists(sets_of(len(every)), min_size=1, max_size=4))
    return every, [frozenset(every[n] for n in reason) for reason in reasons]


@given(conflicts())
def test_what_is_left_has_no_plan_and_without_any_one_member_it_has(
    conflict: tuple[list[Member], list[frozenset[Member]]],
) -> None:
    every, reasons = conflict
    has_no_plan = conflict_of(*reasons)
    kept = deletion_filter(every, has_no_plan)
    assert has_no_plan(kept)
    for member in kept:
        assert not has_no_plan([other for other in kept if other is not member])


class Told:
    """A test that is always decided, by an oracle that is known beforehand."""

    def __init__(self, oracle: Oracle) -> None:
        self.has_no_plan, self.all_decided = oracle, True


@given(conflicts())
def test_further_conflicts_share_no_member_are_irreducible_and_leave_none_behind(
    conflict: tuple[list[Member], list[frozenset[Member]]],
) -> None:
    every, reasons = conflict
    has_no_plan = conflict_of(*reasons)
    first = deletion_filter(every, has_no_plan)
    others = disjoint(every, first, Told(has_no_plan))
    together = [member for each in (first, *others) for member in each]
    assert len(together) == len(set(together))
    for other in others:
        assert has_no_plan(other)
        assert not any(has_no_plan([each for each in other if each is not member]) for member in other)
    left = [member for member in every if member not in together]
    assert len(others) == MOST_OTHERS or not has_no_plan(left)


def test_of_a_set_that_was_not_decided_in_time_nothing_is_told() -> None:
    every = members(2)
    told = Told(conflict_of(frozenset({every[1]})))
    told.all_decided = False
    assert disjoint(every, every[:1], told) == ()


class Hesitant(Told):
    """A test that leaves some questions undecided, which then count as having a plan."""

    def __init__(self, oracle: Oracle, undecided: Callable[[Sequence[Member]], bool]) -> None:
        super().__init__(oracle)
        self._oracle, self._undecided = oracle, undecided
        self.has_no_plan = self._ask

    def _ask(self, kept: Sequence[Member]) -> bool:
        if self._undecided(kept):
            self.all_decided = False
            return False
        return self._oracle(kept)


def test_a_question_that_was_not_decided_before_the_last_ones_leaves_the_set_proven() -> None:
    every = members(8)
    asked = iter([True])
    told = Hesitant(conflict_of(frozenset(every[6:])), lambda _: next(asked, False))
    kept = deletion_filter(every, told.has_no_plan)
    assert kept == every[6:]
    assert not told.all_decided
    assert each_is_needed(kept, told)
    assert told.all_decided


def test_one_of_the_last_questions_that_is_not_decided_leaves_it_unproven() -> None:
    every = members(3)
    told = Hesitant(conflict_of(frozenset(every)), lambda kept: every[0] not in kept)
    assert not each_is_needed(every, told)
    assert not told.all_decided


def test_a_set_that_a_last_question_shows_to_hold_too_much_is_not_proven() -> None:
    every = members(3)
    assert not each_is_needed(every, Told(conflict_of(frozenset(every[:2]))))


@given(conflicts())
def test_what_is_left_keeps_its_order(conflict: tuple[list[Member], list[frozenset[Member]]]) -> None:
    every, reasons = conflict
    kept = deletion_filter(every, conflict_of(*reasons))
    assert kept == [member for member in every if member in kept]


@given(st.integers(1, 24), st.data())
def test_the_only_reason_is_found(count: int, data: st.DataObject) -> None:
    every = members(count)
    reason = frozenset(every[n] for n in data.draw(sets_of(count)))
    assert frozenset(deletion_filter(every, conflict_of(reason))) == reason


def test_of_two_reasons_the_one_whose_members_come_later_is_kept() -> None:
    # What explains least comes first, to be dropped first.
    every = members(6)
    first, last = frozenset(every[:2]), frozenset(every[4:])
    assert frozenset(deletion_filter(every, conflict_of(first, last))) == last


@pytest.mark.parametrize("count", [0, 1, 2, 3, 7, 8])
def test_where_all_are_needed_all_are_kept(count: int) -> None:
    every = members(count)
    assert deletion_filter(every, conflict_of(frozenset(every))) == every


def test_a_conflict_of_few_among_many_takes_few_questions() -> None:
    every = members(64)
    asked: list[int] = []
    reason = conflict_of(frozenset({every[10], every[50]}))

    def counted(kept: Sequence[Member]) -> bool:
        asked.append(len(kept))
        return reason(kept)

    deletion_filter(every, counted)
    # Two chunks survive each of six halvings, so at most four are tried at each; one by one would be 64.
    assert len(asked) <= 4 * 6
