"""Following a solve: what a level of a brief has come to so far, for whoever waits for the answer."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from solver.backends.base import Progress
from solver.formulate import Formulation
from solver.levels import Level
from solver.numerics import FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Look:
    """A look at one level while it is sought, or at its end.

    value: `level.cost @ x` of the best point so far; None before the first. bound: no point gives less, as the solver
    claims; None where it has none. x: (columns,), that point; None before the first, and where the solver does not
    show it on its way.
    """

    formulation: Formulation
    level: Level
    value: float | None
    bound: float | None
    x: FloatArray | None


#: Called from the solving thread, often: it has to be quick.
Watch: TypeAlias = Callable[[Look], None]


def looking(watch: Watch, formulation: Formulation, level: Level) -> Callable[[Progress], None]:
    """What a session tells of its progress, told of the level that it solves."""

    def look(progress: Progress) -> None:
        watch(Look(formulation, level, progress.objective, progress.bound, progress.x))

    return look
