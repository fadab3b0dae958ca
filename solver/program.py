"""A linear programme as arrays: what a backend sees. It knows nothing of foods or names.

    minimise    cost @ x
    subject to  row_lower <= A @ x <= row_upper
                column_lower <= x <= column_upper,   x[j] whole where integer[j]

Bounds may be infinite; costs and coefficients must be finite, |coefficient| <= LARGEST_COEFFICIENT.
"""

from dataclasses import dataclass, replace

import numpy as np

from solver.errors import ProgramError
from solver.numerics import LARGEST_COEFFICIENT, BoolArray, FloatArray, IntArray


@dataclass(frozen=True, slots=True, eq=False)
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

    def row_of_entry(self) -> IntArray:
        """The row that each stored entry belongs to, shape (nonzeros,)."""
        return np.repeat(np.arange(self.height, dtype=np.int32), np.diff(self.start))

    def times(self, x: FloatArray) -> FloatArray:
        """A @ x, shape (m,)."""
        return _sum_by(self.row_of_entry(), self.value * x[self.index], self.height)

    def transposed_times(self, y: FloatArray) -> FloatArray:
        """A.T @ y, shape (n,)."""
        return _sum_by(self.index, self.value * y[self.row_of_entry()], self.width)

    def below(self, other: "Rows") -> "Rows":
        """These rows with `other` underneath; both must have the same width."""
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
        by_column = (self.cost, self.column_lower, self.column_upper, self.integer)
        _refuse_other_shapes(self.rows.width, *by_column)
        _refuse_other_shapes(self.rows.height, self.row_lower, self.row_upper)
        if not (np.isfinite(self.cost).all() and np.isfinite(self.rows.value).all()):
            raise ProgramError("a cost or coefficient is not finite")
        if np.abs(self.rows.value).max(initial=0.0) > LARGEST_COEFFICIENT:
            raise ProgramError(f"a coefficient is beyond {LARGEST_COEFFICIENT:g}")
        refuse_crossed(self.row_lower, self.row_upper)
        refuse_crossed(self.column_lower, self.column_upper)

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


def refuse_crossed(lower: FloatArray, upper: FloatArray) -> None:
    """Raise ProgramError where a bound is NaN or on the wrong side of infinity, or crosses the other."""
    if not (lower <= upper).all() or np.isposinf(lower).any() or np.isneginf(upper).any():
        raise ProgramError("a lower bound is above its upper bound, or a bound is NaN or infinite on the wrong side")
