"""A load on a server: each connection sends the next request when its answer is there, or when it is due."""

import asyncio
import time
from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import urlsplit


@dataclass(frozen=True, slots=True)
class Load:
    """rate: requests a second of all connections; None for as many as are answered."""

    address: str
    path: str
    bodies: Sequence[bytes]
    seconds: float
    rate: float | None = None
    connections: int = 8

    def run(self) -> list[float]:
        """Seconds that each answer took; with a rate, from when it was due."""
        return asyncio.run(self._run())

    async def _run(self) -> list[float]:
        ends = time.perf_counter() + self.seconds
        clients = (self._client(number, ends) for number in range(self.connections))
        return [taken for each in await asyncio.gather(*clients) for taken in each]

    async def _client(self, number: int, ends: float) -> list[float]:
        at = urlsplit(self.address)
        reader, writer = await asyncio.open_connection(at.hostname, at.port)
        pace = 0.0 if self.rate is None else self.connections / self.rate
        taken: list[float] = []
        due = time.perf_counter() + pace * number / self.connections
        while time.perf_counter() < ends:
            await asyncio.sleep(max(0.0, due - time.perf_counter()))
            began = due if pace else time.perf_counter()
            writer.write(_request(self.path, self.bodies[(number + self.connections * len(taken)) % len(self.bodies)]))
            await _answered(reader)
            taken.append(time.perf_counter() - began)
            due += pace
        writer.close()
        return taken


def _request(path: str, body: bytes) -> bytes:
    kind = f"Content-Type: application/json\r\nContent-Length: {len(body)}"
    return f"POST {path} HTTP/1.1\r\nHost: bench\r\n{kind}\r\n\r\n".encode() + body


async def _answered(reader: asyncio.StreamReader) -> None:
    head = await reader.readuntil(b"\r\n\r\n")
    if b" 200 " not in head.partition(b"\r\n")[0]:
        raise OSError(head.decode())
    length = int(head.lower().partition(b"content-length:")[2].partition(b"\r\n")[0])
    await reader.readexactly(length)
