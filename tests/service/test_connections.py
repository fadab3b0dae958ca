"""One connection, by its own: an answer that nobody reads is bounded as a head is."""

import asyncio

import uvicorn
from starlette.types import Receive, Scope, Send
from uvicorn.server import ServerState

from service.connections import bounded_connection
from service.settings import Settings


class Transport(asyncio.Transport):
    """To a client that is there, and that is all."""

    def __init__(self) -> None:
        super().__init__()
        self.gone = asyncio.Event()

    def write(self, data: bytes | bytearray | memoryview) -> None:
        """Nobody reads it."""

    def close(self) -> None:
        """Only once it is lost."""

    def resume_reading(self) -> None:
        """It never stops."""

    def abort(self) -> None:
        self.gone.set()

    def is_closing(self) -> bool:
        return self.gone.is_set()


async def answer_nothing(_: Scope, __: Receive, ___: Send) -> None:
    await asyncio.sleep(3600)


def test_a_client_that_does_not_read_its_answer_has_as_long_as_for_a_head() -> None:
    async def scenario() -> bool:
        config = uvicorn.Config(answer_nothing, log_config=None)
        config.load()
        connection = bounded_connection(Settings(head_deadline_s=0.05))(config, ServerState(), {})
        transport = Transport()
        connection.connection_made(transport)
        connection.data_received(b"GET / HTTP/1.1\r\nHost: x\r\n\r\n")
        await asyncio.sleep(0.2)
        was_gone = transport.gone.is_set()
        connection.pause_writing()
        try:
            await asyncio.wait_for(transport.gone.wait(), 5)
        finally:
            connection.connection_lost(None)
        return was_gone

    assert not asyncio.run(scenario()), "who waits for an answer is not let go for that"
