"""Limits of what is taken in, and what no sound request is: each is a 4xx problem that names its limit."""

import gzip
import json
from collections.abc import Iterator

import httpx2
import pytest

from service.settings import Settings
from tests.service.hostile import HUGE, MARK, Document, answer_to, nested, problem


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
