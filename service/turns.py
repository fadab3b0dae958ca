"""Workers that listen on one socket take turns at its connections.

The kernel wakes all of them, and the first would take whatever came. So one that has taken a connection rests before
it takes the next, the longer the more it has, and who has fewer comes before it.
"""

import asyncio
import logging
import socket
from collections.abc import Callable

#: Seconds of rest for each connection that a worker has, and at most: nobody is to wait long when all have many.
_REST_S, _LONGEST_REST_S = 0.0005, 0.005

#: Seconds until it is tried again when the system has nothing left to take one with, as after too many open files.
_AGAIN_S = 1.0

_log = logging.getLogger("larderline")


async def take_turns(listener: socket.socket, begin: Callable[[], asyncio.Protocol], held: Callable[[], int]) -> None:
    """Take connections until cancelled. begin: makes what speaks on one. held: how many this worker has."""
    loop = asyncio.get_running_loop()
    listener.settimeout(0)  # asyncio waits for it
    while True:
        try:
            connection, _ = await loop.sock_accept(listener)
        except OSError as error:
            _log.error("cannot take a connection: %s", (error.strerror or "").lower())
            await asyncio.sleep(_AGAIN_S)
            continue
        await _begun(connection, begin)
        await asyncio.sleep(min(held() * _REST_S, _LONGEST_REST_S))


async def _begun(connection: socket.socket, begin: Callable[[], asyncio.Protocol]) -> None:
    try:
        await asyncio.get_running_loop().connect_accepted_socket(begin, connection)
    except OSError:  # it is gone already
        connection.close()
