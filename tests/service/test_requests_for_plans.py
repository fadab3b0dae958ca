"""What a request to the service may look like, whatever its brief says."""

import json
import socket
from urllib.parse import urlsplit

import httpx2
import pytest

from tests.service.asking import Document, refusal


def raw(client: httpx2.Client, body: bytes, content_type: str | None = "application/json") -> httpx2.Response:
    return client.post("/v1/plans", content=body, headers={"content-type": content_type} if content_type else {})


@pytest.mark.parametrize("content_type", [None, "text/plain", "application/xml", "multipart/form-data", "json"])
def test_only_json_is_taken(client: httpx2.Client, salmon: Document, content_type: str | None) -> None:
    refusal(raw(client, json.dumps(salmon).encode(), content_type), 415)


@pytest.mark.parametrize("content_type", ["application/json; charset=utf-8", "Application/JSON", "application/x+json"])
def test_json_is_taken_under_each_of_its_names(client: httpx2.Client, salmon: Document, content_type: str) -> None:
    assert raw(client, json.dumps(salmon).encode(), content_type).status_code == 200


def test_a_body_beyond_the_limit_is_refused(client: httpx2.Client) -> None:
    refusal(raw(client, b" " * 1_000_001), 413)


def test_a_body_of_unstated_length_is_refused_at_the_limit(client: httpx2.Client) -> None:
    chunks = (b" " * 100_000 for _ in range(11))
    refusal(client.post("/v1/plans", content=chunks, headers={"content-type": "application/json"}), 413)


@pytest.mark.parametrize("method", ["GET", "PUT", "PATCH", "DELETE", "OPTIONS"])
def test_other_methods_are_refused_with_the_one_that_is_allowed(client: httpx2.Client, method: str) -> None:
    response = client.request(method, "/v1/plans")
    refusal(response, 405)
    assert response.headers["allow"] == "POST"


@pytest.mark.parametrize("path", ["/v1", "/v1/plans/", "/v1/plan", "/v1/foods/", "/%00", "/v1/foods/a/b"])
def test_unknown_addresses_are_a_problem_too(client: httpx2.Client, path: str) -> None:
    refusal(client.get(path), 404)


HALF_A_REQUEST = (
    b'POST /v1/plans HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{"title":'
)


def connect(server: str) -> socket.socket:
    address = urlsplit(server)
    return socket.create_connection((address.hostname, address.port or 80), timeout=10)


def test_a_client_that_leaves_in_the_middle_disturbs_nobody(client: httpx2.Client, server: str) -> None:
    with connect(server) as connection:
        connection.sendall(HALF_A_REQUEST)
    assert client.get("/healthz").status_code == 200


def test_a_body_that_does_not_come_in_time_is_refused(server: str) -> None:
    with connect(server) as connection:
        connection.sendall(HALF_A_REQUEST)
        assert connection.recv(1000).startswith(b"HTTP/1.1 408 ")
