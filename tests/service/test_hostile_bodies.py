"""Bytes that no honest client sends, and what the fuzzer does not make: each is a 4xx problem, and none is echoed."""

import gzip
import json
import socket
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any
from urllib.parse import urlsplit

import httpx2
import pytest

from service.problem_pages import PAGES
from service.settings import Settings

Document = dict[str, Any]

#: Stands in every body, and may stand in no answer.
MARK = "qqmarkqq"

HUGE = b"9" * 5000


def nested(levels: int, opening: bytes = b"[", closing: bytes = b"]") -> bytes:
    return opening * levels + b'"' + MARK.encode() + b'"' + closing * levels


#: What is wrong, the bytes, and the status and code that they are refused with.
CASES: list[tuple[str, bytes, int, str]] = [
    ("nothing", b"", 400, "empty_body"),
    ("white space", b" \t\r\n", 400, "empty_body"),
    ("5 MB of nothing", b" " * 5_000_000, 413, ""),
    ("5 MB of a title", b'{"title": "' + MARK.encode() * 625_000 + b'"}', 413, ""),
    ("200 lists", nested(200), 400, "too_deep"),
    ("200 objects", nested(200, b'{"a":', b"}"), 400, "too_deep"),
    ("200 lists in a brief", b'{"pantry":' + nested(200) + b"}", 400, "too_deep"),
    ("100,000 lists", nested(100_000), 400, "too_deep"),
    ("lists without an end", b"[" * 400_000, 400, "too_deep"),
    ("a name twice", b'{"title": "' + MARK.encode() + b'", "title": "x"}', 422, "duplicate_name"),
    ("a name twice, inside", b'{"pantry": [{"name": "a", "name": "b"}]}', 422, "duplicate_name"),
    ("the first half of a pair", b'{"title": "qqmarkqq\\ud83c"}', 422, "not_text"),
    ("the second half of a pair", b'{"title": "\\udf73"}', 422, "not_text"),
    ("half a pair in a name", b'{"\\ud83c": 1}', 422, "unusable_name"),
    ("half a pair in bytes", b'{"title": "\xed\xa0\xbc"}', 400, "not_utf_8"),
    ("UTF-16", '{"title": "qqmarkqq"}'.encode("utf-16"), 400, "not_utf_8"),
    ("Latin-1", '{"title": "qqmarkqq\xe9"}'.encode("latin-1"), 400, "not_utf_8"),
    ("NUL", b"\x00", 400, "malformed_json"),
    ("an escaped NUL", b'{"title": "qqmarkqq\\u0000"}', 422, "missing_field"),
    ("5,000 digits", b'{"portions": ' + HUGE + b"}", 422, "wrong_type"),
    ("5,000 digits below zero", b'{"time_limit_s": -' + HUGE + b"}", 422, "not_finite"),
    ("5,000 digits after the point", b'{"time_limit_s": 0.' + HUGE + b"}", 422, "missing_field"),
    ("5,000 digits of an exponent", b'{"time_limit_s": 1e' + HUGE + b"}", 422, "not_finite"),
    ("1e308", b'{"time_limit_s": 1e308}', 422, "out_of_range"),
    ("1e999", b'{"time_limit_s": 1e999}', 422, "not_finite"),
    ("NaN", b'{"time_limit_s": NaN}', 422, "not_finite"),
    ("infinity", b'{"time_limit_s": Infinity}', 422, "not_finite"),
    ("minus infinity", b'{"time_limit_s": -Infinity}', 422, "not_finite"),
    ("true for a number", b'{"time_limit_s": true}', 422, "wrong_type"),
    ("null", b"null", 422, "wrong_type"),
    ("a list", b"[]", 422, "wrong_type"),
    ("a text", b'"qqmarkqq"', 422, "wrong_type"),
    ("a number of 5,000 digits", HUGE, 422, "wrong_type"),
    ("a name of 5,000 letters", b'{"' + b"n" * 5000 + b'": 1}', 422, "unusable_name"),
    ("a comment", b'{"title": "x" /* qqmarkqq */}', 400, "malformed_json"),
    ("two documents", b'{"title": "x"}{"title": "qqmarkqq"}', 400, "malformed_json"),
    ("a form", b"title=qqmarkqq", 400, "malformed_json"),
    ("markup", b"<brief>qqmarkqq</brief>", 400, "malformed_json"),
    ("an unknown name", b'{"qqmarkqq": 1}', 422, "unknown_field"),
    ("60,000 names", b"{" + b",".join(b'"k%d":1' % n for n in range(60_000)) + b"}", 422, "too_many"),
    ("19,000 names", b"{" + b",".join(b'"k%d":1' % n for n in range(19_000)) + b"}", 422, "unknown_field"),
    ("19,000 items of nothing", b'{"pantry":[' + b",".join([b"{}"] * 19_000) + b"]}", 422, "missing_field"),
    ("200,000 lists side by side", b"[" + b",".join([b"[]"] * 200_000) + b"]", 422, "too_many"),
]


@pytest.mark.parametrize(("body", "status", "code"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_it_is_refused_and_not_repeated(client: httpx2.Client, body: bytes, status: int, code: str) -> None:
    response = client.post("/v1/plans", content=body, headers={"Content-Type": "application/json"})
    document = problem(response, status)
    if code:
        assert code in [each["code"] for each in document["problems"]]
    values = json.dumps({**document, "problems": [{**each, "pointer": ""} for each in document["problems"]]})
    assert MARK not in values, "a pointer names a place and so a name; nothing else may be repeated"
    assert "9999" not in values


def problem(response: httpx2.Response, status: int) -> Document:
    assert response.status_code == status, response.text
    assert response.headers["content-type"] == "application/problem+json"
    document: Document = response.json()
    assert document["status"] == status
    assert len(document["problems"]) <= 100
    codes = [document["type"].rpartition("/")[2], *(each["code"] for each in document["problems"])]
    assert [code for code in codes if code not in PAGES] == []
    return document


def test_what_is_refused_for_its_size_holds_up_nobody(server: str) -> None:
    """On the slowest bodies known: a megabyte of empty items, of lists, of names."""
    bodies = [case[1] for case in CASES if case[0] in {"200,000 lists side by side", "60,000 names"}]
    bodies.append(b'{"pantry":[' + b",".join([b"{}"] * 330_000) + b"]}")
    headers = {"Content-Type": "application/json"}
    with ThreadPoolExecutor(1) as pool, httpx2.Client(base_url=server) as client:
        for body in bodies:
            refused = pool.submit(httpx2.post, f"{server}/v1/plans", content=body, headers=headers, timeout=20)
            while not refused.done():
                began = time.monotonic()
                assert client.get("/healthz").status_code == 200
                assert time.monotonic() - began < 1
            problem(refused.result(), 422)


def with_item(salmon: Document, **changes: object) -> Document:
    return {**salmon, "pantry": [{**salmon["pantry"][0], **changes}, *salmon["pantry"][1:]]}


@pytest.mark.parametrize("value", [1e308, -1e308, -0.001, 10**400])
@pytest.mark.parametrize("field", ["on_hand", "at_least", "at_most", "step", "least_when_used"])
def test_an_amount_beyond_all_food_is_refused_or_planned_with(
    client: httpx2.Client, salmon: Document, field: str, value: float
) -> None:
    brief = with_item(salmon, **{field: {"value": value, "unit": "kg"}})
    response = client.post("/v1/plans", json=brief)
    if response.status_code == 200:
        assert field in {"on_hand", "at_most"}, "more than anybody needs is no limit"
    else:
        assert [each["pointer"].split("/")[3] for each in problem(response, 422)["problems"]] == [field]


@pytest.mark.parametrize(
    ("field", "refused_at"),
    [
        ("at_least", None),
        ("least_when_used", None),
        ("on_hand", "/pantry/0/at_least"),  # 120 g are asked for
        ("at_most", "/pantry/0/at_least"),
        ("step", "/pantry/0/step"),  # nothing can be counted in it
    ],
)
def test_an_amount_too_small_for_any_scale_is_no_fault(
    client: httpx2.Client, salmon: Document, field: str, refused_at: str | None
) -> None:
    response = client.post("/v1/plans", json=with_item(salmon, **{field: {"value": 5e-324, "unit": "kg"}}))
    if refused_at is None:
        assert response.status_code == 200, response.text
    else:
        assert [each["pointer"] for each in problem(response, 422)["problems"]] == [refused_at]


@pytest.mark.parametrize("digits", ["9" * 90, "9" * 5000, "1e308", "1/" + "9" * 80, "0x10", "٣", "1_000"])
def test_an_amount_in_words_beyond_all_food_is_refused_or_planned_with(
    client: httpx2.Client, salmon: Document, digits: str
) -> None:
    response = client.post("/v1/plans", json=with_item(salmon, at_least=f"{digits} g"))
    if response.status_code != 200:
        assert "9999" not in json.dumps(problem(response, 422))


@pytest.mark.parametrize("value", [1e308, 1e7 + 1, -1.0])
@pytest.mark.parametrize("field", ["aim", "at_least", "at_most"])
def test_a_band_beyond_all_food_is_refused(client: httpx2.Client, salmon: Document, field: str, value: float) -> None:
    brief = {**salmon, "targets": [{"of": "energy_kcal", field: value}]}
    assert problem(client.post("/v1/plans", json=brief), 422)["problems"][0]["pointer"] == f"/targets/0/{field}"


def test_more_items_and_targets_than_the_limit_name_the_setting(client: httpx2.Client, salmon: Document) -> None:
    limits = Settings()
    items = [{**salmon["pantry"][0], "name": f"{MARK}{n}"} for n in range(limits.pantry_limit + 1)]
    targets = [{**salmon["targets"][0], "id": f"{MARK}{n}"} for n in range(limits.target_limit + 1)]
    document = problem(client.post("/v1/plans", json={**salmon, "pantry": items, "targets": targets}), 422)
    found = {each["pointer"]: each for each in document["problems"]}
    assert {pointer: each["code"] for pointer, each in found.items()} == {"/pantry": "too_many", "/targets": "too_many"}
    assert "LARDERLINE_PANTRY_LIMIT" in found["/pantry"]["detail"]
    assert "LARDERLINE_TARGET_LIMIT" in found["/targets"]["detail"]


def test_each_limit_of_the_body_names_its_setting(client: httpx2.Client, server: str, salmon: Document) -> None:
    json_header = {"Content-Type": "application/json"}
    large = problem(client.post("/v1/plans", content=b" " * 1_000_001, headers=json_header), 413)
    deep = problem(client.post("/v1/plans", content=nested(33), headers=json_header), 400)
    long = problem(client.post("/v1/plans", json={**salmon, "time_limit_s": 31}), 422)
    slow = answer_to(
        server, b"POST /v1/plans HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 9\r\n\r\n{"
    )
    assert "LARDERLINE_BODY_LIMIT_BYTES" in large["detail"]
    assert "LARDERLINE_DEPTH_LIMIT" in deep["detail"]
    assert "LARDERLINE_TIME_LIMIT_CEILING_S" in long["detail"]
    assert b"LARDERLINE_BODY_DEADLINE_S" in slow


@pytest.mark.parametrize(
    "content_type",
    [
        "application/json; charset=utf-16",
        "application/json; charset=iso-8859-1",
        'application/json; charset="shift_jis"',
        "application/jsonp",
        "text/json",
        "application/x-www-form-urlencoded",
        f"application/{MARK}",
        ";",
        "application/json, text/html",
        "x" * 5000,
    ],
)
def test_another_type_or_character_set_is_refused(client: httpx2.Client, salmon: Document, content_type: str) -> None:
    body = json.dumps(salmon).encode()
    response = client.post("/v1/plans", content=body, headers={"Content-Type": content_type})
    assert MARK not in json.dumps(problem(response, 415))


def test_a_charset_that_is_utf_8_by_any_of_its_names_is_taken(client: httpx2.Client, salmon: Document) -> None:
    for charset in ("utf-8", "UTF-8", '"utf-8"', "utf8", "us-ascii"):
        headers = {"Content-Type": f"application/json;charset={charset}"}
        assert client.post("/v1/plans", content=json.dumps(salmon).encode(), headers=headers).status_code == 200


@pytest.mark.parametrize("coding", ["gzip", "br", "deflate, gzip", MARK])
def test_a_compressed_body_is_refused(client: httpx2.Client, salmon: Document, coding: str) -> None:
    headers = {"Content-Type": "application/json", "Content-Encoding": coding}
    response = client.post("/v1/plans", content=gzip.compress(json.dumps(salmon).encode()), headers=headers)
    assert MARK not in json.dumps(problem(response, 415))
    assert response.headers["accept-encoding"] == "identity"


def raw_requests() -> Iterator[tuple[str, bytes]]:
    """Requests that a client library would not let through."""
    head = b"POST /v1/plans HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\n"
    yield "no HTTP", b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n"
    yield "no version", b"GET /healthz\r\n\r\n"
    yield "a length that is no number", head + b"Content-Length: ten\r\n\r\n{}"
    yield "a length below zero", head + b"Content-Length: -1\r\n\r\n{}"
    yield "two lengths", head + b"Content-Length: 2\r\nContent-Length: 3\r\n\r\n{}"
    yield "a length of 5,000 digits", head + b"Content-Length: " + HUGE + b"\r\n\r\n{}"
    yield "a chunk that is no number", head + b"Transfer-Encoding: chunked\r\n\r\nzz\r\n{}\r\n0\r\n\r\n"
    yield "a header without a colon", b"GET /healthz HTTP/1.1\r\nHost x\r\n\r\n"
    yield "100 kB of address", b"GET /" + b"x" * 100_000 + b" HTTP/1.1\r\nHost: x\r\n\r\n"


@pytest.mark.parametrize(
    "request_bytes", [case[1] for case in raw_requests()], ids=[case[0] for case in raw_requests()]
)
def test_what_is_no_sound_http_is_a_4xx(client: httpx2.Client, server: str, request_bytes: bytes) -> None:
    answer = answer_to(server, request_bytes)
    assert answer.startswith(b"HTTP/1.1 4"), answer[:200]
    assert b"Traceback" not in answer
    assert client.get("/healthz").status_code == 200


def answer_to(server: str, request_bytes: bytes) -> bytes:
    """Everything that comes back until the answer's end."""
    address = urlsplit(server)
    with socket.create_connection((address.hostname or "", address.port or 80), timeout=5) as connection:
        connection.sendall(request_bytes)
        answer = b""
        while chunk := connection.recv(10_000):
            answer += chunk
            head, end, body = answer.partition(b"\r\n\r\n")
            length = head.lower().partition(b"content-length: ")[2].partition(b"\r\n")[0]
            if end and length and len(body) >= int(length):
                break
    return answer
