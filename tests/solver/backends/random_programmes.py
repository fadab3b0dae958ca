"""Programmes made from a seed: some with an answer chosen beforehand, small ones of every kind of row and column."""

from dataclasses import dataclass

import numpy as np

from solver.numerics import FloatArray
from solver.program import LinearProgram, Rows


@dataclass(frozen=True, slots=True, eq=False)
class BuiltBackwards:
    """A linear programme with an optimal x and the duals that prove it, both chosen before the programme."""

    program: LinearProgram
    x: FloatArray
    row_dual: FloatArray

    @property
    def objective(self) -> float:
        return float(self.program.cost @ self.x)


def build_backwards(columns: int, rows: int, seed: int) -> BuiltBackwards:
    """Choose A, x and the duals; then every bound and cost follows from complementary slackness.

    A row with a positive dual gets its activity as lower bound, with a negative dual as upper bound, and without
    dual bounds that leave room on both sides. Columns likewise with their reduced cost.
    """
    rng = np.random.default_rng(seed)
    matrix = rng.integers(-9, 10, (rows, columns)) * (rng.random((rows, columns)) < 0.6)
    x = rng.integers(0, 20, columns).astype(float)
    row_dual, column_dual = _sparse_duals(rng, rows), _sparse_duals(rng, columns)
    row_lower, row_upper = _bounds_around(rng, matrix @ x, row_dual)
    column_lower, column_upper = _bounds_around(rng, x, column_dual)
    program = LinearProgram(
        cost=matrix.T @ row_dual + column_dual,
        rows=Rows.from_dense(matrix.astype(float)),
        row_lower=row_lower,
        row_upper=row_upper,
        column_lower=column_lower,
        column_upper=column_upper,
        integer=np.zeros(columns, dtype=np.bool_),
    )
    return BuiltBackwards(program, x, row_dual)


def _sparse_duals(rng: np.random.Generator, size: int) -> FloatArray:
    return np.asarray(rng.choice([-1.0, 0.0, 1.0], size) * rng.integers(1, 10, size))


def _bounds_around(rng: np.random.Generator, value: FloatArray, dual: FloatArray) -> tuple[FloatArray, FloatArray]:
    below, above = value - rng.integers(1, 10, len(value)), value + rng.integers(1, 10, len(value))
    below[rng.random(len(value)) < 0.2] = -np.inf
    above[rng.random(len(value)) < 0.2] = np.inf
    return np.where(dual > 0, value, below), np.where(dual < 0, value, above)


def small_programme(seed: int, *, feasible: bool, integers: bool) -> LinearProgram:
    """Two to six columns, one to five rows: equations, ranges, one-sided and free rows; fixed and free columns.

    When it is to be feasible its rows are laid around a whole point; when not, two rows contradict each other. All
    columns but the last are bounded on both sides, and the last one costs nothing, so nothing is unbounded.
    """
    rng = np.random.default_rng(seed)
    columns, rows = int(rng.integers(2, 7)), int(rng.integers(1, 6))
    matrix = rng.integers(-5, 6, (rows, columns)).astype(float)
    x = rng.integers(0, 6, columns).astype(float)
    lower, upper = _row_bounds(rng, matrix @ x)
    if not feasible:
        matrix = np.vstack((matrix, np.ones(columns), np.ones(columns)))
        lower, upper = np.append(lower, [-np.inf, x.sum() + 1.0]), np.append(upper, [x.sum(), np.inf])
    return _around(rng, x, Rows.from_dense(matrix), lower, upper, integers=integers)


def rework(program: LinearProgram, seed: int, *, integers: bool) -> LinearProgram:
    """The same rows with one to three more below, and everything else new; now and then it is infeasible."""
    rng = np.random.default_rng(seed)
    columns = program.rows.width
    rows = program.rows.below(Rows.from_dense(rng.integers(-5, 6, (int(rng.integers(1, 4)), columns)).astype(float)))
    x = rng.integers(0, 6, columns).astype(float)
    lower, upper = _row_bounds(rng, rows.times(x))
    if rng.random() < 0.25:
        x += 3.0
    return _around(rng, x, rows, lower, upper, integers=integers)


def _around(
    rng: np.random.Generator, x: FloatArray, rows: Rows, lower: FloatArray, upper: FloatArray, *, integers: bool
) -> LinearProgram:
    """Columns with bounds around x, the last one free and without cost."""
    below, above = rng.integers(0, 4, (2, len(x))).astype(float)
    column_lower, column_upper = x - below, x + above
    column_lower[-1], column_upper[-1] = -np.inf, np.inf
    cost = rng.integers(-9, 10, len(x)).astype(float)
    cost[-1] = 0.0
    whole = (rng.random(len(x)) < 0.6) if integers else np.zeros(len(x), dtype=np.bool_)
    return LinearProgram(cost, rows, lower, upper, column_lower, column_upper, whole)


def _row_bounds(rng: np.random.Generator, activity: FloatArray) -> tuple[FloatArray, FloatArray]:
    kind = rng.integers(0, 5, len(activity))  # equation, range, at most, at least, free
    lower = np.where(np.isin(kind, (2, 4)), -np.inf, activity - np.where(kind == 0, 0, rng.integers(1, 4, len(kind))))
    upper = np.where(np.isin(kind, (3, 4)), np.inf, activity + np.where(kind == 0, 0, rng.integers(1, 4, len(kind))))
    return lower, upper


def market_split(rows: int, columns: int, seed: int) -> LinearProgram:
    """Split every row's weight into halves with 0-1 columns, missing as little as possible: small, and slow to prove.

    After G. Cornuejols and M. Dawande, A class of hard small 0-1 programs (1998), from memory.
    """
    rng = np.random.default_rng(seed)
    weights = rng.integers(0, 100, (rows, columns)).astype(float)
    half = np.floor(weights.sum(axis=1) / 2)
    unit = np.eye(rows)
    misses = 2 * rows
    return LinearProgram(
        cost=np.concatenate((np.zeros(columns), np.ones(misses))),
        rows=Rows.from_dense(np.hstack((weights, unit, -unit))),
        row_lower=half,
        row_upper=half,
        column_lower=np.zeros(columns + misses),
        column_upper=np.concatenate((np.ones(columns), np.full(misses, np.inf))),
        integer=np.arange(columns + misses) < columns,
    )
