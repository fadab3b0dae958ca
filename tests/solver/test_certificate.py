"""Weak duality of linear programming: any row multipliers give a bound that no feasible point undercuts."""

from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from solver.backends.base import Limits, RawSolution, Status
from solver.backends.highs import HighsBackend
from solver.certificate import NEGLIGIBLE, Bounds, dual_bound, largest_violation, mended
from solver.deadline import Deadline
from solver.numerics import FloatArray
from solver.program import LinearProgram, Rows

INF = np.inf

seeds = st.integers(0, 2**32 - 1)


@dataclass(frozen=True, slots=True, eq=False)
class Made:
    """A small programme of every kind of row and column, and a point that is inside all of them."""

    program: LinearProgram
    inside: FloatArray


def made(seed: int) -> Made:
    rng = np.random.default_rng(seed)
    rows, columns = rng.integers(1, 6), rng.integers(1, 7)
    matrix = rng.integers(-5, 6, (rows, columns)).astype(np.float64)
    inside = rng.integers(-4, 5, columns).astype(np.float64)
    row_lower, row_upper = _around(rng, matrix @ inside)
    column_lower, column_upper = _around(rng, inside)
    cost = rng.integers(-9, 10, columns).astype(np.float64)
    whole = np.zeros(columns, dtype=np.bool_)
    return Made(
        LinearProgram(cost, Rows.from_dense(matrix), row_lower, row_upper, column_lower, column_upper, whole), inside
    )


def _around(rng: np.random.Generator, value: FloatArray) -> tuple[FloatArray, FloatArray]:
    room = [rng.choice([0.0, 1.0, 3.0, INF], len(value), p=[0.2, 0.3, 0.3, 0.2]) for _ in range(2)]
    return value - room[0], value + room[1]


def bounds_of(program: LinearProgram) -> Bounds:
    return Bounds(program.row_lower, program.row_upper, program.column_lower, program.column_upper)


def bound(program: LinearProgram, row_dual: FloatArray) -> float:
    return dual_bound(program.cost, program.rows, bounds_of(program), row_dual)


def solved(program: LinearProgram) -> RawSolution:
    session = HighsBackend().open(program)
    try:
        return session.solve(Limits(Deadline.after(10.0)))
    finally:
        session.close()


@given(seeds, st.lists(st.floats(-10, 10), min_size=5, max_size=5))
def test_any_multipliers_bound_the_cost_of_every_feasible_point(seed: int, multipliers: list[float]) -> None:
    one = made(seed)
    row_dual = np.array(multipliers[: one.program.rows.height])
    cost = float(one.program.cost @ one.inside)
    assert bound(one.program, row_dual) <= cost + 1e-9 * max(1.0, abs(cost))


@given(seeds)
@example(64)  # a column without cost or bounds, whose pull is one rounding away from nothing
def test_the_multipliers_of_an_optimum_prove_it(seed: int) -> None:
    program = made(seed).program
    answer = solved(program)
    if answer.status is not Status.OPTIMAL:
        # Every programme has a point inside, so what has no optimum has no end. HiGHS ends some of these as "unknown".
        assert answer.status in {Status.UNBOUNDED, Status.INFEASIBLE_OR_UNBOUNDED, Status.STOPPED}
        return
    assert answer.row_dual is not None
    assert answer.objective is not None
    assert bound(program, answer.row_dual) == pytest.approx(answer.objective, rel=1e-9, abs=1e-7)
    assert answer.x is not None
    assert largest_violation(answer.x, program.rows, bounds_of(program)) <= 1e-7


def test_no_multipliers_at_all_bound_by_the_columns_alone() -> None:
    bounds = Bounds(np.array([1.0]), np.array([INF]), np.array([2.0, -INF]), np.array([INF, 5.0]))
    rows = Rows.from_dense(np.array([[1.0, 1.0]]))
    assert dual_bound(np.array([3.0, -4.0]), rows, bounds, np.zeros(1)) == 3 * 2 - 4 * 5


def test_a_bound_worked_by_hand() -> None:
    # min 2x + 3y, x + y >= 4, 0 <= x <= 3, y >= 0: at x = 3, y = 1 the cost is 9; the row is worth 3, x is worth -1.
    bounds = Bounds(np.array([4.0]), np.array([INF]), np.zeros(2), np.array([3.0, INF]))
    rows, cost = Rows.from_dense(np.array([[1.0, 1.0]])), np.array([2.0, 3.0])
    assert dual_bound(cost, rows, bounds, np.array([3.0])) == 9
    assert dual_bound(cost, rows, bounds, np.array([2.0])) == 8  # weaker, and still valid


def test_without_cost_a_bound_above_zero_proves_that_nothing_is_feasible() -> None:
    # x >= 2 as a row and x <= 1 as a bound: any feasible point would cost 0, and yet at least 1.
    bounds = Bounds(np.array([2.0]), np.array([INF]), np.zeros(1), np.ones(1))
    assert dual_bound(np.zeros(1), Rows.from_dense(np.array([[1.0]])), bounds, np.array([1.0])) == 1


@pytest.mark.parametrize(("multiplier", "side"), [(1.0, "lower"), (-1.0, "upper")])
def test_a_multiplier_that_leans_on_a_missing_bound_counts_as_none(multiplier: float, side: str) -> None:
    row_lower, row_upper = (-INF, 5.0) if side == "lower" else (-5.0, INF)
    bounds = Bounds(np.array([row_lower]), np.array([row_upper]), np.zeros(1), np.ones(1))
    rows = Rows.from_dense(np.array([[1.0]]))
    assert dual_bound(np.zeros(1), rows, bounds, np.array([multiplier])) == 0
    assert -INF < dual_bound(np.zeros(1), rows, bounds, np.array([-multiplier])) < 0


def test_a_multiplier_that_pushes_a_column_out_of_sight_is_shortened_until_it_does_not() -> None:
    # min 2x, 3x >= 6, x >= 0: the row is worth 2/3. A solver that says 0.7 would lean on x's missing upper bound.
    bounds = Bounds(np.array([6.0]), np.array([INF]), np.zeros(1), np.array([INF]))
    rows, cost = Rows.from_dense(np.array([[3.0]])), np.array([2.0])
    assert mended(cost, rows, bounds, np.array([0.7])) == pytest.approx(2 / 3)
    assert dual_bound(cost, rows, bounds, np.array([0.7])) == pytest.approx(4.0)


@pytest.mark.parametrize("cost", [1.0, -1.0])
def test_a_cost_that_leans_on_a_missing_bound_proves_nothing(cost: float) -> None:
    free = Bounds(np.array([0.0]), np.array([1.0]), np.array([-INF]), np.array([INF]))
    rows = Rows.from_dense(np.array([[0.0]]))
    assert dual_bound(np.array([cost]), rows, free, np.zeros(1)) == -INF


def test_noise_does_not_lean_on_a_missing_bound() -> None:
    free = Bounds(np.array([-INF]), np.array([INF]), np.array([-INF]), np.array([INF]))
    noise = np.array([NEGLIGIBLE / 2])
    assert dual_bound(noise, Rows.from_dense(np.array([[1.0]])), free, noise) == 0


def violation(x: float, *, row: tuple[float, float] = (-INF, INF), column: tuple[float, float] = (-INF, INF)) -> float:
    bounds = Bounds(*(np.array([end]) for end in (*row, *column)))
    return largest_violation(np.array([x]), Rows.from_dense(np.array([[2.0]])), bounds)


def test_a_point_inside_violates_nothing() -> None:
    assert violation(1.0, row=(2.0, 2.0), column=(1.0, 1.0)) == 0
    assert violation(1.0) == 0


def test_a_small_bound_is_violated_by_what_is_beyond_it() -> None:
    assert violation(1.0, row=(2.5, INF)) == pytest.approx(0.5 / 2.5)
    assert violation(1.0, column=(-INF, 0.25)) == pytest.approx(0.75)  # bounds below 1 count as 1


def test_a_large_bound_is_violated_in_proportion_to_its_size() -> None:
    assert violation(500.0, row=(-INF, 800.0)) == pytest.approx(200 / 800)
    assert violation(-500.0, column=(-400.0, INF)) == pytest.approx(100 / 400)


def test_a_programme_without_rows_or_columns_violates_nothing() -> None:
    nothing = np.empty(0)
    assert largest_violation(nothing, Rows.from_dense(np.empty((0, 0))), Bounds(*(nothing,) * 4)) == 0
