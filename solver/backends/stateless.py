"""A session for libraries that keep nothing between two solves: it holds the arrays and starts afresh each time."""

import threading
import time
from collections.abc import Callable
from dataclasses import replace
from typing import TypeAlias

from solver.backends.base import Limits, Progress, RawSolution, Status
from solver.numerics import BoolArray, FloatArray
from solver.program import LinearProgram, Rows

#: Solves one programme from scratch; the event is set when the session is interrupted.
SolveAfresh: TypeAlias = Callable[[LinearProgram, Limits, threading.Event], RawSolution]


class StatelessSession:
    """See `Session`. `watch` is accepted and its watcher never called: these libraries show nothing on the way."""

    def __init__(self, program: LinearProgram, solve_afresh: SolveAfresh) -> None:
        self._program = program
        self._solve_afresh = solve_afresh
        self._interrupted = threading.Event()

    def solve(self, limits: Limits) -> RawSolution:
        """Solve what the session now holds; without time left, or once interrupted, the library is not asked."""
        if self._interrupted.is_set():
            return RawSolution(Status.INTERRUPTED, "interrupted before the solve")
        if limits.deadline.remaining_s() <= 0:
            return RawSolution(Status.TIME_LIMIT, "no time left before the solve")
        began = time.perf_counter()
        answer = self._solve_afresh(self._program, limits, self._interrupted)
        return replace(answer, seconds=time.perf_counter() - began)

    def set_cost(self, cost: FloatArray) -> None:
        """See `Session`."""
        self._program = replace(self._program, cost=cost.copy())

    def set_column_bounds(self, lower: FloatArray, upper: FloatArray) -> None:
        """See `Session`."""
        self._program = replace(self._program, column_lower=lower.copy(), column_upper=upper.copy())

    def set_row_bounds(self, lower: FloatArray, upper: FloatArray) -> None:
        """See `Session`."""
        self._program = replace(self._program, row_lower=lower.copy(), row_upper=upper.copy())

    def set_integer(self, integer: BoolArray) -> None:
        """See `Session`."""
        self._program = replace(self._program, integer=integer.copy())

    def add_rows(self, rows: Rows, lower: FloatArray, upper: FloatArray) -> None:
        """See `Session`."""
        self._program = self._program.with_rows(rows, lower, upper)

    def interrupt(self) -> None:
        """See `Session`; whether a running solve stops is up to the library."""
        self._interrupted.set()

    def watch(self, watcher: Callable[[Progress], None] | None) -> None:
        """Accept a watcher and never call it."""

    def close(self) -> None:
        """Nothing is held outside Python."""
