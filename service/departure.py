"""A client that goes away: nobody waits for its answer any more, so its place goes to others."""

import asyncio
from collections.abc import Awaitable, Callable
from typing import TypeVar

import anyio
from starlette.types import Receive

_Result = TypeVar("_Result")


class ClientLeft(Exception):  # noqa: N818  what happened, and no error
    """The client left before its answer was ready."""


async def unless_the_client_leaves(
    receive: Receive, work: Callable[[], Awaitable[_Result]], stop: Callable[[], None]
) -> _Result:
    """The result of `work`. Raises ClientLeft when the client leaves first.

    receive: of the request, whose body has been read. stop: called then, to end what cannot be cancelled; work that
    waits is cancelled, and work in a thread is waited for, so that its place is not given away before it is free.
    """
    with anyio.CancelScope() as scope:

        async def watch() -> None:
            while (await receive())["type"] != "http.disconnect":
                pass
            stop()
            scope.cancel()

        watcher = asyncio.create_task(watch())
        try:
            return await work()
        finally:
            watcher.cancel()
    raise ClientLeft
