"""Levels, one after the other, on one open session: each is solved on the optimal face of those before it.

A linear level's face is fixed by its reduced costs and multipliers (complementary slackness describes the whole
face, without a tolerance); an integer level has none, so its objective becomes a row. An integer level that yields is
not sought by itself where that can be spared: the next one is, inside the gap above the bound that the linear programme
proves of it.
"""

from collections.abc import Sequence
from dataclasses import replace

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
from solver.solved import ChainEnd, Solved, unreached
from solver.watch import Look, Watch, looking

#: Part of the time left that a level may take when others follow it.
SHARE_OF_TIME = 0.6

#: Part of a value that the multipliers of an "optimal" solve may leave unproven before it counts as a lie; what
#: lies between this and VERIFICATION is stated as the level's gap.
DOUBTFUL = 1e-3

#: Part of the time left that seeking the next level within the gap of one that yields may take, before it is given up.
SHARE_WITHIN_GAP = 0.3

#: A miss smaller than this is none.
NO_MISS = 1e-6


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
        ahead: RawSolution | None = None
        for number, level in enumerate(levels):
            following = levels[number + 1] if number + 1 < len(levels) else None
            yielded = None if following is None or ahead else self._within_gap(level, following, deadline, watch)
            if yielded is not None:
                found, ahead = yielded
                solved.append(self._shown(found, watch))
                continue
            share = deadline if following is None else deadline.share(SHARE_OF_TIME)
            raw, ahead = ahead or self._solve(level, share, watch), None
            _refuse_unsound(raw)
            if raw.x is None:
                return ChainEnd((*solved, *unreached(levels[number:], solved)), raw.status, self._freed)
            solved.append(self._shown(self._judged(level, raw), watch))
            if following is not None:
                self._hold(level, raw, level.absolute_gap if following.breaks_ties else 0.0)
                self._free_missed(raw.x)
        return ChainEnd(tuple(solved), Status.OPTIMAL, self._freed)

    def hold_below(self, level: Level, most: float) -> None:
        """Let a level come to no more than so much, until the next restart."""
        scale = min(1.0, ROW_MAGNITUDE / float(np.abs(level.cost).max(initial=1.0)))
        row = Rows.from_dense((level.cost * scale)[None, :])
        self._session.add_rows(row, np.array([-np.inf]), np.array([most * scale + VERIFICATION]))
        self._rows = self._rows.below(row)
        self._bounds = replace(
            self._bounds,
            row_lower=np.append(self._bounds.row_lower, -np.inf),
            row_upper=np.append(self._bounds.row_upper, most * scale + VERIFICATION),
        )

    def _within_gap(
        self, level: Level, following: Level, deadline: Deadline, watch: Watch | None
    ) -> tuple[Solved, RawSolution | None] | None:
        """A level that yields, and the answer to the one after it; None where it has to be sought by itself.

        Without that answer where the clock ended it: the next level then has the time that is left, in the same gap.
        """
        if not (level.yields and self._integer.any()):
            return None
        share = deadline.share(SHARE_WITHIN_GAP)
        proven = self._linear_bound(level, share)
        if proven is None:
            return None
        bound, seconds = proven
        most = bound + level.absolute_gap
        self.hold_below(level, most)
        raw = self._solve(following, share, watch)
        _refuse_unsound(raw)
        if raw.x is None:
            self._apply(replace(self._bounds, row_upper=np.append(self._bounds.row_upper[:-1], np.inf)))
            return None
        value = float(level.cost @ raw.x)
        status = ProofStatus.OPTIMAL if _is_none(value - bound, value) else ProofStatus.WITHIN_GAP
        found = Solved(level, status, Checked.CERTIFICATE, raw.x, value, min(bound, value), seconds, None, most)
        return found, raw if raw.status is Status.OPTIMAL else None

    def _linear_bound(self, level: Level, deadline: Deadline) -> tuple[float, float] | None:
        """A bound of a level that its linear programme proves, and the seconds it took; None without one."""
        self._session.set_integer(np.zeros_like(self._integer))
        raw = self._solve(level, deadline, None)
        self._session.set_integer(self._integer)
        if raw.status is not Status.OPTIMAL or raw.row_dual is None:
            return None
        bound = dual_bound(level.cost, self._rows, self._bounds, raw.row_dual)
        return (bound, raw.seconds) if np.isfinite(bound) else None

    def _shown(self, found: Solved, watch: Watch | None) -> Solved:
        if watch is not None:
            watch(Look(self._formulation, found.level, found.value, found.bound, found.x))
        return found

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
            status = ProofStatus.OPTIMAL if _is_none(open_gap, value) else ProofStatus.WITHIN_GAP
        assert raw.x is not None  # noqa: S101  the caller has looked
        return Solved(level, status, Checked.CLAIM, raw.x, value, raw.bound, raw.seconds)

    def _hold(self, level: Level, raw: RawSolution, slack: float) -> None:
        if slack > 0 or raw.row_dual is None or raw.column_dual is None or raw.x is None:
            assert raw.x is not None  # noqa: S101  the caller has looked
            self.hold_below(level, float(level.cost @ raw.x) + slack)
            return
        bounds = self._bounds
        row_lower, row_upper = _fixed(raw.row_dual, bounds.row_lower, bounds.row_upper)
        reduced = level.cost - self._rows.transposed_times(raw.row_dual)
        column_lower, column_upper = _fixed(reduced, bounds.column_lower, bounds.column_upper)
        self._apply(Bounds(row_lower, row_upper, column_lower, column_upper))

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


def _is_none(gap: float, value: float) -> bool:
    return gap <= VERIFICATION * max(1.0, abs(value))


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
