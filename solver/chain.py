"""Levels, one after the other, on one open session: each is solved on the optimal face of those before it.

A linear level's face is fixed by its reduced costs and multipliers (complementary slackness describes the whole
face, without a tolerance); an integer level has none, so its objective becomes a row.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from solver.backends.base import Backend, Limits, RawSolution, Session, Status
from solver.certificate import NEGLIGIBLE, Bounds, dual_bound, largest_violation
from solver.deadline import Deadline
from solver.errors import BackendError, VerificationError
from solver.formulate import Formulation
from solver.levels import Level
from solver.numerics import ROW_MAGNITUDE, VERIFICATION, BoolArray, FloatArray
from solver.outcome import Checked, ProofStatus
from solver.program import Rows
from solver.watch import Look, Watch, looking

#: Part of the time left that a level may take when others follow it.
SHARE_OF_TIME = 0.6

#: Part of a value that the multipliers of an "optimal" solve may leave unproven before it counts as a lie; what
#: lies between this and VERIFICATION is stated as the level's gap.
DOUBTFUL = 1e-3

#: A miss smaller than this is none.
NO_MISS = 1e-6


@dataclass(frozen=True, slots=True, eq=False)
class Solved:
    """One level. x: (columns,), the best point known after it. value = level.cost @ x. bound: None without one.

    row_dual: (rows,), the multipliers that the bound was checked with; None without a certificate.
    """

    level: Level
    status: ProofStatus
    checked: Checked
    x: FloatArray
    value: float
    bound: float | None
    seconds: float
    row_dual: FloatArray | None = None


@dataclass(frozen=True, slots=True, eq=False)
class ChainEnd:
    """Where a chain ended. solved: empty when the first level found nothing; then `status` says why.

    freed: centres of wishes that are missed, which no longer count for the deviation.
    """

    solved: tuple[Solved, ...]
    status: Status
    freed: frozenset[int]

    @property
    def x(self) -> FloatArray | None:
        """The last point found; None without any."""
        return self.solved[-1].x if self.solved else None


class Chain:
    """A session on a formulation's programme, and the bounds that hold in it at the moment."""

    def __init__(self, backend: Backend, formulation: Formulation) -> None:
        self._formulation = formulation
        program = formulation.program
        self._session = backend.open(program)
        self._rows, self._integer = program.rows, program.integer
        self._start = Bounds(program.row_lower, program.row_upper, program.column_lower, program.column_upper)
        self._bounds = self._start
        self._freed: frozenset[int] = frozenset()

    @property
    def formulation(self) -> Formulation:
        """Whose programme it is."""
        return self._formulation

    @property
    def session(self) -> Session:
        """The open session, for whoever poses the programme in another way; `restart` before running levels again."""
        return self._session

    def close(self) -> None:
        """Free the session."""
        self._session.close()

    def restart(self, bounds: Bounds, integer: BoolArray) -> None:
        """Forget all faces and pose the programme anew with these bounds of its first rows and of its columns."""
        extra = self._rows.height - len(bounds.row_lower)
        lower = np.append(bounds.row_lower, np.full(extra, -np.inf))
        upper = np.append(bounds.row_upper, np.full(extra, np.inf))
        self._apply(Bounds(lower, upper, bounds.column_lower, bounds.column_upper))
        if (integer != self._integer).any():
            self._session.set_integer(integer)
            self._integer = integer
        self._freed = frozenset()

    @property
    def start(self) -> Bounds:
        """The bounds of the programme as formulated."""
        return self._start

    def run(self, levels: Sequence[Level], deadline: Deadline, watch: Watch | None = None) -> ChainEnd:
        """Solve the levels until one finds nothing. Raises VerificationError or BackendError when a solver lies.

        watch: shown each level while it is solved and at its end.
        """
        solved: list[Solved] = []
        for number, level in enumerate(levels):
            last = number == len(levels) - 1
            raw = self._solve(level, deadline if last else deadline.share(SHARE_OF_TIME), watch)
            _refuse_unsound(raw)
            if raw.x is None:
                status = raw.status
                return ChainEnd(tuple(solved + self._unreached(levels[number:], solved)), status, self._freed)
            found = self._judged(level, raw)
            solved.append(found)
            if watch is not None:
                watch(Look(self._formulation, level, found.value, found.bound, found.x))
            if not last:
                self._hold(level, raw, level.absolute_gap if levels[number + 1].breaks_ties else 0.0)
                self._free_missed(raw.x)
        return ChainEnd(tuple(solved), Status.OPTIMAL, self._freed)

    def _solve(self, level: Level, deadline: Deadline, watch: Watch | None) -> RawSolution:
        self._session.set_cost(level.cost)
        self._session.watch(None if watch is None else looking(watch, self._formulation, level))
        return self._session.solve(Limits(deadline, level.absolute_gap))

    def _judged(self, level: Level, raw: RawSolution) -> Solved:
        assert raw.x is not None  # noqa: S101  the caller has looked
        if largest_violation(raw.x, self._rows, self._bounds) > VERIFICATION:
            raise VerificationError(f"{level.name}: the solver's point is outside its own bounds")
        value = float(level.cost @ raw.x)
        if self._integer.any():
            return self._judged_integer(level, raw, value)
        if raw.status is not Status.OPTIMAL or raw.row_dual is None:
            return Solved(level, ProofStatus.BEST_FOUND, Checked.CLAIM, raw.x, value, None, raw.seconds)
        bound = min(value, dual_bound(level.cost, self._rows, self._bounds, raw.row_dual))
        unproven = (value - bound) / max(1.0, abs(value))
        if unproven > DOUBTFUL:
            raise VerificationError(f"{level.name}: the solver's multipliers prove {bound}, not {value}")
        status = ProofStatus.OPTIMAL if unproven <= VERIFICATION else ProofStatus.WITHIN_GAP
        return Solved(level, status, Checked.CERTIFICATE, raw.x, value, bound, raw.seconds, raw.row_dual)

    def _judged_integer(self, level: Level, raw: RawSolution, value: float) -> Solved:
        status = ProofStatus.BEST_FOUND
        if raw.status is Status.OPTIMAL:
            open_gap = value - (value if raw.bound is None else raw.bound)
            tight = open_gap <= VERIFICATION * max(1.0, abs(value))
            status = ProofStatus.OPTIMAL if tight else ProofStatus.WITHIN_GAP
        assert raw.x is not None  # noqa: S101  the caller has looked
        return Solved(level, status, Checked.CLAIM, raw.x, value, raw.bound, raw.seconds)

    @staticmethod
    def _unreached(rest: Sequence[Level], solved: list[Solved]) -> list[Solved]:
        # A plan found at an earlier level survives: it counts as the best found of the levels that were not reached.
        if not solved:
            return []
        x = solved[-1].x
        return [
            Solved(level, ProofStatus.BEST_FOUND, Checked.CLAIM, x, float(level.cost @ x), None, 0.0) for level in rest
        ]

    def _hold(self, level: Level, raw: RawSolution, slack: float) -> None:
        if slack > 0 or raw.row_dual is None or raw.column_dual is None or raw.x is None:
            self._hold_by_row(level, raw, slack)
            return
        bounds = self._bounds
        row_lower, row_upper = _fixed(raw.row_dual, bounds.row_lower, bounds.row_upper)
        reduced = level.cost - self._rows.transposed_times(raw.row_dual)
        column_lower, column_upper = _fixed(reduced, bounds.column_lower, bounds.column_upper)
        self._apply(Bounds(row_lower, row_upper, column_lower, column_upper))

    def _hold_by_row(self, level: Level, raw: RawSolution, slack: float) -> None:
        assert raw.x is not None  # noqa: S101  the caller has looked
        scale = min(1.0, ROW_MAGNITUDE / float(np.abs(level.cost).max(initial=1.0)))
        row = Rows.from_dense((level.cost * scale)[None, :])
        most = (float(level.cost @ raw.x) + slack) * scale + VERIFICATION
        self._session.add_rows(row, np.array([-np.inf]), np.array([most]))
        self._rows = self._rows.below(row)
        self._bounds = replace(
            self._bounds,
            row_lower=np.append(self._bounds.row_lower, -np.inf),
            row_upper=np.append(self._bounds.row_upper, most),
        )

    def _free_missed(self, x: FloatArray) -> None:
        """A wish that is missed has its deviation settled; it must not hide that of the others."""
        layout = self._formulation.layout
        misses = x[layout.miss_columns]
        missed = {side.target.id for side, miss in zip(layout.sides, misses, strict=True) if miss > NO_MISS}
        freed = frozenset(n for n, middle in enumerate(layout.centres) if middle.target.id in missed)
        if freed != self._freed:
            self._freed = freed
            row_lower = self._bounds.row_lower.copy()
            for number in range(len(layout.centres)):
                rows = layout.centre_rows(number)
                row_lower[rows] = -np.inf if number in freed else self._start.row_lower[rows]
            self._apply(replace(self._bounds, row_lower=row_lower))

    def _apply(self, bounds: Bounds) -> None:
        self._session.set_row_bounds(bounds.row_lower, bounds.row_upper)
        self._session.set_column_bounds(bounds.column_lower, bounds.column_upper)
        self._bounds = bounds


def _fixed(multiplier: FloatArray, lower: FloatArray, upper: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Complementary slackness: where a multiplier is not zero, every optimal point is at the bound it leans on."""
    at_lower = (multiplier > NEGLIGIBLE) & np.isfinite(lower)
    at_upper = (multiplier < -NEGLIGIBLE) & np.isfinite(upper)
    return np.where(at_upper, upper, lower), np.where(at_lower, lower, upper)


def _refuse_unsound(raw: RawSolution) -> None:
    """Raise BackendError for what no solver may say: an optimum without a point, or a point that is no number."""
    if raw.status is Status.OPTIMAL and raw.x is None:
        raise BackendError("a solver called optimal what it has no point for")
    if raw.x is not None and not np.isfinite(raw.x).all():
        raise BackendError("a solver showed a point that is no number")
