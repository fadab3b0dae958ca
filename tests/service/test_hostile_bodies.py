"""Bytes that no honest client sends, and what the fuzzer does not make: each is a 4xx problem, and none is echoed."""

import json
from concurrent.futures import ThreadPoolExecutor

import httpx2
import pytest

from tests.service.hostile import HUGE, MARK, nested, problem

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


@pytest.mark.parametrize("address", ["/v1/plans", "/v1/breakdowns"])
@pytest.mark.parametrize(("body", "status", "code"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_it_is_refused_and_not_repeated(
    client: httpx2.Client, address: str, body: bytes, status: int, code: str
) -> None:
    response = client.post(address, content=body, headers={"Content-Type": "application/json"})
    document = problem(response, status)
    if code and not (b"time_limit_s" in body and address == "/v1/breakdowns"):  # which knows no such field
        assert code in [each["code"] for each in document["problems"]]
    values = json.dumps({**document, "problems": [{**each, "pointer": ""} for each in document["problems"]]})
    assert MARK not in values, "a pointer names a place and so a name; nothing else may be repeated"
    assert "9999" not in values


def test_what_is_refused_for_its_size_holds_up_nobody(server: str) -> None:
    """On the slowest bodies known: a megabyte of empty items, of lists, of names."""
    bodies = [case[1] for case in CASES if case[0] in {"200,000 lists side by side", "60,000 names"}]
    bodies.append(b'{"pantry":[' + b",".join([b"{}"] * 330_000) + b"]}")
    headers = {"Content-Type": "application/json"}
    with ThreadPoolExecutor(1) as pool, httpx2.Client(base_url=server) as client:
        for body in bodies:
            refused = pool.submit(httpx2.post, f"{server}/v1/plans", content=body, headers=headers, timeout=20)
            while not refused.done():
                assert client.get("/healthz").status_code == 200
            told = [each["code"] for each in problem(refused.result(), 422)["problems"]]
            assert told == ["too_many"], "it is refused once, and not value by value"
