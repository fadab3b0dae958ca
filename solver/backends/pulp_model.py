"""A linear programme as a PuLP problem, and CBC's answer back in the order of the programme.

PuLP constraints have one side, so a row with two different finite bounds becomes two, a free row none. Names are
made from numbers alone, since PuLP folds different names into one. Only calls that PuLP 4 keeps are used, so that
PuLP 3.3 has no deprecation to warn of.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pulp  # type: ignore[import-untyped]  # PuLP 3 ships no types

from solver.errors import BackendError
from solver.numerics import FloatArray, IntArray
from solver.program import LinearProgram


@dataclass(frozen=True, slots=True)
class PulpModel:
    """problem: what PuLP writes. column_of: the programme's column of each variable, in PuLP's order.

    row_of: the programme's row of each constraint, in PuLP's order.
    """

    problem: pulp.LpProblem
    column_of: IntArray
    row_of: IntArray


@dataclass(frozen=True, slots=True)
class Point:
    """What CBC ended with: x (n,), row_dual (m,), column_dual (n,), in the programme's order."""

    x: FloatArray
    row_dual: FloatArray
    column_dual: FloatArray


def to_pulp(program: LinearProgram) -> PulpModel:
    """The same programme for PuLP; every column takes part in the objective, or PuLP would drop idle ones."""
    problem = pulp.LpProblem("programme", pulp.LpMinimize)
    each = zip(program.column_lower, program.column_upper, program.integer, strict=True)
    columns = [
        problem.add_variable(f"x{j}", _finite(lower), _finite(upper), pulp.LpInteger if whole else pulp.LpContinuous)
        for j, (lower, upper, whole) in enumerate(each)
    ]
    problem.setObjective(pulp.LpAffineExpression(zip(columns, program.cost.tolist(), strict=True)))
    row_of: list[int] = []
    for row in range(program.rows.height):
        entries = slice(program.rows.start[row], program.rows.start[row + 1])
        terms = [
            (columns[j], float(a))
            for j, a in zip(program.rows.index[entries], program.rows.value[entries], strict=True)
        ]
        for sense, bound in _sides(float(program.row_lower[row]), float(program.row_upper[row])):
            side = pulp.LpConstraint(pulp.LpAffineExpression(terms), sense, f"r{len(row_of)}", bound)
            problem.addConstraint(side)
            row_of.append(row)
    column_of = [int(variable.name.removeprefix("x")) for variable in problem.variables()]
    return PulpModel(problem, np.array(column_of, dtype=np.int32), np.array(row_of, dtype=np.int32))


def read_point(file: Path, program: LinearProgram, model: PulpModel) -> Point:
    """Read what CBC's `saveSolution` wrote; raises BackendError when it is not of this model.

    The file, by CBC 2.10's source: two 32-bit counts (rows, columns), then doubles: the objective, the activity of
    each row, its dual, the value of each column, its reduced cost (from memory; the counts and the tests against
    known answers vouch for it).
    """
    written = file.read_bytes()
    rows, columns = len(model.row_of), len(model.column_of)
    if len(written) != 8 + 8 * (1 + 2 * rows + 2 * columns) or (rows, columns) != tuple(
        np.frombuffer(written, "<i4", 2)
    ):
        raise BackendError("CBC wrote a solution of another model")
    sizes = (1, rows, rows, columns, columns)
    _, _, side_dual, value, reduced = np.split(np.frombuffer(written, "<f8", offset=8), np.cumsum(sizes)[:-1])
    x, column_dual = np.empty(columns), np.empty(columns)
    x[model.column_of], column_dual[model.column_of] = value, reduced
    row_dual = np.zeros(program.rows.height)
    np.add.at(row_dual, model.row_of, side_dual)
    return Point(x, row_dual, column_dual)


def _sides(lower: float, upper: float) -> Iterator[tuple[int, float]]:
    if lower == upper:
        yield pulp.LpConstraintEQ, lower
        return
    if np.isfinite(lower):
        yield pulp.LpConstraintGE, lower
    if np.isfinite(upper):
        yield pulp.LpConstraintLE, upper


def _finite(bound: float) -> float | None:
    return float(bound) if np.isfinite(bound) else None
