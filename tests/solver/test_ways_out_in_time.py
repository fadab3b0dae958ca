"""The deadline of the ways out is kept whatever a solve takes, by a clock that only solves move."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from unittest.mock import patch

import pytest

from reference_data import reference_folder
from solver.backends import open_backend
from solver.backends.base import Backend, Limits, RawSolution, Session, Status
from solver.backends.stateless import StatelessSession
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.changes import Moved, smallest_changes
from solver.deadline import Deadline
from solver.outcome import Conflict
from solver.practical import Eligible, load_practical, practical_foods
from solver.program import LinearProgram
from solver.solve import solve
from solver.ways_out import WaysOut, ways_out
from tests.solver import larder
from tests.solver.random_briefs import random_brief

HALF_A_SECOND = 0.5


class Slow:
    """HiGHS, each solve of which takes so many seconds of a clock of its own, or as many as it may.

    takes: seconds of a linear and of an integer solve.
    """

    name, version = "slow", "0"

    def __init__(self, linear_s: float, integer_s: float) -> None:
        self.now_s = 1000.0
        self._takes = (linear_s, integer_s)
        self._highs: Backend = open_backend("highs")

    def open(self, program: LinearProgram) -> Session:
        return StatelessSession(program, lambda posed, limits, _: self._solve(posed, limits))

    def _solve(self, program: LinearProgram, limits: Limits) -> RawSolution:
        takes, left = self._takes[program.has_integers], limits.deadline.remaining_s()
        self.now_s += min(takes, left)
        if takes > left:
            return RawSolution(Status.TIME_LIMIT, "slow")
        session = self._highs.open(program)
        try:
            return session.solve(replace(limits, deadline=Deadline(float("inf"))))
        finally:
            session.close()


@contextmanager
def clock_of(slow: Slow) -> Iterator[None]:
    with patch("solver.deadline.time.monotonic", lambda: slow.now_s):
        yield


def conflict(brief: Brief) -> Conflict:
    outcome = solve(brief, open_backend("highs"))
    assert isinstance(outcome, Conflict)
    return outcome


@pytest.fixture(scope="module")
def eligible(catalogue: Catalogue) -> Eligible:
    return Eligible(practical_foods(catalogue, load_practical(reference_folder() / "additions.csv")), lambda _: True)


def found(of: Conflict, eligible: Eligible, slow: Slow) -> tuple[WaysOut, float]:
    """The ways out, and the seconds that solves took."""
    began = slow.now_s
    with clock_of(slow):
        ways = ways_out(of, eligible, slow, Deadline.after(HALF_A_SECOND))
    return ways, slow.now_s - began


@pytest.mark.parametrize("seconds", [0.0001, 0.003, 0.01, 0.03, 0.1, 0.3, 1.0, 60.0])
@pytest.mark.parametrize("seed", [23, 43, 167])
def test_half_a_second_is_kept_however_slow_each_solve_is(
    catalogue: Catalogue, eligible: Eligible, seed: int, seconds: float
) -> None:
    _, took = found(conflict(random_brief(catalogue, seed)), eligible, Slow(seconds, 10 * seconds))
    assert took <= HALF_A_SECOND + 1e-6


@pytest.mark.parametrize("seed", [15, 43, 167])
def test_half_a_second_is_kept_of_stepped_briefs_too(catalogue: Catalogue, eligible: Eligible, seed: int) -> None:
    for seconds in (0.003, 0.1):
        _, took = found(conflict(random_brief(catalogue, seed, stepped=True)), eligible, Slow(seconds / 10, seconds))
        assert took <= HALF_A_SECOND + 1e-6


TOO_RICH = (
    larder.between("energy_kcal", 445.0, 450.0),
    larder.between("fat_share_percent", 80.0, None),
    larder.between("protein_g", 35.0, None),
)


def test_one_way_that_cannot_be_printed_in_time_leaves_time_for_the_next() -> None:
    # At 700 kcal the plan is a single point between the tenths of a gram, and looking for one that is printed takes
    # whole numbers, for ever here; 701 kcal is printed without.
    of, slow = conflict(larder.brief(*larder.pantry(*larder.PURE), targets=TOO_RICH)), Slow(1e-6, 3600.0)
    with clock_of(slow):
        changes = smallest_changes(of, slow, Deadline.after(HALF_A_SECOND))
    assert {(change.member.name, change.moved, change.to) for change in changes} == {
        ("energy_kcal", Moved.AT_MOST, 701.0),
        ("fat_share_percent", Moved.AT_LEAST, 68.8),
        ("protein_g", Moved.AT_LEAST, 22.5),
    }


def test_what_was_found_before_the_time_was_up_is_told() -> None:
    of = conflict(larder.brief(*larder.pantry(*larder.PURE), targets=TOO_RICH))
    told = []
    for seconds in (1e-6, 0.01, 0.02, 0.03, 0.05, 0.2):
        slow = Slow(seconds, seconds)
        with clock_of(slow):
            told.append(len(smallest_changes(of, slow, Deadline.after(HALF_A_SECOND))))
    assert told == sorted(told, reverse=True)
    assert (told[0], told[-1]) == (3, 0)
    assert 0 < min(number for number in told if number) < 3
