"""Remembering what a backend could not decide, so that the programme can be written down and looked at.

A session's programme changes from solve to solve; what is remembered is the programme as it was when it was solved.
"""

import threading
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from solver.backends.base import Backend, Limits, Progress, RawSolution, Session, Status
from solver.backends.mps import write_mps
from solver.numerics import BoolArray, FloatArray
from solver.program import LinearProgram, Rows

#: How a solve ends that says what there is to say.
_DECIDED = frozenset({Status.OPTIMAL, Status.INFEASIBLE, Status.INFEASIBLE_OR_UNBOUNDED})


@dataclass(frozen=True, slots=True, eq=False)
class _Posed:
    """A programme, and what has been changed in it since; None where nothing has."""

    program: LinearProgram
    cost: FloatArray | None = None
    columns: tuple[FloatArray, FloatArray] | None = None
    rows: tuple[FloatArray, FloatArray] | None = None
    integer: BoolArray | None = None

    def built(self) -> LinearProgram:
        """With all changes in it."""
        program = self.program
        column_lower, column_upper = self.columns or (program.column_lower, program.column_upper)
        row_lower, row_upper = self.rows or (program.row_lower, program.row_upper)
        return replace(
            program,
            cost=program.cost if self.cost is None else self.cost,
            column_lower=column_lower,
            column_upper=column_upper,
            row_lower=row_lower,
            row_upper=row_upper,
            integer=program.integer if self.integer is None else self.integer,
        )


class Remembered:
    """The solve that stayed undecided for longest or broke, of all backends that this watches; else the last one."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._posed: _Posed | None = None
        self._seconds = -1.0

    def watching(self, backend: Backend) -> Backend:
        """The same backend, whose solves are remembered."""
        return _Watched(backend, self)

    def note(self, posed: _Posed, undecided_s: float | None) -> None:
        """A solve that ended. undecided_s: how long it went on without a decision; None when it came to one."""
        with self._lock:
            if undecided_s is not None and undecided_s >= self._seconds:
                self._posed, self._seconds = posed, undecided_s
            elif self._seconds < 0:
                self._posed = posed

    def write(self, path: Path) -> bool:
        """Write its programme in MPS format; says whether there was one. Raises OSError, BackendError."""
        if self._posed is None:
            return False
        write_mps(self._posed.built(), path)
        return True


@dataclass(frozen=True, slots=True)
class _Watched:
    backend: Backend
    remembered: Remembered

    @property
    def name(self) -> str:
        return self.backend.name

    @property
    def version(self) -> str:
        return self.backend.version

    def open(self, program: LinearProgram) -> Session:
        return _Session(self.backend.open(program), program, self.remembered)


class _Session:
    """See `Session`: every call is passed on. Nobody writes into an array that was handed in."""

    def __init__(self, session: Session, program: LinearProgram, remembered: Remembered) -> None:
        self._session, self._remembered = session, remembered
        self._posed = _Posed(program)

    def solve(self, limits: Limits) -> RawSolution:
        try:
            raw = self._session.solve(limits)
        except Exception:
            self._remembered.note(self._posed, float("inf"))
            raise
        broken = raw.status in {Status.FAILED, Status.UNBOUNDED}
        undecided_s = float("inf") if broken else raw.seconds
        self._remembered.note(self._posed, None if raw.status in _DECIDED else undecided_s)
        return raw

    def set_cost(self, cost: FloatArray) -> None:
        self._session.set_cost(cost)
        self._posed = replace(self._posed, cost=cost)

    def set_column_bounds(self, lower: FloatArray, upper: FloatArray) -> None:
        self._session.set_column_bounds(lower, upper)
        self._posed = replace(self._posed, columns=(lower, upper))

    def set_row_bounds(self, lower: FloatArray, upper: FloatArray) -> None:
        self._session.set_row_bounds(lower, upper)
        self._posed = replace(self._posed, rows=(lower, upper))

    def set_integer(self, integer: BoolArray) -> None:
        self._session.set_integer(integer)
        self._posed = replace(self._posed, integer=integer)

    def add_rows(self, rows: Rows, lower: FloatArray, upper: FloatArray) -> None:
        self._session.add_rows(rows, lower, upper)
        self._posed = replace(self._posed, program=self._posed.built().with_rows(rows, lower, upper), rows=None)

    def interrupt(self) -> None:
        self._session.interrupt()

    def watch(self, watcher: Callable[[Progress], None] | None) -> None:
        self._session.watch(watcher)

    def close(self) -> None:
        self._session.close()
