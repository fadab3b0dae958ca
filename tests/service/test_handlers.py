"""Refusals of parameters of the address, which no brief has; on an application of two routes."""

from typing import Annotated, Any

import pytest
from fastapi import FastAPI, Query
from fastapi.testclient import TestClient
from starlette.exceptions import HTTPException

from service import handlers


@pytest.fixture
def client() -> TestClient:
    app = FastAPI()
    handlers.install(app)

    @app.get("/pages")
    async def pages(limit: Annotated[int, Query(ge=1, le=50)], query: Annotated[str, Query(max_length=5)]) -> str:
        return query * limit

    @app.get("/teapot")
    async def teapot() -> None:
        raise HTTPException(418, "Short and stout.")

    @app.get("/broken")
    async def broken() -> None:
        raise ZeroDivisionError("secret")

    return TestClient(app, raise_server_exceptions=False)


def problems(client: TestClient, address: str) -> list[dict[str, Any]]:
    response = client.get(address)
    assert response.status_code == 422
    assert response.json()["type"] == "/problems/unusable_request"
    found: list[dict[str, Any]] = response.json()["problems"]
    return found


@pytest.mark.parametrize(
    ("address", "parameter", "code"),
    [
        ("/pages?limit=0&query=egg", "limit", "out_of_range"),
        ("/pages?limit=secret&query=egg", "limit", "wrong_type"),
        ("/pages?query=egg", "limit", "missing_field"),
        ("/pages?limit=1&query=secretsecret", "query", "wrong_length"),
    ],
)
def test_a_parameter_is_named_and_its_value_is_not_repeated(
    client: TestClient, address: str, parameter: str, code: str
) -> None:
    (problem,) = problems(client, address)
    assert (problem["parameter"], problem["pointer"], problem["code"]) == (parameter, "", code)
    assert problem["type"] == f"/problems/{code}"
    assert "secret" not in str(problem)


def test_all_parameters_are_refused_at_once(client: TestClient) -> None:
    assert [problem["parameter"] for problem in problems(client, "/pages?limit=0")] == ["limit", "query"]


def test_a_status_that_says_it_all_has_no_page(client: TestClient) -> None:
    # RFC 9457, section 4.2.1: about:blank, and a title that is the status's own phrase.
    document = client.get("/teapot").json()
    assert (document["type"], document["title"], document["detail"]) == (
        "about:blank",
        "I'm a Teapot",
        "Short and stout.",
    )


def test_a_fault_is_answered_without_what_it_said(client: TestClient) -> None:
    response = client.get("/broken")
    assert response.json()["type"] == "/problems/fault"
    assert "secret" not in response.text
    assert "ZeroDivision" not in response.text
