"""Ids of requests (W3C Trace Context where a caller sends one), and the one line that each leaves in the log."""

import asyncio
import logging
import re

import httpx2
import pytest
from starlette.datastructures import Headers
from starlette.types import Message, Receive, Scope, Send

from service.request_log import RequestLog, request_id_of

# W3C Trace Context, Recommendation of 2021, section 3.2.4: the example of a valid traceparent.
TRACEPARENT = "00-4bf92f3577b34da6a3ce929d0e0e4736-00f067aa0ba902b7-01"


@pytest.mark.parametrize("given", ["a", "kitchen-7_b.2", "x" * 100])
def test_the_id_of_a_caller_is_returned(client: httpx2.Client, given: str) -> None:
    response = client.get("/healthz", headers={"X-Request-ID": given})
    assert response.headers["x-request-id"] == given


@pytest.mark.parametrize("given", ["", "x" * 101, "a b", "<b>", "a\tb", '{"x":1}'])
def test_an_id_that_is_not_safe_to_repeat_is_replaced(client: httpx2.Client, given: str) -> None:
    response = client.get("/healthz", headers={"X-Request-ID": given})
    assert re.fullmatch(r"[0-9a-f]{32}", response.headers["x-request-id"])


def test_the_trace_id_of_a_caller_is_returned() -> None:
    assert request_id_of(Headers({"traceparent": TRACEPARENT})) == "4bf92f3577b34da6a3ce929d0e0e4736"
    assert request_id_of(Headers({"traceparent": TRACEPARENT, "x-request-id": "mine"})) == "mine"


# The same, section 3.2.2.3: a trace id of zeros alone is invalid.
@pytest.mark.parametrize("given", [TRACEPARENT.upper(), TRACEPARENT[:-1], f"00-{'0' * 32}-00f067aa0ba902b7-01"])
def test_a_trace_that_is_not_valid_is_passed_over(given: str) -> None:
    assert request_id_of(Headers({"traceparent": given})) not in given


def test_two_requests_have_two_ids(client: httpx2.Client) -> None:
    assert len({client.get("/healthz").headers["x-request-id"] for _ in range(3)}) == 3


def test_refusals_carry_the_id_too(client: httpx2.Client) -> None:
    for path in ("/nowhere", "/v1/plans"):
        assert client.get(path, headers={"X-Request-ID": "r-1"}).headers["x-request-id"] == "r-1"


SCOPE: Scope = {"type": "http", "method": "GET", "path": "/secret", "headers": []}


def run(app: RequestLog, scope: Scope) -> list[Message]:
    sent: list[Message] = []

    async def receive() -> Message:
        return {"type": "http.disconnect"}

    async def send(message: Message) -> None:
        sent.append(message)

    asyncio.run(app(scope, receive, send))
    return sent


def failing(*, after: int) -> RequestLog:
    """An application that fails after so many messages of its answer."""
    messages: list[Message] = [
        {"type": "http.response.start", "status": 500, "headers": []},
        {"type": "http.response.body", "body": b"the fault is ours"},
    ]

    async def app(_: Scope, __: Receive, send: Send) -> None:
        for message in messages[:after]:
            await send(message)
        raise ValueError("secret")

    return RequestLog(app)


def test_a_fault_that_was_answered_goes_no_further(caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.INFO, "larderline.requests"):
        sent = run(failing(after=2), dict(SCOPE))
    assert [message["type"] for message in sent] == ["http.response.start", "http.response.body"]
    (line,) = [vars(record) for record in caplog.records if record.name == "larderline.requests"]
    assert (line["status"], line["size_bytes"], line["method"], line["route"]) == (500, 17, "GET", None)
    assert "secret" not in str(line)


def test_a_fault_without_a_whole_answer_ends_the_connection() -> None:
    with pytest.raises(ValueError, match="secret"):
        run(failing(after=1), dict(SCOPE))


def test_what_is_no_request_passes() -> None:
    with pytest.raises(ValueError, match="secret"):
        run(failing(after=0), {"type": "lifespan"})
