"""A linear programme as arrays: what a backend sees. It knows nothing of foods or names.

    minimise    cost @ x
    subject to  row_lower <= A @ x <= row_upper
                column_lower <= x <= column_upper,   x[j] whole where integer[j]

Bounds may be infinite; costs and coefficients must be finite, |coefficient| <= LARGEST_COEFFICIENT.
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from solver.errors import ProgramError
from solver.numerics import LARGEST_COEFFICIENT, BoolArray, FloatArray, IntArray


@dataclass(frozen=True, eq=False)  # without slots, so that the row of each entry is worked out once
class Rows:
    """A sparse matrix by rows: the entries of row i are value[start[i]:start[i+1]] in columns index[...].

    start: (m + 1,), index and value: (nonzeros,), width: number of columns.
    """

    start: IntArray
    index: IntArray
    value: FloatArray
    width: int

    @staticmethod
    def from_dense(matrix: FloatArray) -> "Rows":
        """Keep the nonzero entries of an (m, n) array."""
        row, index = np.nonzero(matrix)
        counts = np.bincount(row, minlength=matrix.shape[0])
        start = np.concatenate(([0], np.cumsum(counts))).astype(np.int32)
        return Rows(start, index.astype(np.int32), matrix[row, index].astype(np.float64), matrix.shape[1])

    @property
    def height(self) -> int:
        """Number of rows, m."""
        return len(self.start) - 1

    @cached_property
    def row_of_entry(self) -> IntArray:
        """The row that each stored entry belongs to, shape (nonzeros,)."""
        return np.repeat(np.arange(self.height, dtype=np.int32), np.diff(self.start))

    def times(self, x: FloatArray) -> FloatArray:
        """A @ x, shape (m,)."""
        return self._times(self.value, x)

    def magnitudes_times(self, x: FloatArray) -> FloatArray:
        """|A| @ x, shape (m,)."""
        return self._times(np.abs(self.value), x)

    def _times(self, value: FloatArray, x: FloatArray) -> FloatArray:
        # A vertex has few columns that are not zero.
        taken = x[self.index]
        used = np.flatnonzero(taken)
        return _sum_by(self.row_of_entry[used], value[used] * taken[used], self.height)

    def transposed_times(self, y: FloatArray) -> FloatArray:
        """A.T @ y, shape (n,)."""
        return _sum_by(self.index, self.value * np.repeat(y, np.diff(self.start)), self.width)

    def below(self, other: "Rows") -> "Rows":
        """These rows with `other` underneath; both must have the same width."""
        if other.height == 0:
            return self
        return Rows(
            np.concatenate((self.start, other.start[1:] + self.start[-1])).astype(np.int32),
            np.concatenate((self.index, other.index)),
            np.concatenate((self.value, other.value)),
            self.width,
        )


def _sum_by(place: IntArray, value: FloatArray, places: int) -> FloatArray:
    return np.asarray(np.bincount(place, value, places), dtype=np.float64)


@dataclass(frozen=True, slots=True, eq=False)
class LinearProgram:
    """The arrays above. Shapes: cost, column_lower, column_upper, integer (n,); row_lower, row_upper (m,)."""

    cost: FloatArray
    rows: Rows
    row_lower: FloatArray
    row_upper: FloatArray
    column_lower: FloatArray
    column_upper: FloatArray
    integer: BoolArray

    def __post_init__(self) -> None:
        """Refuse what solvers silently misread: wrong shapes, NaN, infinite or huge coefficients, crossed bounds."""
        refuse_cost(self.cost, self.rows.width)
        _refuse_other_shapes(self.rows.width, self.integer)
        refuse_rows(self.rows, self.rows.width)
        refuse_bounds(self.row_lower, self.row_upper, self.rows.height)
        refuse_bounds(self.column_lower, self.column_upper, self.rows.width)

    def with_rows(self, rows: Rows, lower: FloatArray, upper: FloatArray) -> "LinearProgram":
        """The programme with rows appended."""
        return replace(
            self,
            rows=self.rows.below(rows),
            row_lower=np.concatenate((self.row_lower, lower)),
            row_upper=np.concatenate((self.row_upper, upper)),
        )

    @property
    def has_integers(self) -> bool:
        """Whether any column must be whole."""
        return bool(self.integer.any())


def _refuse_other_shapes(length: int, *arrays: FloatArray | BoolArray) -> None:
    if any(array.shape != (length,) for array in arrays):
        raise ProgramError("the arrays of a programme do not fit its rows and columns")


def refuse_rows(rows: Rows, width: int) -> None:
    """Raise ProgramError for rows over other columns, or with an infinite or huge coefficient."""
    if rows.width != width:
        raise ProgramError("the arrays of a programme do not fit its rows and columns")
    largest = np.abs(rows.value).max(initial=0.0)
    if not np.isfinite(largest):
        raise ProgramError("a coefficient is not finite")
    if largest > LARGEST_COEFFICIENT:
        raise ProgramError(f"a coefficient is beyond {LARGEST_COEFFICIENT:g}")


def refuse_cost(cost: FloatArray, width: int) -> None:
    """Raise ProgramError for a cost of another width, or one that is not finite."""
    _refuse_other_shapes(width, cost)
    if not np.isfinite(cost).all():
        raise ProgramError("a cost is not finite")


def refuse_bounds(lower: FloatArray, upper: FloatArray, length: int) -> None:
    """Raise ProgramError for bounds of another length, or that `refuse_crossed` refuses."""
    _refuse_other_shapes(length, lower, upper)
    refuse_crossed(lower, upper)


def refuse_crossed(lower: FloatArray, upper: FloatArray) -> None:
    """Raise ProgramError where a bound is NaN or on the wrong side of infinity, or crosses the other."""
    if not (lower <= upper).all() or np.isposinf(lower).any() or np.isneginf(upper).any():
        raise ProgramError("a lower bound is above its upper bound, or a bound is NaN or infinite on the wrong side")
