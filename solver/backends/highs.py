"""HiGHS through its own Python interface: the default backend.

One thread a solve, so that a server's workers share the cores and a plan is the same everywhere. Presolve is off: on
programmes of few rows it costs more than it saves, and a re-solve of a linear one starts warm from the last basis. For
integers three heuristics and the search for symmetry, which foods have not, are off for the same reason, while rounding
by ZI pays.
"""

import threading
import time
from collections.abc import Callable
from functools import cached_property

import highspy
import numpy as np

from solver.backends.base import Limits, Progress, RawSolution, Session, Status
from solver.backends.highs_statuses import STATUSES
from solver.errors import BackendError
from solver.numerics import DUAL_FEASIBILITY, FEASIBILITY, BoolArray, FloatArray
from solver.program import LinearProgram, Rows, refuse_bounds, refuse_cost, refuse_rows

#: Values of `simplex_strategy`: always dual, and primal where the basis at hand is primal feasible. So it is after a
#: level: the next one changes the objective and fixes what stands at its bounds, which takes the primal half as long.
_DUAL, _BY_BASIS = 1, 0


class _QuietHighs(highspy.Highs):
    """Highs prints a banner when its constructor enables callbacks; by then this one is silent."""

    def __init__(self) -> None:
        highspy.Highs.__init__(self)

    def enableCallbacks(self) -> None:  # noqa: N802  the library's name
        self.setOptionValue("output_flag", False)  # noqa: FBT003  the library takes no keyword
        highspy.Highs.enableCallbacks(self)


class HighsBackend:
    """Opens programmes in HiGHS."""

    name = "highs"

    @cached_property
    def version(self) -> str:
        """Version of the HiGHS library itself."""
        return str(highspy.Highs.version(_QuietHighs()))

    def open(self, program: LinearProgram) -> Session:
        """Hold a programme open; raises BackendError when HiGHS refuses it."""
        return HighsSession(program)


class HighsSession:
    """See `Session`. `watch` sees integer solves only."""

    def __init__(self, program: LinearProgram) -> None:
        self._highs = _QuietHighs()
        self._interrupted = threading.Event()
        self._watcher: Callable[[Progress], None] | None = None
        self._best: FloatArray | None = None
        self._columns = np.arange(len(program.cost), dtype=np.int32)
        # Every change is looked at before HiGHS sees it: it takes NaN and crossed bounds without a word.
        self._cost, self._row_bounds = program.cost, (program.row_lower, program.row_upper)
        self._column_bounds = program.column_lower, program.column_upper
        self._has_integers = program.has_integers
        self._set_options()
        self._pass(program)

    def solve(self, limits: Limits) -> RawSolution:
        """Solve from the last basis where there is one."""
        if self._interrupted.is_set():
            return RawSolution(Status.INTERRUPTED, "interrupted before the solve")
        left_s = limits.deadline.remaining_s()
        if left_s <= 0:
            return RawSolution(Status.TIME_LIMIT, "no time left before the solve")
        self._option("time_limit", self._clock_s() + left_s)
        self._option("mip_abs_gap", limits.absolute_gap)
        self._best, began = None, time.perf_counter()
        self._run()
        return self._read(time.perf_counter() - began)

    def _run(self) -> None:
        self._option("simplex_strategy", _DUAL if self._has_integers else _BY_BASIS)
        self._highs.run()
        if self._highs.getModelStatus().name == "kUnknown" and not self._has_integers:
            # From a nearly singular basis it may end beside the optimum: then from the start, by the dual.
            self._highs.clearSolver()
            self._option("simplex_strategy", _DUAL)
            self._highs.run()

    def set_cost(self, cost: FloatArray) -> None:
        """See `Session`."""
        refuse_cost(cost, len(self._columns))
        new = self._columns[cost != self._cost]
        self._cost = cost.copy()
        _accept(self._highs.changeColsCost(len(new), new, cost[new]), "a new objective")

    def set_column_bounds(self, lower: FloatArray, upper: FloatArray) -> None:
        """See `Session`."""
        refuse_bounds(lower, upper, len(self._columns))
        old_lower, old_upper = self._column_bounds
        new = self._columns[(lower != old_lower) | (upper != old_upper)]
        self._column_bounds = lower.copy(), upper.copy()
        _accept(self._highs.changeColsBounds(len(new), new, lower[new], upper[new]), "new column bounds")

    def set_row_bounds(self, lower: FloatArray, upper: FloatArray) -> None:
        """See `Session`."""
        old_lower, old_upper = self._row_bounds
        refuse_bounds(lower, upper, len(old_lower))
        self._row_bounds = lower.copy(), upper.copy()
        for row in np.nonzero((lower != old_lower) | (upper != old_upper))[0]:
            _accept(self._highs.changeRowBounds(int(row), float(lower[row]), float(upper[row])), "new row bounds")

    def set_integer(self, integer: BoolArray) -> None:
        """See `Session`."""
        self._has_integers = bool(integer.any())
        kinds = integer.astype(np.uint8)
        _accept(self._highs.changeColsIntegrality(len(kinds), self._columns, kinds), "new integrality")

    def add_rows(self, rows: Rows, lower: FloatArray, upper: FloatArray) -> None:
        """See `Session`."""
        refuse_rows(rows, len(self._columns))
        refuse_bounds(lower, upper, rows.height)
        old_lower, old_upper = self._row_bounds
        self._row_bounds = np.concatenate((old_lower, lower)), np.concatenate((old_upper, upper))
        added = self._highs.addRows(rows.height, lower, upper, len(rows.value), rows.start[:-1], rows.index, rows.value)
        _accept(added, "new rows")

    def interrupt(self) -> None:
        """See `Session`."""
        self._interrupted.set()

    def watch(self, watcher: Callable[[Progress], None] | None) -> None:
        """See `Session`."""
        self._watcher = watcher

    def close(self) -> None:
        """See `Session`. What HiGHS calls back is forgotten, or all would wait for the collector of cycles."""
        self._highs.clearCallbacks()  # type: ignore[no-untyped-call]
        self._highs.clear()

    def write(self, path: str) -> None:
        """Write what the session now holds, in the format that the ending of `path` names (.mps)."""
        _accept(self._highs.writeModel(path), f"to write {path}")

    def _set_options(self) -> None:
        self._option("threads", 1)
        self._option("random_seed", 0)
        self._option("presolve", "off")
        self._option("mip_heuristic_run_feasibility_jump", "off")
        self._option("mip_heuristic_run_root_reduced_cost", "off")
        self._option("mip_heuristic_run_rins", "off")
        self._option("mip_heuristic_run_zi_round", "on")
        self._option("mip_detect_symmetry", "off")
        self._option("mip_rel_gap", 0.0)
        self._option("primal_feasibility_tolerance", FEASIBILITY)
        self._option("dual_feasibility_tolerance", DUAL_FEASIBILITY)
        self._option("mip_feasibility_tolerance", FEASIBILITY)
        self._highs.cbSimplexInterrupt.subscribe(self._on_pause)
        self._highs.cbMipInterrupt.subscribe(self._on_pause)
        self._highs.cbMipImprovingSolution.subscribe(self._on_better)

    def _clock_s(self) -> float:
        """What HiGHS's clock will show when the next solve begins, seconds.

        In HiGHS 1.16 it runs on from solve to solve for a linear programme and starts at 0 for an integer one.
        """
        return 0.0 if self._has_integers else float(self._highs.getRunTime())

    def _option(self, name: str, value: float | str) -> None:
        _accept(self._highs.setOptionValue(name, value), f"option {name}")

    def _pass(self, program: LinearProgram) -> None:
        rows = program.rows
        passed = self._highs.passModel(
            len(program.cost),
            rows.height,
            len(rows.value),
            int(highspy.MatrixFormat.kRowwise),
            int(highspy.ObjSense.kMinimize),
            0.0,
            program.cost,
            program.column_lower,
            program.column_upper,
            program.row_lower,
            program.row_upper,
            rows.start,
            rows.index,
            rows.value,
            program.integer.astype(np.int32),
        )
        _accept(passed, "the programme")

    def _on_pause(self, event: highspy.HighsCallbackEvent) -> None:
        if self._interrupted.is_set():
            event.interrupt()
        if self._watcher is not None and self._has_integers:
            seen = event.data_out
            objective, bound = (_finite(value) for value in (seen.mip_primal_bound, seen.mip_dual_bound))
            self._watcher(Progress(seen.running_time, objective, bound, self._best))

    def _on_better(self, event: highspy.HighsCallbackEvent) -> None:
        if self._watcher is not None:
            self._best = np.array(event.data_out.mip_solution)  # a copy: the library goes on with its own

    def _read(self, seconds: float) -> RawSolution:
        native = self._highs.getModelStatus().name
        if native not in STATUSES:
            raise BackendError(f"HiGHS answered a status outside its table: {native}")
        info, status = self._highs.getInfo(), STATUSES[native]
        solution = self._highs.getSolution()
        present = info.primal_solution_status == highspy.kSolutionStatusFeasible
        is_lp = not self._has_integers
        dual = is_lp and status is Status.OPTIMAL and solution.dual_valid
        return RawSolution(
            status=status,
            native=native,
            x=np.array(solution.col_value) if present else None,
            objective=info.objective_function_value if present else None,
            bound=info.objective_function_value if dual else None if is_lp else _finite(info.mip_dual_bound),
            row_dual=np.array(solution.row_dual) if dual else None,
            column_dual=np.array(solution.col_dual) if dual else None,
            seconds=seconds,
        )


def _accept(answer: highspy.HighsStatus, what: str) -> None:
    if answer == highspy.HighsStatus.kError:
        raise BackendError(f"HiGHS refused {what}")


def _finite(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None
