"""What a chain of levels has come to."""

from collections.abc import Sequence
from dataclasses import dataclass

from solver.backends.base import Status
from solver.levels import Level
from solver.numerics import FloatArray
from solver.outcome import Checked, ProofStatus


@dataclass(frozen=True, slots=True, eq=False)
class Solved:
    """One level. x: (columns,), the best point known after it. value = level.cost @ x. bound: None without one.

    row_dual: (rows,), the multipliers that the bound was checked with; None without a certificate, and of a level that
    was not sought by itself. most: of such a level, what it was let come to; None of any other.
    """

    level: Level
    status: ProofStatus
    checked: Checked
    x: FloatArray
    value: float
    bound: float | None
    seconds: float
    row_dual: FloatArray | None = None
    most: float | None = None


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


def unreached(rest: Sequence[Level], solved: Sequence[Solved]) -> list[Solved]:
    """A plan found at an earlier level survives: it counts as the best found of the levels that were not reached."""
    if not solved:
        return []
    x = solved[-1].x
    return [Solved(level, ProofStatus.BEST_FOUND, Checked.CLAIM, x, float(level.cost @ x), None, 0.0) for level in rest]
