"""What every session promises: changes, outcomes told apart, limits, and refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.backends import open_backend
from solver.backends.base import Limits, Session, Status
from solver.deadline import Deadline
from solver.errors import ProgramError
from solver.numerics import FloatArray
from solver.program import LinearProgram, Rows
from tests.solver.backends.certificates import proves_optimality
from tests.solver.backends.every_backend import AMPLE_S, ample, on_every_backend, solve
from tests.solver.backends.random_programmes import market_split, rework, small_programme

INF = np.inf


def programme(
    cost: list[float],
    matrix: list[list[float]],
    row_bounds: list[tuple[float, float]],
    column_bounds: list[tuple[float, float]],
) -> LinearProgram:
    row_lower, row_upper = np.array(row_bounds, dtype=float).reshape(-1, 2).T
    column_lower, column_upper = np.array(column_bounds, dtype=float).T
    rows = Rows.from_dense(np.array(matrix, dtype=float).reshape(len(row_bounds), len(cost)))
    integer = np.zeros(len(cost), dtype=np.bool_)
    return LinearProgram(np.array(cost, dtype=float), rows, row_lower, row_upper, column_lower, column_upper, integer)


ROOMY = programme([1, 2], [[1, 1]], [(1, 4)], [(0, 10), (0, 10)])


@on_every_backend
@settings(max_examples=25, deadline=None, derandomize=True)
@given(first=st.integers(0, 10**6), second=st.integers(0, 10**6), integers=st.booleans())
def test_a_changed_session_answers_like_a_fresh_one(backend: str, first: int, second: int, *, integers: bool) -> None:
    before = small_programme(first, feasible=True, integers=True)
    after = rework(before, second, integers=integers)
    session = open_backend(backend).open(before)
    session.solve(ample())
    _turn_into(session, after, before.rows.height)
    changed, fresh = session.solve(ample()), solve(backend, after)
    assert changed.status is fresh.status
    if fresh.objective is not None:
        assert changed.objective == pytest.approx(fresh.objective, rel=1e-6, abs=2e-6)
    if fresh.row_dual is not None:
        assert proves_optimality(after, changed)


def _turn_into(session: Session, after: LinearProgram, old_rows: int) -> None:
    first = after.rows.start[old_rows]
    added = Rows(
        after.rows.start[old_rows:] - first, after.rows.index[first:], after.rows.value[first:], after.rows.width
    )
    session.add_rows(added, np.full(added.height, -INF), np.full(added.height, INF))
    session.set_row_bounds(after.row_lower, after.row_upper)
    session.set_column_bounds(after.column_lower, after.column_upper)
    session.set_cost(after.cost)
    session.set_integer(after.integer)


@on_every_backend
def test_a_session_keeps_its_own_copy_of_what_it_is_given(backend: str) -> None:
    session = open_backend(backend).open(ROOMY)
    cost = np.array([3.0, 2.0])
    session.set_cost(cost)
    cost[:] = -100.0
    assert session.solve(ample()).objective == pytest.approx(2.0)


@on_every_backend
def test_an_infeasible_and_an_unbounded_programme_are_told_apart(backend: str) -> None:
    infeasible = programme([1, 1], [[1, 1]], [(5, INF)], [(0, 1), (0, 1)])
    unbounded = programme([-1, 0], [[1, -1]], [(-INF, 5)], [(0, INF), (0, INF)])
    assert solve(backend, infeasible).status in {Status.INFEASIBLE, Status.INFEASIBLE_OR_UNBOUNDED}
    assert solve(backend, infeasible).x is None
    assert solve(backend, unbounded).status in {Status.UNBOUNDED, Status.INFEASIBLE_OR_UNBOUNDED}


@on_every_backend
def test_no_time_left_gives_no_solution(backend: str) -> None:
    answer = open_backend(backend).open(ROOMY).solve(Limits(Deadline.after(0.0)))
    assert answer.status is Status.TIME_LIMIT
    assert answer.x is None
    assert answer.objective is None


@on_every_backend
def test_a_time_limit_is_kept_and_whatever_is_found_by_then_is_feasible(backend: str) -> None:
    hard = market_split(rows=4, columns=30, seed=0)
    answer = open_backend(backend).open(hard).solve(Limits(Deadline.after(0.3)))
    assert answer.status is Status.TIME_LIMIT
    assert answer.seconds < 0.3 + 1.0
    if answer.x is not None:
        assert _is_kept(hard, answer.x)
        assert answer.objective == pytest.approx(float(hard.cost @ answer.x))


def _is_kept(program: LinearProgram, x: FloatArray) -> bool:
    activity = program.rows.times(x)
    return bool(
        (activity >= program.row_lower - 1e-4).all()
        and (activity <= program.row_upper + 1e-4).all()
        and np.allclose(x[program.integer], np.round(x[program.integer]), atol=1e-5)
    )


@on_every_backend
def test_each_solve_of_a_session_has_its_own_time(backend: str) -> None:
    hard = market_split(rows=4, columns=30, seed=0)
    session = open_backend(backend).open(hard)
    for _ in range(2):  # nothing of the first solve's time is left over for the second
        answer = session.solve(Limits(Deadline.after(0.4)))
        assert answer.status is Status.TIME_LIMIT
        assert answer.seconds < 0.4 + 0.3
    session.set_integer(np.zeros(len(hard.cost), dtype=np.bool_))
    for _ in range(2):  # and nothing of it is taken from the later ones
        assert session.solve(Limits(Deadline.after(0.35))).status is Status.OPTIMAL


@on_every_backend
def test_an_interrupted_session_solves_no_more(backend: str) -> None:
    session = open_backend(backend).open(ROOMY)
    session.interrupt()
    answer = session.solve(ample())
    assert answer.status is Status.INTERRUPTED
    assert answer.x is None


@on_every_backend
def test_a_programme_without_rows_is_solved(backend: str) -> None:
    answer = solve(backend, programme([-1, 1, 0], [], [], [(0, 4), (2, 5), (1, 1)]))
    assert answer.status is Status.OPTIMAL
    assert answer.objective == pytest.approx(-2.0)
    assert answer.row_dual is not None
    assert len(answer.row_dual) == 0


@on_every_backend
@pytest.mark.parametrize(
    ("name", "case", "objective", "row_dual"),
    [
        ("an equation", programme([1, 2], [[1, 1]], [(3, 3)], [(0, 2), (0, 9)]), 4.0, [2.0]),
        ("a range at its upper end", programme([-1, 0], [[1, 1]], [(1, 4)], [(0, 9), (0, 9)]), -4.0, [-1.0]),
        ("a range at its lower end", programme([1, 2], [[1, 1]], [(1, 4)], [(0, 9), (0, 9)]), 1.0, [1.0]),
        ("a free row", programme([1, 2], [[1, 1]], [(-INF, INF)], [(1, 9), (1, 9)]), 3.0, [0.0]),
        ("a fixed column", programme([1, 2], [[1, 1]], [(3, INF)], [(2, 2), (0, 9)]), 4.0, [2.0]),
        ("a free column", programme([1, 2], [[1, 1]], [(-3, INF)], [(-INF, INF), (0, 9)]), -3.0, [1.0]),
        ("an idle column", programme([1, 0], [[1, 0]], [(3, INF)], [(0, 9), (0, 9)]), 3.0, [1.0]),
        ("an empty row", programme([1, 1], [[0, 0]], [(-1, 1)], [(2, 9), (3, 9)]), 5.0, [0.0]),
    ],
)
def test_every_kind_of_row_and_column_is_solved_with_its_dual(
    name: str, case: LinearProgram, objective: float, row_dual: list[float], backend: str
) -> None:
    answer = solve(backend, case)
    assert answer.objective == pytest.approx(objective, abs=1e-9), name
    assert answer.row_dual == pytest.approx(row_dual, abs=1e-9), name


@on_every_backend
def test_a_row_without_entries_can_be_impossible(backend: str) -> None:
    assert solve(backend, programme([1, 1], [[0, 0]], [(1, 2)], [(0, 9), (0, 9)])).status is Status.INFEASIBLE


@on_every_backend
def test_a_whole_column_between_two_whole_numbers_is_infeasible(backend: str) -> None:
    session = open_backend(backend).open(programme([1, 1], [[1, 1]], [(-INF, 5)], [(0.2, 0.8), (0, 5)]))
    assert session.solve(ample()).status is Status.OPTIMAL
    session.set_integer(np.array([True, False]))
    assert session.solve(ample()).status is Status.INFEASIBLE


@on_every_backend
@pytest.mark.parametrize("bad", [np.nan, INF])
def test_a_session_refuses_figures_that_solvers_misread(backend: str, bad: float) -> None:
    session = open_backend(backend).open(ROOMY)
    with pytest.raises(ProgramError):
        session.set_cost(np.array([bad, 1.0]))
    with pytest.raises(ProgramError):
        session.add_rows(Rows.from_dense(np.array([[bad, 1.0]])), np.zeros(1), np.ones(1))


@on_every_backend
def test_a_session_refuses_crossed_bounds(backend: str) -> None:
    session = open_backend(backend).open(ROOMY)
    with pytest.raises(ProgramError):
        session.set_column_bounds(np.array([0.0, 3.0]), np.array([1.0, 2.0]))
    with pytest.raises(ProgramError):
        session.set_row_bounds(np.array([np.nan]), np.array([1.0]))


@on_every_backend
def test_a_solve_says_how_long_it_took(backend: str) -> None:
    assert 0.0 < solve(backend, ROOMY).seconds < AMPLE_S
