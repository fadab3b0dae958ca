"""How many briefs are solved at once, and how many may wait. Solves run in threads, off the event loop."""

import time
from collections.abc import Callable
from typing import TypeVar

from service.lanes import Busy, Kind, Lane
from service.metrics import Metrics
from service.settings import Settings
from solver.deadline import Deadline

_Result = TypeVar("_Result")


class Capacity:
    """Places for all work that takes a while. A caller waits for a place no longer than its own deadline."""

    def __init__(self, settings: Settings, metrics: Metrics | None = None) -> None:
        self._metrics = metrics or Metrics()
        places = settings.solves_at_once, settings.solves_waiting, settings.slow_solves_at_once
        self._lanes = {kind: Lane(kind, *places) for kind in Kind}
        self._is_closed = False

    @property
    def is_closed(self) -> bool:
        """Whether the service takes no more work, since it is about to end."""
        return self._is_closed

    @property
    def under_way(self) -> int:
        """How many callers have a place or wait for one."""
        return sum(lane.running + lane.waiting for lane in self._lanes.values())

    def lanes(self) -> dict[Kind, Lane]:
        """Each lane by its kind."""
        return dict(self._lanes)

    def close(self) -> None:
        """Take no more work; what was taken goes on."""
        self._is_closed = True

    def refuse_if_full(self, kind: Kind) -> None:
        """Raise Busy when work of this kind would be sent away: before anything is spent on it."""
        if self._is_closed or self._lanes[kind].is_full:
            raise Busy

    async def run(self, work: Callable[[], _Result], deadline: Deadline, kind: Kind = Kind.STEPPED) -> _Result:
        """`work()` in a thread. Raises Busy when too many wait already, or when the deadline comes first.

        kind: of the work; what is not known to be quick goes where slow work goes. A thread cannot be stopped: `work`
        has to keep the deadline by itself.
        """
        self.refuse_if_full(kind)
        self._metrics.add("waiting", kind.value)
        entered = _Entered(self._metrics, kind)
        try:
            return await self._lanes[kind].run(work, deadline, entered.begin)
        finally:
            entered.end()


class _Entered:
    """One piece of work as the counts see it: it waits, it runs, it is done."""

    def __init__(self, metrics: Metrics, kind: Kind) -> None:
        self._metrics, self._kind = metrics, kind
        self._began_s: float | None = None

    def begin(self) -> None:
        """It has a place."""
        self._began_s = time.perf_counter()
        self._metrics.add("waiting", self._kind.value, -1)
        self._metrics.add("running", self._kind.value)

    def end(self) -> None:
        """It is done, or it is no longer waited for."""
        if self._began_s is None:
            self._metrics.add("waiting", self._kind.value, -1)
        else:
            self._metrics.add("running", self._kind.value, -1)
            self._metrics.solve(self._kind, time.perf_counter() - self._began_s)
