"""What one connection may cost: a bound on the time to its next request, on unread answers, and on how many there are.

The server under us closes a connection that is idle after an answer, and no other. A client that opens one and says
nothing, or a byte now and then, or that never reads, would hold it for ever.
"""

import asyncio
from collections.abc import Callable, Iterable
from typing import Any, ClassVar

from uvicorn.protocols.http.h11_impl import H11Protocol

from service.settings import Settings


class BoundedConnection(H11Protocol):
    """The server's kind of connection, within limits."""

    limits: ClassVar[Settings]
    waits_since: float | None = None
    _late: asyncio.TimerHandle | None = None
    _unread: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """See asyncio.Protocol; one connection too many takes the place of the most idle."""
        super().connection_made(transport)
        self._wait_for_a_head()
        if len(self.connections) > self.limits.connection_limit:
            idle = _longest_idle(self.connections)
            self.connections.discard(idle)  # at once: many may come before it is told that it is lost
            idle.transport.abort()

    def connection_lost(self, exc: Exception | None) -> None:
        """See asyncio.Protocol."""
        self._stop_waiting()
        _cancel(self._unread)
        super().connection_lost(exc)

    def handle_events(self) -> None:
        """What came is read; with a whole head in it the wait is over."""
        super().handle_events()
        if self.cycle is not None and not self.cycle.response_complete:
            self._stop_waiting()

    def on_response_complete(self) -> None:
        """The wait for the next head begins."""
        self._wait_for_a_head()  # before what follows, which may find the next request in what came already
        super().on_response_complete()

    def pause_writing(self) -> None:
        """See asyncio.Protocol; the client does not read, and has as long for that as for a head."""
        super().pause_writing()
        self._unread = self._in_time_or(self.transport.abort)

    def resume_writing(self) -> None:
        """See asyncio.Protocol."""
        super().resume_writing()
        _cancel(self._unread)

    def _wait_for_a_head(self) -> None:
        self.waits_since = self.loop.time()
        _cancel(self._late)
        self._late = self._in_time_or(self._give_up)

    def _stop_waiting(self) -> None:
        self.waits_since = None
        _cancel(self._late)

    def _in_time_or(self, end: Callable[[], None]) -> asyncio.TimerHandle:
        return self.loop.call_later(self.limits.head_deadline_s, end)

    def _give_up(self) -> None:
        """What waits to be sent is thrown away: nobody reads it."""
        if self.transport.get_write_buffer_size() > 0:
            self.transport.abort()
        else:
            self.transport.close()


def bounded_connection(settings: Settings) -> type[BoundedConnection]:
    """The kind of connection whose limits are those of `settings`."""
    return type("Connection", (BoundedConnection,), {"limits": settings})


def _longest_idle(connections: Iterable[Any]) -> Any:  # noqa: ANN401  the server's set may hold any kind; ours are in it
    """The one that has said nothing for longest; one that is answered only when all are."""
    return min(connections, key=lambda each: each.waits_since or float("inf"))


def _cancel(timer: asyncio.TimerHandle | None) -> None:
    if timer is not None:
        timer.cancel()
