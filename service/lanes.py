"""Lanes: briefs that may take long wait apart from those that hardly do, so that none starves the others.

A lane has places, a bounded queue and threads of its own. The kernel shares the cores among the threads; those of the
stepped lane run at a lower priority. What a lane's solve turns out to be is not known at its door, so a solve that has
gone on for a while moves to a place for slow ones, where there is one, and its own place goes to the next.
"""

import asyncio
import os
import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from enum import Enum
from functools import partial
from typing import TypeVar

import anyio

from solver.deadline import Deadline

_Result = TypeVar("_Result")

#: Seconds after which a solve is a slow one.
SLOW_AFTER_S = 0.5

#: How much the threads of the stepped lane give way to others (nice values, POSIX getpriority).
_NICENESS = 5


class Kind(Enum):
    """Which lane some work belongs to."""

    LINEAR = "linear"
    """A linear programme, or arithmetic: soon done, unless its optimum cannot be printed but by whole numbers."""
    STEPPED = "stepped"
    """Whole numbers, or many solves in one: may go on to its time limit."""


class Busy(Exception):  # noqa: N818  a state of the service, not an error in it
    """There is no place now. retry_after_s: when to ask again."""

    retry_after_s = 1


class Lane:
    """Places for one kind of work. slow: how many more solves may go on beside those in the lane's own places."""

    def __init__(self, kind: Kind, at_once: int, waiting: int, slow: int = 0) -> None:
        self._places = anyio.CapacityLimiter(at_once)
        self._slow = anyio.CapacityLimiter(slow) if slow else None
        self._waiting = waiting
        self._threads = ThreadPoolExecutor(
            at_once + slow, kind.value, partial(_give_way, _NICENESS if kind is Kind.STEPPED else 0)
        )

    @property
    def running(self) -> int:
        """How many solves are under way."""
        slow = self._slow.borrowed_tokens if self._slow else 0
        return int(self._places.borrowed_tokens + slow)

    @property
    def waiting(self) -> int:
        """How many wait for a place."""
        return self._places.statistics().tasks_waiting

    @property
    def is_full(self) -> bool:
        """Whether one more would be sent away."""
        return self._places.available_tokens < 1 and self.waiting >= self._waiting

    async def run(self, work: Callable[[], _Result], deadline: Deadline, begins: Callable[[], None]) -> _Result:
        """`work()` in a thread of the lane. Raises Busy when too many wait, or when the deadline comes first.

        begins: called when there is a place.
        """
        token = object()
        await self._take_a_place(token, deadline)
        place = _Place(token, self._places, self._slow)
        begins()
        try:
            return await _in_thread(self._threads, work)
        finally:
            place.leave()

    async def _take_a_place(self, token: object, deadline: Deadline) -> None:
        """A free place is taken at once, however near the deadline is: the work then says so by itself."""
        with suppress(anyio.WouldBlock):
            self._places.acquire_on_behalf_of_nowait(token)
            return
        if self.is_full:
            raise Busy
        try:
            with anyio.fail_after(deadline.remaining_s()):
                await self._places.acquire_on_behalf_of(token)
        except TimeoutError:
            raise Busy from None


class _Place:
    """A place that is held; after a while it is changed for a slow one as soon as one is free."""

    def __init__(self, token: object, places: anyio.CapacityLimiter, slow: anyio.CapacityLimiter | None) -> None:
        self._token, self._held, self._slow = token, places, slow
        self._timer: asyncio.TimerHandle | None = None
        if slow is not None:
            self._look_again(slow)

    def _look_again(self, slow: anyio.CapacityLimiter) -> None:
        self._timer = asyncio.get_running_loop().call_later(SLOW_AFTER_S, self._move, slow)

    def _move(self, slow: anyio.CapacityLimiter) -> None:
        try:
            slow.acquire_on_behalf_of_nowait(self._token)
        except anyio.WouldBlock:
            self._look_again(slow)
            return
        self._held.release_on_behalf_of(self._token)
        self._held = slow

    def leave(self) -> None:
        """Give it to the next."""
        if self._timer is not None:
            self._timer.cancel()
        self._held.release_on_behalf_of(self._token)


async def _in_thread(threads: ThreadPoolExecutor, work: Callable[[], _Result]) -> _Result:
    """A thread cannot be stopped, so who leaves waits for it, and its place is not given away before it is free."""
    done = asyncio.get_running_loop().run_in_executor(threads, work)
    with anyio.CancelScope(shield=True):
        await asyncio.wait([done])
    return done.result()


def _give_way(niceness: int) -> None:
    """Lower the priority of the calling thread; elsewhere than on Linux it would be the whole process."""
    if niceness and sys.platform == "linux":
        os.setpriority(os.PRIO_PROCESS, 0, niceness)
