"""Our own check of what a linear programme's solver claims, by weak duality.

For any row multipliers y, with d = cost - A'y, no feasible x has a lower cost than
    sum_i (y_i row_lower_i  if y_i > 0 else  y_i row_upper_i)  +  sum_j (d_j lower_j  if d_j > 0 else  d_j upper_j).
So the solver's duals are never believed, only used: they give a bound that anyone can recompute. The same check
of the elastic programme's optimum proves that a brief has no plan: its least miss is bounded away from zero.
"""

from dataclasses import dataclass

import numpy as np

from solver.numerics import FloatArray
from solver.program import Rows

#: Multipliers and reduced costs smaller than this are zero.
NEGLIGIBLE = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Bounds:
    """The bounds that hold at one moment of a session: rows (m,), columns (n,)."""

    row_lower: FloatArray
    row_upper: FloatArray
    column_lower: FloatArray
    column_upper: FloatArray


def dual_bound(cost: FloatArray, rows: Rows, bounds: Bounds, row_dual: FloatArray) -> float:
    """The bound above; minus infinity where a multiplier leans on a bound that is not there."""
    y = np.where(np.abs(row_dual) > NEGLIGIBLE, row_dual, 0.0)
    reduced = cost - rows.transposed_times(y)
    return _leaning(y, bounds.row_lower, bounds.row_upper) + _leaning(
        np.where(np.abs(reduced) > NEGLIGIBLE, reduced, 0.0), bounds.column_lower, bounds.column_upper
    )


def _leaning(multiplier: FloatArray, lower: FloatArray, upper: FloatArray) -> float:
    leans = multiplier != 0
    bound = np.where(multiplier > 0, lower, upper)
    return float((multiplier[leans] * bound[leans]).sum())


def largest_violation(x: FloatArray, rows: Rows, bounds: Bounds) -> float:
    """How far x is outside the rows and columns at most, relative to max(1, |bound|)."""
    activity = rows.times(x)
    return max(
        _beyond(activity, bounds.row_lower, bounds.row_upper), _beyond(x, bounds.column_lower, bounds.column_upper)
    )


def _beyond(value: FloatArray, lower: FloatArray, upper: FloatArray) -> float:
    outside = np.maximum(lower - value, value - upper)
    size = np.maximum(1.0, np.abs(np.where(lower > value, lower, upper)))
    return float(np.max(np.where(np.isfinite(size), outside / size, outside), initial=0.0))
