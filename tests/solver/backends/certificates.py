"""What a test can prove about an answer without trusting any solver."""

import numpy as np

from solver.backends.base import RawSolution, Status
from solver.numerics import FloatArray
from solver.program import LinearProgram


def largest_violation(program: LinearProgram, x: FloatArray) -> float:
    """Largest relative amount by which x breaks a bound or row: |excess| / max(1, |bound|, |terms of the row|)."""
    rows = program.rows
    terms = np.zeros(rows.height)
    np.maximum.at(terms, rows.row_of_entry, np.abs(rows.value * x[rows.index]))
    return max(
        _excess(x, program.column_lower, program.column_upper, np.zeros(len(x))),
        _excess(rows.times(x), program.row_lower, program.row_upper, terms),
    )


def _excess(value: FloatArray, lower: FloatArray, upper: FloatArray, terms: FloatArray) -> float:
    scale = np.maximum(1.0, terms)
    below = (lower - value) / np.maximum(scale, np.where(np.isfinite(lower), np.abs(lower), 1.0))
    above = (value - upper) / np.maximum(scale, np.where(np.isfinite(upper), np.abs(upper), 1.0))
    return float(max(below.max(initial=0.0), above.max(initial=0.0)))


def dual_bound(program: LinearProgram, row_dual: FloatArray, smallest: float = 1e-9) -> float:
    """The bound that duals prove: no feasible x costs less than this (weak duality of linear programming).

    A dual is worth its lower bound when it is positive and its upper bound when it is negative; one that would
    need an infinite bound proves nothing. Duals within `smallest` of 0 count as 0.
    """
    column_dual = program.cost - program.rows.transposed_times(row_dual)
    return _worth(row_dual, program.row_lower, program.row_upper, smallest) + _worth(
        column_dual, program.column_lower, program.column_upper, smallest
    )


def _worth(dual: FloatArray, lower: FloatArray, upper: FloatArray, smallest: float) -> float:
    bound = np.where(dual > 0, lower, upper)
    counted = np.abs(dual) > smallest
    return float(dual[counted] @ bound[counted])


def proves_optimality(program: LinearProgram, answer: RawSolution, tolerance: float = 1e-6) -> bool:
    """Whether x is feasible and the duals prove that nothing is cheaper; the duals obey their definition too."""
    assert answer.status is Status.OPTIMAL
    assert answer.x is not None
    assert answer.row_dual is not None
    assert answer.column_dual is not None
    cost = float(program.cost @ answer.x)
    by_definition = program.cost - program.rows.transposed_times(answer.row_dual)
    return bool(
        largest_violation(program, answer.x) <= tolerance
        and abs(dual_bound(program, answer.row_dual) - cost) <= tolerance * max(1.0, abs(cost))
        and np.allclose(answer.column_dual, by_definition, rtol=1e-7, atol=1e-7)
    )
