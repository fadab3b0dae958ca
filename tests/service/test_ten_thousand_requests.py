"""Ten thousand requests, most of them damaged, to a service that has to answer every one and to forget them all.

Seeded, so that a failure comes again: valid briefs, briefs with one to three fields changed, bytes cut or flipped, and
addresses, methods and headers at random.
"""

import gzip
import http.client
import json
import random
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from copy import deepcopy
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path
from typing import Any
from urllib.parse import quote, urlsplit

import pytest

from service.problem_pages import PAGES
from service.schemas.problem import MEDIA_TYPE
from tests.service.conftest import serving

REQUESTS = 10_000

#: Answered before the memory is first looked at: pools, caches and the solver's own are filled by then.
WARM_UP = 2_000

CLIENTS = 4

#: A request that has not been answered by then hangs, seconds; none should need a tenth of it.
PATIENCE_S = 10

#: What the allocator may keep after 10,000 requests, MB: less than 2 kB a request, so no request can be kept.
GROWTH_MB = 15

ODD: list[Any] = [
    *(None, True, False, 0, -1, 1, 1e308, -1e308, 1e-320, 10**30, float("nan"), float("inf"), 2.5),
    *("", " ", "x" * 300, "1/0 g", "1e9 kg", "½ cup", "250 g", "-3 g", "sr28:00000"),
    *("\ud800", "\x00", "\u202e", "9" * 500),
    *([], {}, [[]], [None], {"": 1}, {"kind": "label"}, {"value": 1, "unit": "g"}, {"value": -1, "unit": ""}),
]

ADDRESSES = ["/healthz", "/readyz", "/openapi.json", "/problems", "/v1/foods", "/v1/plans", "/", "//", "/v1/../healthz"]


@dataclass(frozen=True, slots=True)
class Asked:
    method: str
    address: str
    body: bytes = b""
    headers: dict[str, str] = field(default_factory=dict)


def requests(seed: int, briefs: list[dict[str, Any]]) -> Iterator[Asked]:
    """Without an end."""
    chance = random.Random(seed)  # noqa: S311  chance, not secrecy
    makers = {valid: 3, changed: 45, damaged: 22, a_food: 15, elsewhere: 15}
    while True:
        (make,) = chance.choices(list(makers), list(makers.values()))
        yield make(chance, briefs)


def valid(chance: random.Random, briefs: list[dict[str, Any]]) -> Asked:
    return posted(json.dumps(chance.choice(briefs)).encode())


def changed(chance: random.Random, briefs: list[dict[str, Any]]) -> Asked:
    brief = deepcopy(chance.choice(briefs))
    for _ in range(chance.randint(1, 3)):
        holder, key = chance.choice(list(places(brief)))
        if chance.random() < 0.2:
            del holder[key]
        elif chance.random() < 0.2 and isinstance(holder, dict):
            holder[str(chance.choice(ODD))[:20]] = chance.choice(ODD)
        else:
            holder[key] = chance.choice(ODD)
    return posted(json.dumps(brief).encode())


def places(value: Any) -> Iterator[tuple[Any, Any]]:  # noqa: ANN401  JSON
    """Every holder and key in a document."""
    pairs = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in pairs:
        yield value, key
        yield from places(inner)


def damaged(chance: random.Random, briefs: list[dict[str, Any]]) -> Asked:
    raw = bytearray(json.dumps(chance.choice(briefs)).encode())
    for _ in range(chance.randint(1, 4)):
        start = chance.randrange(len(raw))
        kind = chance.randrange(4)
        if kind == 0:
            raw[start] = chance.randrange(256)
        elif kind == 1:
            del raw[start : start + chance.randrange(1, 40)]
        elif kind == 2:
            raw[start:start] = raw[start : start + 60]
        else:
            raw[start:start] = chance.choice([b"[" * 300, b"9" * 400, b'"\\ud800"', b"\xff", b"NaN", b"e999", b"{}"])
        raw = raw or bytearray(b" ")
    types = ["application/json"] * 8 + ["text/plain", "application/json; charset=utf-16"]
    return posted(bytes(raw), chance.choice(types))


def posted(body: bytes, content_type: str = "application/json") -> Asked:
    return Asked("POST", "/v1/plans", body, {"Content-Type": content_type, "Accept-Encoding": "gzip"})


def a_food(chance: random.Random, _: list[dict[str, Any]]) -> Asked:
    tail = chance.choice([f"sr28:{chance.randrange(100_000):05d}", text(chance), "sr28:01123"])
    asked = {"If-None-Match": chance.choice(["*", '"x"', quote(text(chance))])} if chance.random() < 0.3 else {}
    return Asked("GET", f"/v1/foods/{quote(tail, safe='')}", headers=asked)


def elsewhere(chance: random.Random, _: list[dict[str, Any]]) -> Asked:
    method = chance.choice(["GET"] * 6 + ["POST", "PUT", "DELETE", "OPTIONS", "HEAD", "PATCH", "TRACE"])
    address = chance.choice([*ADDRESSES, f"/problems/{quote(text(chance))}", f"/{quote(text(chance))}"])
    query = chance.choice(["", "", f"?query={quote(text(chance))}", f"?{quote(text(chance))}", "?limit=-1&query=egg"])
    headers = {"X-Request-ID": quote(text(chance)), "Origin": "https://elsewhere.example"}
    return Asked(method, address + query, b"{}" if method in {"POST", "PUT", "PATCH"} else b"", headers)


def text(chance: random.Random) -> str:
    letters = "aeg 20%/\\.:*'\"<>{}\x00\n\u00e9\u202e\U0001f373"
    return "".join(chance.choices(letters, k=chance.randrange(30)))


@dataclass(slots=True)
class Seen:
    """What came back. Statuses, and codes of problems with their counts."""

    statuses: Counter[int] = field(default_factory=Counter)
    codes: Counter[str] = field(default_factory=Counter)


def ask(address: str, asked: Iterator[Asked], times: int) -> Seen:
    """On one connection, opened anew when the service has closed it. Raises TimeoutError when an answer hangs."""
    where, seen = urlsplit(address), Seen()
    with closing(http.client.HTTPConnection(where.hostname or "", where.port, timeout=PATIENCE_S)) as connection:
        for request in islice(asked, times):
            connection.request(request.method, request.address, request.body or None, request.headers)
            answer = connection.getresponse()
            content = answer.read()
            seen.statuses[answer.status] += 1
            assert answer.status < 500, request
            if answer.headers.get_content_type() == MEDIA_TYPE and request.method != "HEAD":
                packed = answer.headers["Content-Encoding"] == "gzip"
                seen.codes.update(problem_codes(gzip.decompress(content) if packed else content))
    return seen


def problem_codes(content: bytes) -> Iterator[str]:
    document = json.loads(content)
    yield document["type"].rpartition("/")[2]
    yield from (problem["code"] for problem in document["problems"])


def from_all_clients(address: str, seed: int, briefs: list[dict[str, Any]], total: int) -> Seen:
    share = total // CLIENTS
    together = Seen()
    with ThreadPoolExecutor(CLIENTS) as pool:
        for seen in pool.map(lambda n: ask(address, requests(seed + n, briefs), share), range(CLIENTS)):
            together.statuses += seen.statuses
            together.codes += seen.codes
    return together


def resident_mb(process_id: int) -> float:
    """proc(5): VmRSS, the memory that the process holds, in kB."""
    status = Path(f"/proc/{process_id}/status").read_text()
    (line,) = [line for line in status.splitlines() if line.startswith("VmRSS:")]
    return int(line.split()[1]) / 1024


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="memory is read from /proc")
def test_none_is_a_fault_none_hangs_and_none_is_kept(examples: Path, tmp_path: Path) -> None:
    briefs = [{**json.loads(path.read_text()), "time_limit_s": 1.0} for path in sorted(examples.glob("*.json"))]
    log = tmp_path / "log"
    with serving(log, solves_at_once=CLIENTS) as (address, process):  # a place for each, so that none is sent away
        from_all_clients(address, 1000, briefs, WARM_UP)
        before_mb = resident_mb(process.pid)
        seen = from_all_clients(address, 2000, briefs, REQUESTS)
        after_mb = resident_mb(process.pid)
        assert process.poll() is None
    assert seen.statuses.total() == REQUESTS
    assert [status for status in seen.statuses if status >= 500] == []
    assert {200, 400, 404, 405, 415, 422} <= seen.statuses.keys(), "the mix reaches every kind of answer"
    assert [code for code in seen.codes if code not in PAGES] == []
    assert len(seen.codes) > 20, "and many kinds of problems"
    assert after_mb - before_mb < GROWTH_MB
    assert '"level": "error"' not in log.read_text()
