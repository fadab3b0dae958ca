"""The seam: a backend opens a session on a programme; everything else of the solver lives above it.

A session keeps its programme between solves, so that levels, conflicts, frontiers and reworks change
an objective or a bound and solve again from where they were.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from typing import Protocol

from solver.deadline import Deadline
from solver.numerics import BoolArray, FloatArray
from solver.program import LinearProgram, Rows


class Status(Enum):
    """How a solve ended: the one vocabulary into which each backend maps every status of its library."""

    OPTIMAL = "optimal"
    INFEASIBLE = "infeasible"
    UNBOUNDED = "unbounded"
    INFEASIBLE_OR_UNBOUNDED = "infeasible or unbounded"
    TIME_LIMIT = "time limit"
    INTERRUPTED = "interrupted"
    STOPPED = "stopped at another limit"
    FAILED = "failed"


@dataclass(frozen=True, slots=True)
class Limits:
    """When to stop: at the deadline, or when |objective - bound| <= absolute_gap (integer programmes only)."""

    deadline: Deadline
    absolute_gap: float = 1e-6


@dataclass(frozen=True, slots=True, eq=False)
class RawSolution:
    """What a backend says, unchecked. That a point is present is kept apart from whether it is optimal.

    x: (n,), None when the solver holds no feasible point (a time limit, for instance).
    objective: cost @ x; None without x. bound: the solver's claim that no objective is lower; None if it has none.
    row_dual (m,), column_dual (n,): LP only, else None. row_dual[i] is d objective / d bound of row i, and
    column_dual = cost - A.T @ row_dual. native: the library's own word for the status.
    """

    status: Status
    native: str
    x: FloatArray | None = None
    objective: float | None = None
    bound: float | None = None
    row_dual: FloatArray | None = None
    column_dual: FloatArray | None = None
    seconds: float = 0.0


@dataclass(frozen=True, slots=True)
class Progress:
    """A look at a running integer solve. objective is None before the first feasible point.

    x: (n,), the best point so far; None before the first, and where the library does not show it.
    """

    seconds: float
    objective: float | None
    bound: float | None
    x: FloatArray | None = None


class Session(Protocol):
    """A programme held open in a solver. Not for two threads at once, except `interrupt`."""

    def solve(self, limits: Limits) -> RawSolution:
        """Solve what the session now holds. Raises BackendError when the solver breaks."""

    def set_cost(self, cost: FloatArray) -> None:
        """Replace the objective, (n,)."""

    def set_column_bounds(self, lower: FloatArray, upper: FloatArray) -> None:
        """Replace all column bounds, (n,) each."""

    def set_row_bounds(self, lower: FloatArray, upper: FloatArray) -> None:
        """Replace all row bounds, (m,) each, added rows included."""

    def set_integer(self, integer: BoolArray) -> None:
        """Replace which columns must be whole, (n,)."""

    def add_rows(self, rows: Rows, lower: FloatArray, upper: FloatArray) -> None:
        """Append rows; they are numbered after the present ones."""

    def interrupt(self) -> None:
        """Make a running solve stop soon, and later ones at once; safe from any thread."""

    def watch(self, watcher: Callable[[Progress], None] | None) -> None:
        """Call `watcher` from the solving thread while an integer solve runs; None ends it."""

    def close(self) -> None:
        """Free what the session holds; it is not used again."""


class Backend(Protocol):
    """A solver that can open sessions."""

    @property
    def name(self) -> str:
        """Short name, the key in the table of backends."""

    @property
    def version(self) -> str:
        """Version of the solver proper, as reported in every proof."""

    def open(self, program: LinearProgram) -> Session:
        """Hold a programme open."""
