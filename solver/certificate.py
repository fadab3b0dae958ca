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

#: What adding up a few products of floats may leave where nothing should be left.
FLOAT_NOISE = 1e-12


@dataclass(frozen=True, slots=True, eq=False)
class Bounds:
    """The bounds that hold at one moment of a session: rows (m,), columns (n,)."""

    row_lower: FloatArray
    row_upper: FloatArray
    column_lower: FloatArray
    column_upper: FloatArray


def dual_bound(cost: FloatArray, rows: Rows, bounds: Bounds, row_dual: FloatArray) -> float:
    """The bound above, from multipliers that were mended first; minus infinity where that was not enough."""
    y = mended(cost, rows, bounds, row_dual)
    reduced = cost - rows.transposed_times(y)
    return _leaning(y, bounds.row_lower, bounds.row_upper) + _leaning(reduced, bounds.column_lower, bounds.column_upper)


def mended(cost: FloatArray, rows: Rows, bounds: Bounds, row_dual: FloatArray) -> FloatArray:
    """Multipliers, (rows,), that lean on no missing bound.

    A solver keeps its signs to a tolerance only. A multiplier that leans on an infinite row bound becomes 0; those that
    push a column against its infinite upper bound are shortened until they do not. Any multipliers give a true
    bound, so mending can only make it lower.
    """
    y = np.where((row_dual > 0) & np.isinf(bounds.row_lower), 0.0, row_dual)
    y = np.where((y < 0) & np.isinf(bounds.row_upper), 0.0, y)
    open_columns = np.isinf(bounds.column_upper)
    kept = np.flatnonzero(open_columns[rows.index])  # few: misses and the deviation
    row, of, value = rows.row_of_entry[kept], rows.index[kept], rows.value[kept]
    pull = np.bincount(of, value * y[row], rows.width)
    # Noise is as large as what was added up, however little is left of it; beyond NEGLIGIBLE it would lean on a bound.
    added = np.bincount(of, np.abs(value * y[row]), rows.width) + np.abs(y).max(initial=1.0)
    noise = np.minimum(FLOAT_NOISE * added, NEGLIGIBLE)
    for column in np.flatnonzero((pull > np.maximum(cost, 0.0) + noise) & open_columns):
        least = max(0.0, float(cost[column]))
        if pull[column] > least + noise[column]:  # still, after those before it
            y[row[of == column]] *= least / float(pull[column])
            pull = np.bincount(of, value * y[row], rows.width)
    return y


def _leaning(multiplier: FloatArray, lower: FloatArray, upper: FloatArray) -> float:
    bound = np.where(multiplier > 0, lower, upper)
    # What is left of a mended multiplier is float noise, and no noise leans on a bound that is not there.
    leans = (multiplier != 0) & (np.isfinite(bound) | (np.abs(multiplier) > NEGLIGIBLE))
    return float((multiplier[leans] * bound[leans]).sum())


def largest_violation(x: FloatArray, rows: Rows, bounds: Bounds) -> float:
    """How far x is outside the rows and columns at most, relative to max(1, |bound|)."""
    activity = rows.times(x)
    return max(
        _beyond(activity, bounds.row_lower, bounds.row_upper), _beyond(x, bounds.column_lower, bounds.column_upper)
    )


def _beyond(value: FloatArray, lower: FloatArray, upper: FloatArray) -> float:
    outside = np.maximum(lower - value, value - upper)
    bound = np.where(lower > value, lower, upper)
    size = np.maximum(1.0, np.abs(np.where(np.isfinite(bound), bound, 1.0)))
    return float(np.max(outside / size, initial=0.0))
