"""Clients that say nothing, or little at a time, or never read: each costs one connection for a bounded time."""

import gzip
import socket
import time
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from urllib.parse import urlsplit

import httpx2
import pytest

from tests.service.conftest import serving

HEAD_DEADLINE_S = 0.8

CONNECTION_LIMIT = 60


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, int]]:
    """The address and the process of a service with short deadlines."""
    limits = {
        "head_deadline_s": HEAD_DEADLINE_S,
        "connection_limit": CONNECTION_LIMIT,
        "body_deadline_s": HEAD_DEADLINE_S,
    }
    with serving(tmp_path_factory.mktemp("slow") / "log", **limits) as (address, process):
        yield address, process.pid


def connected(address: str) -> socket.socket:
    where = urlsplit(address)
    return socket.create_connection((where.hostname or "", where.port or 80), timeout=10)


def seconds_until_closed(connection: socket.socket, trickle: bytes = b"") -> float:
    """How long the service keeps it, while one byte after the other is sent."""
    began = time.monotonic()
    connection.settimeout(0.05)
    for byte in trickle or b"\0" * 200:
        try:
            if trickle:
                connection.sendall(bytes([byte]))
            if connection.recv(65_536) == b"":
                break
        except TimeoutError:
            continue
        except ConnectionError:
            break
    return time.monotonic() - began


HEAD = b"GET /healthz HTTP/1.1\r\nHost: x\r\nX-Long: "
POST = b"POST /v1/plans HTTP/1.1\r\nHost: x\r\nContent-Type: %b\r\nContent-Length: 5000\r\n\r\n"


@pytest.mark.parametrize(
    ("first", "trickle"),
    [
        (b"", b""),
        (b"", HEAD + b"x" * 200),
        (HEAD, b"x" * 200),
        (HEAD + b"x\r\n\r\n", b""),
        (HEAD + b"x\r\n\r\n", HEAD + b"x" * 200),
        (POST % b"application/json", b" " * 200),
        (POST % b"text/plain", b" " * 200),  # answered before the body has come
    ],
    ids=["silence", "a head", "the rest of a head", "an answer", "a second head", "a body", "a body that nobody wants"],
)
def test_a_byte_at_a_time_does_not_hold_a_connection(served: tuple[str, int], first: bytes, trickle: bytes) -> None:
    with connected(served[0]) as connection:
        connection.sendall(first)
        held_s = seconds_until_closed(connection, trickle)
    assert held_s < 3 * HEAD_DEADLINE_S + 1


def test_a_client_that_never_reads_is_let_go(served: tuple[str, int]) -> None:
    address, process = served
    before = sockets_of(process)
    with connected(address) as connection:
        connection.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 2048)
        connection.settimeout(0.2)
        for _ in range(40):
            try:
                connection.sendall(b"GET /openapi.json HTTP/1.1\r\nHost: x\r\n\r\n" * 40)
            except OSError:
                break
        until_back_to(process, before)


def test_idle_connections_beyond_the_limit_make_room_and_all_are_closed(served: tuple[str, int]) -> None:
    address, process = served
    before = sockets_of(process)
    with ExitStack() as idle:
        for _ in range(10 * CONNECTION_LIMIT):
            idle.enter_context(connected(address))
        began = time.monotonic()
        assert httpx2.get(f"{address}/healthz", timeout=5).status_code == 200
        assert sockets_of(process) <= before + CONNECTION_LIMIT + 2
        assert time.monotonic() - began < 3
        until_back_to(process, before)


def test_compressed_bombs_are_not_unpacked_and_memory_is_back_where_it_was(served: tuple[str, int]) -> None:
    address, process = served
    bomb = gzip.compress(b" " * 200_000_000)
    headers = {"Content-Type": "application/json", "Content-Encoding": "gzip"}
    with httpx2.Client(base_url=address) as client:
        client.post("/v1/plans", content=bomb[:900_000], headers=headers)
        before_kb = memory_kb(process)
        for _ in range(20):
            assert client.post("/v1/plans", content=bomb[:900_000], headers=headers).status_code == 415
    assert memory_kb(process) < before_kb + 20_000


def sockets_of(process: int) -> int:
    """Linux, proc(5)."""
    return sum(1 for each in Path(f"/proc/{process}/fd").iterdir() if "socket:" in str(_leads(each)))


def _leads(link: Path) -> Path | None:
    try:
        return link.readlink()
    except FileNotFoundError:
        return None


def memory_kb(process: int) -> int:
    status = Path(f"/proc/{process}/status").read_text(encoding="utf-8")
    return int(status.partition("VmRSS:")[2].split()[0])


def until_back_to(process: int, before: int) -> None:
    ends = time.monotonic() + 6 * HEAD_DEADLINE_S + 3
    while sockets_of(process) > before:
        assert time.monotonic() < ends, "connections are left open"
        time.sleep(0.05)
