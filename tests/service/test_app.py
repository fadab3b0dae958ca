"""The composition root, with a stand-in for the solver where the real one would not misbehave on demand."""

import logging
import threading
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import httpx2
import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.logs import JsonLines
from service.planner import Solve
from service.schemas.base import Incoming, Outgoing
from service.settings import Settings
from solver.backends.base import Backend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.deadline import Deadline
from solver.errors import VerificationError
from solver.outcome import Outcome, Proof, Undecided
from solver.watch import Watch

Document = dict[str, Any]


def undecided(
    brief: Brief, backend: Backend, deadline: Deadline | None = None, *, watch: Watch | None = None
) -> Outcome:
    assert deadline is not None, "a request is always under a deadline"
    assert watch is None, "nobody follows"
    proof = Proof((), backend.name, backend.version, 0.0)
    return Undecided(brief, "The clock ended first.", "Allow more time.", proof, (), ())


def lying(brief: Brief, backend: Backend, deadline: Deadline | None = None, *, watch: Watch | None = None) -> Outcome:
    raise VerificationError(f"secret of {backend.name}: {brief.title} {deadline} {watch}")


class Held:
    """A solve that lasts until it is let go."""

    def __init__(self) -> None:
        self.begun, self.go = threading.Semaphore(0), threading.Event()

    def __call__(
        self, brief: Brief, backend: Backend, deadline: Deadline | None = None, *, watch: Watch | None = None
    ) -> Outcome:
        self.begun.release()
        self.go.wait(10)
        return undecided(brief, backend, deadline, watch=watch)


def client_of(catalogue: Catalogue, solve: Solve, **settings: Any) -> TestClient:  # noqa: ANN401  any setting
    app = create_app(Settings(**settings), catalogue=catalogue, solve=solve)
    return TestClient(app, raise_server_exceptions=False)


@pytest.fixture
def quick(catalogue: Catalogue) -> Iterator[TestClient]:
    with client_of(catalogue, undecided, time_limit_ceiling_s=5, pantry_limit=3) as client:
        yield client


def test_undecided_is_an_answer(quick: TestClient, salmon: Document) -> None:
    response = quick.post("/v1/plans", json=salmon)
    assert response.status_code == 200
    assert response.json()["outcome"] == "undecided"
    assert response.json()["advice"] == "Allow more time."


def test_limits_are_those_of_the_settings(quick: TestClient, salmon: Document) -> None:
    item = salmon["pantry"][0]
    wrong = {**salmon, "time_limit_s": 6, "pantry": [{**item, "name": f"{n}"} for n in range(4)]}
    problems = quick.post("/v1/plans", json=wrong).json()["problems"]
    assert {problem["code"] for problem in problems} == {"too_many", "time_limit_too_long"}


def test_a_fault_of_ours_says_nothing_but_its_id(
    catalogue: Catalogue, salmon: Document, caplog: pytest.LogCaptureFixture
) -> None:
    with client_of(catalogue, lying) as client, caplog.at_level(logging.ERROR, "larderline"):
        response = client.post("/v1/plans", json=salmon)
    assert response.status_code == 500
    assert response.headers["content-type"] == "application/problem+json"
    assert "secret" not in response.text
    assert "Verification" not in response.text
    assert response.json()["instance"].startswith("urn:uuid:")
    faults = [vars(record) for record in caplog.records if record.name == "larderline"]
    assert [fault["instance"] for fault in faults] == [response.json()["instance"]]
    assert faults[0]["request_id"] == response.headers["x-request-id"]
    assert "lying" in faults[0]["frames"][-1], "where it happened"
    assert "secret" not in "".join(JsonLines().format(record) for record in caplog.records), "and not what was said"


def test_when_every_place_is_taken_a_brief_is_sent_away_but_health_answers(
    catalogue: Catalogue, salmon: Document
) -> None:
    held = Held()
    with client_of(catalogue, held, solves_at_once=1, solves_waiting=0) as client, ThreadPoolExecutor(1) as pool:
        first = pool.submit(client.post, "/v1/plans", json=salmon)
        assert held.begun.acquire(timeout=10)
        second = client.post("/v1/plans", json=salmon)
        unreadable = client.post("/v1/plans", content=b"{", headers={"Content-Type": "application/json"})
        health = [client.get(path) for path in ("/healthz", "/readyz")]
        held.go.set()
        assert first.result().status_code == 200
    assert second.status_code == 503
    assert unreadable.status_code == 503, "nothing is spent on reading what cannot be served"
    assert second.headers["retry-after"] == "1"
    assert second.headers["content-type"] == "application/problem+json"
    assert [response.status_code for response in health] == [200, 200]
    assert "LARDERLINE_SOLVES_WAITING" in second.json()["detail"]


def test_the_contract_names_every_example(client: httpx2.Client) -> None:
    contract = client.get("/openapi.json").json()
    examples = contract["paths"]["/v1/plans"]["post"]["requestBody"]["content"]["application/json"]["examples"]
    assert len(examples) >= 6
    assert any(name.startswith("conflict-") for name in examples)
    assert all(example["summary"] and example["value"]["pantry"] for example in examples.values())


def test_refusals_are_described_as_problem_documents(client: httpx2.Client) -> None:
    contract = client.get("/openapi.json").json()
    operations = [operation for path in contract["paths"].values() for operation in path.values()]
    for operation in operations:
        for status, response in operation["responses"].items():
            kinds = list(response.get("content", ()))
            if status >= "400":
                assert kinds == ["application/problem+json"]
            else:
                assert "application/json" in kinds or status == "204"
                assert "application/problem+json" not in kinds
    assert "HTTPValidationError" not in contract["components"]["schemas"]


def test_the_answers_are_told_apart_by_their_outcome(client: httpx2.Client) -> None:
    contract = client.get("/openapi.json").json()
    answer = contract["paths"]["/v1/plans"]["post"]["responses"]["200"]["content"]["application/json"]["schema"]
    assert answer["discriminator"]["propertyName"] == "outcome"
    assert set(answer["discriminator"]["mapping"]) == {"plan", "conflict", "undecided"}


def test_every_field_of_the_contract_is_described() -> None:
    models = [model for base in (Incoming, Outgoing) for model in _below(base) if model.__module__ != __name__]
    assert len(models) > 15
    bare = [f"{m.__name__}.{name}" for m in models for name, f in m.model_fields.items() if not f.description]
    assert bare == []


def _below(model: type[Incoming | Outgoing]) -> Iterator[type[Incoming | Outgoing]]:
    for below in model.__subclasses__():
        yield below
        yield from _below(below)


def test_the_description_lists_what_a_target_may_be_of(client: httpx2.Client) -> None:
    description = client.get("/openapi.json").json()["info"]["description"]
    for name in ("energy_kcal", "fat_share_percent", "ketogenic_ratio", "available_carbohydrate_g", "sodium_mg"):
        assert f"`{name}`" in description
