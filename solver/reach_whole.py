"""All that is asked of a pantry at once, under one deadline."""

import time
from collections.abc import Sequence
from dataclasses import dataclass

from solver.backends.base import Backend
from solver.brief import Brief
from solver.deadline import Deadline
from solver.reach import Pantry, reachable
from solver.reach_frontier import frontier_of
from solver.reach_outcome import Frontier, Range
from solver.targets import Target

#: Part of the time that the ranges may take where a frontier is asked for as well.
RANGES_SHARE = 0.5


@dataclass(frozen=True, slots=True)
class Reached:
    """What was found, by which solver, and in how many seconds. frontier: None where none was asked for."""

    ranges: tuple[Range, ...]
    frontier: Frontier | None
    solver: str
    solver_version: str
    seconds: float


def reach(
    brief: Brief,
    targets: Sequence[Target],
    frontier: tuple[Target, Target] | None,
    backend: Backend,
    deadline: Deadline,
) -> Reached:
    """The range of each target, and the frontier of two. The brief must be usable (see `usable`)."""
    began = time.perf_counter()
    ranges = reachable(brief, backend, deadline if frontier is None else deadline.share(RANGES_SHARE), targets)
    held = None if frontier is None else frontier_of(Pantry(brief, backend, deadline), *frontier)
    return Reached(ranges, held, backend.name, backend.version, time.perf_counter() - began)
