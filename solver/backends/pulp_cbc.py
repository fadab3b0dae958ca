"""CBC through PuLP: a referee that shares no code with HiGHS.

PuLP brings the CBC program, writes the model file and reads CBC's status. The process is run here, not by PuLP,
for three reasons: PuLP leaves its files behind when a solve fails and CBC behind when our own code is interrupted,
and it reads the printed solution, which has eight digits, where CBC also writes the doubles themselves.

CBC runs on one thread (its default). Its files are in memory, and it ends with the process that started it, even when
that is killed outright; where the system offers neither, it is told the deadline and ends by itself.
"""

import subprocess
import threading
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

import numpy as np
import pulp  # type: ignore[import-untyped]  # PuLP 3 ships no types

from solver.backends.base import Limits, RawSolution, Session, Status
from solver.backends.cbc_files import CbcFiles, cbc_files
from solver.backends.cbc_process import CbcCrashError, run_cbc
from solver.backends.pulp_model import Point, PulpModel, read_point, to_pulp
from solver.backends.stateless import StatelessSession
from solver.errors import BackendError
from solver.numerics import FEASIBILITY, INTEGRALITY, VERIFICATION, FloatArray
from solver.program import LinearProgram

#: PuLP's problem statuses.
STATUSES: Mapping[int, Status] = MappingProxyType(
    {
        pulp.LpStatusOptimal: Status.OPTIMAL,
        pulp.LpStatusInfeasible: Status.INFEASIBLE,
        pulp.LpStatusUnbounded: Status.UNBOUNDED,
        pulp.LpStatusNotSolved: Status.STOPPED,
        pulp.LpStatusUndefined: Status.FAILED,
    },
)

#: PuLP's solution statuses. They decide where the problem status says "Optimal", since PuLP says so after a time
#: limit too.
SOLUTION_STATUSES: Mapping[int, Status] = MappingProxyType(
    {
        pulp.LpSolutionOptimal: Status.OPTIMAL,
        pulp.LpSolutionIntegerFeasible: Status.STOPPED,
        pulp.LpSolutionNoSolutionFound: Status.STOPPED,
        pulp.LpSolutionInfeasible: Status.INFEASIBLE,
        pulp.LpSolutionUnbounded: Status.UNBOUNDED,
    },
)

#: What CBC 2.10 writes after "Stopped on".
STOP_REASONS: Mapping[str, Status] = MappingProxyType(
    {
        "time": Status.TIME_LIMIT,
        "iterations": Status.STOPPED,
        "difficulties": Status.STOPPED,
        "ctrl-c": Status.INTERRUPTED,
    },
)

#: What may come with a point; what CBC writes in other cases is no solution.
_MAY_HOLD_A_POINT = frozenset({Status.OPTIMAL, Status.TIME_LIMIT, Status.STOPPED, Status.INTERRUPTED})

#: What a crash may turn out to have been; the last two when there was no time to find out.
_EXPLAINS_A_CRASH = frozenset({Status.INFEASIBLE, Status.TIME_LIMIT, Status.INTERRUPTED})


@dataclass(frozen=True, slots=True, eq=False)
class _Run:
    """What one solve asks CBC, in which files, for how long."""

    files: CbcFiles
    program: LinearProgram
    model: PulpModel
    limits: Limits
    interrupted: threading.Event


class PulpCbcBackend:
    """Opens programmes for CBC. Raises BackendError when it cannot be run.

    path: of the CBC program, by default the one that PuLP brings.
    """

    name = "pulp-cbc"

    def __init__(self, path: str = pulp.PULP_CBC_CMD.pulp_cbc_path) -> None:
        self._solver = pulp.COIN_CMD(path=path, msg=False)
        if not self._solver.available():
            raise BackendError(f"there is no CBC to run at {path}")

    @property
    def version(self) -> str:
        """The version in CBC's greeting."""
        greeting = subprocess.run(  # noqa: S603  the program is PuLP's own, its arguments are ours
            [self._solver.path, "-quit"], capture_output=True, text=True, check=True
        )
        return greeting.stdout.partition("Version: ")[2].split()[0]

    def open(self, program: LinearProgram) -> Session:
        """Hold the arrays; every solve starts from scratch, in a process of its own."""
        return StatelessSession(program, self._solve)

    def _solve(self, program: LinearProgram, limits: Limits, interrupted: threading.Event) -> RawSolution:
        with cbc_files() as files:
            run = _Run(files, program, _write(program, files.model), limits, interrupted)
            try:
                return self._ask(run, preprocess="off")
            except CbcCrashError:
                answer = self._ask(run, preprocess="on")
                if answer.status not in _EXPLAINS_A_CRASH or answer.x is not None:
                    raise
                return answer

    def _ask(self, run: _Run, preprocess: str) -> RawSolution:
        """One run of CBC.

        CBC 2.10.3 with integer preprocessing now and then calls a worse point optimal. Without it, it crashes on
        writing that no whole numbers fit. So it is asked without, and after a crash once more with preprocessing,
        whose word is taken for infeasibility alone.
        """
        command = [self._solver.path, *_arguments(run.files, run.limits, preprocess)]
        ended = run_cbc(command, run.files.descriptors, run.limits.deadline, run.interrupted)
        return ended or self._read(run)

    def _read(self, run: _Run) -> RawSolution:
        answer = run.files.answer
        first_line = answer.read_text().partition("\n")[0] if answer.exists() else ""
        if not first_line:
            raise BackendError("CBC ended without an answer")
        native = first_line.partition(" - objective")[0]
        code, solution_code = self._solver.get_status(str(answer))
        status = status_of(code, solution_code, native)
        if status not in _MAY_HOLD_A_POINT:
            return RawSolution(status, native)
        point = read_point(run.files.point, run.program, run.model)
        if status is not Status.OPTIMAL and not _is_feasible(run.program, point.x):
            return RawSolution(status, native)
        return _raw_solution(status, native, point, run.program, run.limits)


def _arguments(files: CbcFiles, limits: Limits, preprocess: str) -> list[str]:
    """Without its own `increment` CBC ignores solutions better by less than 1e-6."""
    options = {
        "sec": limits.deadline.remaining_s(),
        "timeMode": "elapsed",
        "primalTolerance": FEASIBILITY,
        "allowableGap": limits.absolute_gap,
        "increment": limits.absolute_gap / 10,
        "preprocess": preprocess,
    }
    settings = [word for name, value in options.items() for word in (f"-{name}", str(value))]
    return [str(files.model), *settings, "-solve", "-solution", str(files.answer), "-saveSolution", str(files.point)]


def status_of(code: int, solution_code: int, native: str) -> Status:
    """What PuLP's two statuses and CBC's own words mean. Raises BackendError for one outside the tables."""
    table, key = (SOLUTION_STATUSES, solution_code) if code == pulp.LpStatusOptimal else (STATUSES, code)
    reason = native.removeprefix("Stopped on ").split()[0] if native.startswith("Stopped on ") else None
    if key not in table or (reason is not None and reason not in STOP_REASONS):
        raise BackendError(f"CBC answered a status outside its table: {native}")
    return table[key] if reason is None else STOP_REASONS[reason]


def _write(program: LinearProgram, file: Path) -> PulpModel:
    try:
        model = to_pulp(program)
        model.problem.writeMPS(str(file), rename=1)
    except pulp.PulpError as refusal:
        raise BackendError(f"PuLP refused the programme: {refusal}") from refusal
    return model


def _raw_solution(status: Status, native: str, point: Point, program: LinearProgram, limits: Limits) -> RawSolution:
    objective = float(program.cost @ point.x)
    if status is not Status.OPTIMAL:
        return RawSolution(status, native, point.x, objective)
    if program.has_integers:
        return RawSolution(status, native, point.x, objective, bound=objective - limits.absolute_gap)
    return RawSolution(status, native, point.x, objective, objective, point.row_dual, point.column_dual)


def _is_feasible(program: LinearProgram, x: FloatArray) -> bool:
    """Whether x keeps every bound, row and whole number: where CBC stopped early, it may show a point that does not."""
    return (
        _is_between(x, program.column_lower, program.column_upper)
        and _is_between(program.rows.times(x), program.row_lower, program.row_upper)
        and bool((np.abs(x - np.round(x))[program.integer] <= INTEGRALITY).all())
    )


def _is_between(value: FloatArray, lower: FloatArray, upper: FloatArray) -> bool:
    below, above = VERIFICATION * np.fmax(1.0, np.abs(lower)), VERIFICATION * np.fmax(1.0, np.abs(upper))
    return bool(((value >= lower - below) & (value <= upper + above)).all())
