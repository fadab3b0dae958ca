"""How many briefs are solved at once, and how many may wait. Solves run in threads, off the event loop."""

from collections.abc import Callable
from contextlib import suppress
from typing import TypeVar

import anyio
import anyio.to_thread

from solver.deadline import Deadline

_Result = TypeVar("_Result")

#: What a client that was sent away is asked to wait, seconds.
RETRY_AFTER_S = 1


class Busy(Exception):  # noqa: N818  a state of the service, not an error in it
    """There is no place now. retry_after_s: when to ask again."""

    retry_after_s = RETRY_AFTER_S


class Capacity:
    """Places for solves. A caller waits for a place no longer than its own deadline."""

    def __init__(self, at_once: int, waiting: int) -> None:
        self._places = anyio.CapacityLimiter(at_once)
        self._threads = anyio.CapacityLimiter(at_once)
        self._waiting = waiting

    async def run(self, work: Callable[[], _Result], deadline: Deadline) -> _Result:
        """`work()` in a thread. Raises Busy when too many wait already, or when the deadline comes first.

        A thread cannot be stopped: `work` has to keep the deadline by itself.
        """
        token = object()
        await self._take_a_place(token, deadline)
        try:
            return await anyio.to_thread.run_sync(work, limiter=self._threads)
        finally:
            self._places.release_on_behalf_of(token)

    async def _take_a_place(self, token: object, deadline: Deadline) -> None:
        """A free place is taken at once, however near the deadline is: the work then says so by itself."""
        with suppress(anyio.WouldBlock):
            self._places.acquire_on_behalf_of_nowait(token)
            return
        if self._is_full():
            raise Busy
        try:
            with anyio.fail_after(deadline.remaining_s()):
                await self._places.acquire_on_behalf_of(token)
        except TimeoutError:
            raise Busy from None

    def _is_full(self) -> bool:
        return self._places.available_tokens < 1 and self._places.statistics().tasks_waiting >= self._waiting
