"""Connections of one socket, and those who listen on it."""

import asyncio
import socket

from service.turns import take_turns

CONNECTIONS = 8


def test_who_has_fewer_takes_more_of_what_comes() -> None:
    many, few = asyncio.run(shared((50, 0)))
    assert many + few == CONNECTIONS
    assert few > many


async def shared(held: tuple[int, int]) -> tuple[int, int]:
    """How many each of two took of connections that came all at once. held: what they had before."""
    with socket.create_server(("127.0.0.1", 0), backlog=CONNECTIONS) as listener, listener.dup() as other:
        callers = [socket.create_connection(listener.getsockname()) for _ in range(CONNECTIONS)]
        taken: tuple[list[asyncio.Protocol], ...] = ([], [])
        each = zip((listener, other), taken, held, strict=True)
        turns = [asyncio.create_task(taking(*one)) for one in each]
        await asyncio.wait(turns, timeout=0.5)
        for turn in turns:
            turn.cancel()
        for caller in callers:
            caller.close()
        await asyncio.sleep(0.05)  # until both know that their callers are gone
    return len(taken[0]), len(taken[1])


async def taking(listener: socket.socket, share: list[asyncio.Protocol], before: int) -> None:
    def begin() -> asyncio.Protocol:
        share.append(asyncio.Protocol())
        return share[-1]

    await take_turns(listener, begin, lambda: before + len(share))
