"""What every answer carries, compression, and browsers of other origins."""

from collections.abc import Iterator

import httpx2
import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.settings import Settings
from solver.catalogue import Catalogue

ORIGIN = "https://kitchen.example"


def answers(client: httpx2.Client, salmon: dict[str, object]) -> Iterator[httpx2.Response]:
    for path in ("/healthz", "/v1/foods/sr28:01123", "/nowhere", "/openapi.json", "/problems"):
        yield client.get(path)
    yield client.put("/v1/plans")
    yield client.post("/v1/plans", content=b"{", headers={"Content-Type": "application/json"})
    yield client.post("/v1/plans", json=salmon)


def test_no_answer_is_sniffed_framed_or_told_elsewhere(client: httpx2.Client, salmon: dict[str, object]) -> None:
    for response in answers(client, salmon):
        assert response.headers["x-content-type-options"] == "nosniff"
        assert response.headers["referrer-policy"] == "no-referrer"
        assert response.headers["cross-origin-resource-policy"] == "same-origin"
        assert response.headers["cross-origin-opener-policy"] == "same-origin"
        assert response.headers["x-frame-options"] == "DENY"
        assert "frame-ancestors 'none'" in response.headers["content-security-policy"]
        assert "server" not in response.headers


def test_small_answers_are_not_compressed(client: httpx2.Client) -> None:
    assert "content-encoding" not in client.get("/healthz", headers={"Accept-Encoding": "gzip"}).headers


def test_plans_are_compressed_for_who_can_read_it(client: httpx2.Client, salmon: dict[str, object]) -> None:
    packed = client.post("/v1/plans", json=salmon, headers={"Accept-Encoding": "gzip"})
    assert packed.headers["content-encoding"] == "gzip"
    assert packed.json()["outcome"] == "plan"


@pytest.mark.parametrize(
    "path", ["/healthz", "/readyz", "/v1/foods/sr28:01123", "/problems", "/openapi.json", "/nowhere"]
)
def test_head_is_get_without_the_content(client: httpx2.Client, path: str) -> None:
    head, got = client.head(path), client.get(path)
    assert head.status_code == got.status_code
    assert head.content == b""
    passing = {"date", "x-request-id"}
    assert {name: value for name, value in head.headers.items() if name not in passing} == {
        name: value for name, value in got.headers.items() if name not in passing
    }


def test_where_there_is_no_get_there_is_no_head(client: httpx2.Client) -> None:
    assert client.head("/v1/plans").status_code == 405


def test_no_other_origin_is_let_in_unless_it_is_set(client: httpx2.Client) -> None:
    response = client.get("/healthz", headers={"Origin": ORIGIN})
    assert not [name for name in response.headers if name.startswith("access-control-")]
    asked = {"Origin": ORIGIN, "Access-Control-Request-Method": "POST"}
    assert client.options("/v1/plans", headers=asked).status_code == 405


@pytest.fixture
def open_client(catalogue: Catalogue) -> Iterator[TestClient]:
    with TestClient(create_app(Settings(cors_origins=(ORIGIN,)), catalogue=catalogue)) as client:
        yield client


# The Fetch standard, section "CORS protocol": what a browser asks and reads.
def test_an_origin_that_is_set_may_ask_for_a_plan(open_client: TestClient, salmon: dict[str, object]) -> None:
    asked = {
        "Origin": ORIGIN,
        "Access-Control-Request-Method": "POST",
        "Access-Control-Request-Headers": "content-type",
    }
    preflight = open_client.options("/v1/plans", headers=asked)
    assert preflight.status_code == 200
    assert preflight.headers["access-control-allow-origin"] == ORIGIN
    assert "POST" in preflight.headers["access-control-allow-methods"]
    response = open_client.post("/v1/plans", json=salmon, headers={"Origin": ORIGIN})
    assert response.headers["access-control-allow-origin"] == ORIGIN
    assert "access-control-allow-credentials" not in response.headers


def test_the_page_of_that_origin_can_read_refusals_and_request_ids(open_client: TestClient) -> None:
    response = open_client.get("/nowhere", headers={"Origin": ORIGIN})
    assert response.status_code == 404
    assert response.headers["access-control-allow-origin"] == ORIGIN
    assert "X-Request-ID" in response.headers["access-control-expose-headers"]


def test_another_origin_is_not_let_in(open_client: TestClient) -> None:
    response = open_client.get("/healthz", headers={"Origin": "https://elsewhere.example"})
    assert "access-control-allow-origin" not in response.headers
