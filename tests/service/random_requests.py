"""Requests without an end, most of them damaged: of a seed, so that a failure comes again.

Valid briefs and dishes, such with one to three fields changed, bytes cut or flipped, and addresses, methods and headers
at random.
"""

import json
import random
from collections.abc import Iterator
from copy import deepcopy
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import quote

ODD: list[Any] = [
    *(None, True, False, 0, -1, 1, 1e308, -1e308, 1e-320, 10**30, float("nan"), float("inf"), 2.5),
    *("", " ", "x" * 300, "1/0 g", "1e9 kg", "½ cup", "250 g", "-3 g", "sr28:00000"),
    *("\ud800", "\x00", "\u202e", "9" * 500),
    *([], {}, [[]], [None], {"": 1}, {"kind": "label"}, {"value": 1, "unit": "g"}, {"value": -1, "unit": ""}),
]

ADDRESSES = [
    *("/healthz", "/readyz", "/openapi.json", "/problems", "/", "//", "/v1/../healthz"),
    *(f"/v1/work/{'A' * 22}", f"/v1/work/{'A' * 22}/answer"),
    *("/v1/foods", "/v1/plans", "/v1/breakdowns", "/v1/cooking-methods", "/v1/safe-temperatures"),
]


@dataclass(frozen=True, slots=True)
class Asked:
    method: str
    address: str
    body: bytes = b""
    headers: dict[str, str] = field(default_factory=dict)


#: An address, and what may be sent there.
Sent = tuple[str, dict[str, Any]]


def requests(seed: int, documents: list[Sent]) -> Iterator[Asked]:
    """Without an end."""
    chance = random.Random(seed)  # noqa: S311  chance, not secrecy
    makers = {valid: 3, changed: 45, damaged: 22, a_food: 15, elsewhere: 15}
    while True:
        (make,) = chance.choices(list(makers), list(makers.values()))
        yield make(chance, documents)


def valid(chance: random.Random, documents: list[Sent]) -> Asked:
    address, document = chance.choice(documents)
    return posted(address, json.dumps(document).encode())


def changed(chance: random.Random, documents: list[Sent]) -> Asked:
    address, document = deepcopy(chance.choice(documents))
    for _ in range(chance.randint(1, 3)):
        holder, key = chance.choice(list(places(document)))
        odd = deepcopy(chance.choice(ODD))  # or the next change would be made in the list above
        if chance.random() < 0.2:
            del holder[key]
        elif chance.random() < 0.2 and isinstance(holder, dict):
            holder[str(chance.choice(ODD))[:20]] = odd
        else:
            holder[key] = odd
    return posted(address, json.dumps(document).encode())


def places(value: Any) -> Iterator[tuple[Any, Any]]:  # noqa: ANN401  JSON
    """Every holder and key in a document."""
    pairs = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in pairs:
        yield value, key
        yield from places(inner)


def damaged(chance: random.Random, documents: list[Sent]) -> Asked:
    address, document = chance.choice(documents)
    raw = bytearray(json.dumps(document).encode())
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
    return posted(address, bytes(raw), chance.choice(types))


def posted(address: str, body: bytes, content_type: str = "application/json") -> Asked:
    return Asked("POST", address, body, {"Content-Type": content_type, "Accept-Encoding": "gzip"})


def a_food(chance: random.Random, _: list[Sent]) -> Asked:
    tail = chance.choice([f"sr28:{chance.randrange(100_000):05d}", text(chance), "sr28:01123"])
    asked = {"If-None-Match": chance.choice(["*", '"x"', quote(text(chance))])} if chance.random() < 0.3 else {}
    return Asked("GET", f"/v1/foods/{quote(tail, safe='')}", headers=asked)


def elsewhere(chance: random.Random, _: list[Sent]) -> Asked:
    method = chance.choice(["GET"] * 6 + ["POST", "PUT", "DELETE", "OPTIONS", "HEAD", "PATCH", "TRACE"])
    address = chance.choice([*ADDRESSES, f"/problems/{quote(text(chance))}", f"/{quote(text(chance))}"])
    said = quote(text(chance))
    query = chance.choice(["", "", f"?food={said}", f"?query={said}", f"?{said}", "?limit=-1&query=egg"])
    headers = {"X-Request-ID": quote(text(chance)), "Origin": "https://elsewhere.example"}
    return Asked(method, address + query, b"{}" if method in {"POST", "PUT", "PATCH"} else b"", headers)


def text(chance: random.Random) -> str:
    letters = "aeg 20%/\\.:*'\"<>{}\x00\n\u00e9\u202e\U0001f373"
    return "".join(chance.choices(letters, k=chance.randrange(30)))
