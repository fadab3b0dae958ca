"""HiGHS through scipy: a referee for the default backend, with another release of HiGHS inside.

Linear programmes go to `scipy.optimize.linprog`, which gives duals; integer programmes to `scipy.optimize.milp`,
which gives none. What scipy does not pass on: the number of threads (the solve runs on the calling thread), an
absolute gap (HiGHS keeps its own 1e-6, and the relative gap is set to 0, so `Limits.absolute_gap` above that only
costs time) and the feasibility tolerance of integer programmes (HiGHS's own 1e-6). The release inside scipy 1.17
can write stray lines to standard output during integer solves.
"""

import re
import threading
from collections.abc import Mapping
from types import MappingProxyType

import numpy as np
import scipy
from scipy.optimize import Bounds, LinearConstraint, OptimizeResult, linprog, milp
from scipy.sparse import csr_array

from solver.backends.base import Limits, RawSolution, Session, Status
from solver.backends.stateless import StatelessSession
from solver.errors import BackendError
from solver.numerics import FEASIBILITY, BoolArray, FloatArray
from solver.program import LinearProgram, Rows

#: scipy's own statuses, for answers that do not quote HiGHS. Complete by scipy's documentation of both functions.
STATUSES: Mapping[int, Status] = MappingProxyType(
    {0: Status.OPTIMAL, 1: Status.TIME_LIMIT, 2: Status.INFEASIBLE, 3: Status.UNBOUNDED, 4: Status.FAILED},
)

#: HiGHS's statuses by number, quoted in scipy's message: scipy itself folds a model error into "infeasible", and
#: an iteration limit into a time limit. Complete for the HiGHS inside scipy, which a test holds.
HIGHS_STATUSES: Mapping[int, Status] = MappingProxyType(
    {
        0: Status.FAILED,  # not set
        1: Status.FAILED,  # load error
        2: Status.FAILED,  # model error
        3: Status.FAILED,  # presolve error
        4: Status.FAILED,  # solve error
        5: Status.FAILED,  # postsolve error
        6: Status.FAILED,  # model empty: scipy reads no point from it
        7: Status.OPTIMAL,
        8: Status.INFEASIBLE,
        9: Status.INFEASIBLE_OR_UNBOUNDED,
        10: Status.UNBOUNDED,
        11: Status.STOPPED,  # objective bound
        12: Status.STOPPED,  # objective target
        13: Status.TIME_LIMIT,
        14: Status.STOPPED,  # iteration limit
        15: Status.STOPPED,  # unknown
        16: Status.STOPPED,  # solution limit
        17: Status.INTERRUPTED,
        18: Status.STOPPED,  # memory limit
        19: Status.INTERRUPTED,
    },
)


class ScipyHighsBackend:
    """Opens programmes for scipy. A running solve cannot be interrupted: `interrupt` holds from the next one on."""

    name = "scipy-highs"

    @property
    def version(self) -> str:
        """Version of scipy, which decides the HiGHS inside and does not publish that one's number."""
        return f"HiGHS in scipy {scipy.__version__}"

    def open(self, program: LinearProgram) -> Session:
        """Hold the arrays; every solve starts from scratch."""
        return StatelessSession(program, _solve)


def status_of(code: int, message: str) -> Status:
    """What scipy's status and message mean. Raises BackendError for a status outside the tables."""
    quoted = re.search(r"HiGHS Status (\d+):", message)
    table, key = (STATUSES, code) if quoted is None else (HIGHS_STATUSES, int(quoted[1]))
    if key not in table:
        raise BackendError(f"scipy answered a status outside its table: {code}, {message}")
    if (table[key] is Status.OPTIMAL) != (code == 0):
        return Status.FAILED  # scipy checked HiGHS's optimum and found it broken
    return table[key]


def _solve(program: LinearProgram, limits: Limits, _: threading.Event) -> RawSolution:
    try:
        return _solve_integer(program, limits) if program.has_integers else _solve_linear(program, limits)
    except ValueError as refusal:
        raise BackendError(f"scipy refused the programme: {refusal}") from refusal


def _solve_integer(program: LinearProgram, limits: Limits) -> RawSolution:
    rows = LinearConstraint(_matrix(program.rows), program.row_lower, program.row_upper)
    answer = milp(
        program.cost,
        integrality=program.integer.astype(np.uint8),
        bounds=Bounds(program.column_lower, program.column_upper),
        constraints=rows if program.rows.height else None,
        options={"time_limit": limits.deadline.remaining_s(), "mip_rel_gap": 0.0},  # a new one each time: milp eats it
    )
    status, x = status_of(answer.status, answer.message), answer.x
    return RawSolution(status, answer.message, x, _objective(program, x), bound=answer.mip_dual_bound)


def _solve_linear(program: LinearProgram, limits: Limits) -> RawSolution:
    matrix, (equal, under, over) = _matrix(program.rows).toarray(), _kinds_of_rows(program)
    answer = linprog(
        program.cost,
        A_ub=np.vstack((matrix[under], -matrix[over])),
        b_ub=np.concatenate((program.row_upper[under], -program.row_lower[over])),
        A_eq=matrix[equal],
        b_eq=program.row_lower[equal],
        bounds=list(zip(program.column_lower.tolist(), program.column_upper.tolist(), strict=True)),
        method="highs",
        options={"time_limit": limits.deadline.remaining_s(), "primal_feasibility_tolerance": FEASIBILITY},
    )
    status = status_of(answer.status, answer.message)
    if status is not Status.OPTIMAL:
        return RawSolution(status, answer.message)
    objective, row_dual = _objective(program, answer.x), _row_dual(program, answer)
    # The column duals come by definition: scipy's own marginals leave out columns that are fixed or free.
    column_dual = program.cost - program.rows.transposed_times(row_dual)
    return RawSolution(status, answer.message, answer.x, objective, objective, row_dual, column_dual)


def _matrix(rows: Rows) -> csr_array:
    return csr_array((rows.value, rows.index, rows.start), shape=(rows.height, rows.width))


def _kinds_of_rows(program: LinearProgram) -> tuple[BoolArray, BoolArray, BoolArray]:
    """Which rows are equations, which have an upper and which a lower bound; a range is in both of the last two."""
    equal = program.row_lower == program.row_upper
    return equal, ~equal & np.isfinite(program.row_upper), ~equal & np.isfinite(program.row_lower)


def _row_dual(program: LinearProgram, answer: OptimizeResult) -> FloatArray:
    """One dual a row, (m,), from scipy's marginals: those of lower bounds belong to a negated row."""
    equal, under, over = _kinds_of_rows(program)
    upper_sides = np.count_nonzero(under)
    dual = np.zeros(program.rows.height)
    dual[equal] = answer.eqlin.marginals
    dual[under] += answer.ineqlin.marginals[:upper_sides]
    dual[over] -= answer.ineqlin.marginals[upper_sides:]
    return dual


def _objective(program: LinearProgram, x: FloatArray | None) -> float | None:
    return None if x is None else float(program.cost @ x)
