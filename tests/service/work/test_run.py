"""Running work that nobody waits for, with a stand-in for the solver where the real one would not misbehave."""

import re
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx2
import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.planner import Solve
from service.settings import Settings
from service.work.job import Latest
from solver.backends.base import Backend
from solver.backends.highs import HighsBackend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.deadline import Deadline
from solver.levels import levels
from solver.outcome import Outcome, Proof, Undecided
from solver.solve import solve as solve_brief
from solver.watch import Look, Watch
from tests.service.work.following import ASYNC, Document, has_ended, until
from tests.solver.larder import brief, posed


class Held:
    """A solve that shows itself, and lasts until it is let go."""

    def __init__(self) -> None:
        self.begun, self.go = threading.Semaphore(0), threading.Event()

    def __call__(
        self, brief: Brief, backend: Backend, deadline: Deadline | None = None, *, watch: Watch | None = None
    ) -> Outcome:
        if watch is not None:
            formulation = posed(brief)
            watch(Look(formulation, levels(formulation)[0], 3.0, 1.0, None))
        self.begun.release()
        self.go.wait(10)
        assert deadline is not None
        proof = Proof((), backend.name, backend.version, 0.0)
        return Undecided(brief, "The clock ended first.", "Allow more time.", proof, (), ())


def lying(brief: Brief, backend: Backend, deadline: Deadline | None = None, *, watch: Watch | None = None) -> Outcome:
    raise ZeroDivisionError(f"secret {brief} {backend} {deadline} {watch}")


def blind(brief: Brief, backend: Backend, deadline: Deadline | None = None, *, watch: Watch | None = None) -> Outcome:
    """Shows what cannot be told of."""
    assert watch is not None
    watch("no look at all")  # type: ignore[arg-type]
    threading.Event().wait(0.6)
    return solve_brief(brief, backend, deadline)


@contextmanager
def service(
    catalogue: Catalogue, folder: Path | None, solve: Solve = solve_brief, **settings: object
) -> Iterator[TestClient]:
    app = create_app(Settings.model_validate(settings), catalogue=catalogue, solve=solve, work=folder)
    with TestClient(app, raise_server_exceptions=False) as client:
        yield client
        app.state.runner.close()


def taken_on(client: TestClient, brief: Document) -> str:
    response = client.post("/v1/plans", json=brief, headers=ASYNC)
    assert response.status_code == 202, response.text
    return str(response.headers["location"])


def ended(client: TestClient, work: str) -> Document:
    until(lambda: has_ended(client.get(work).json()))
    told: Document = client.get(work).json()
    return told


def test_a_fault_in_it_is_told_by_its_id_and_says_nothing_else(
    catalogue: Catalogue, tmp_path: Path, salmon: Document, caplog: pytest.LogCaptureFixture
) -> None:
    with service(catalogue, tmp_path, lying) as client:
        told = ended(client, taken_on(client, salmon))
        answer = client.get(told["answer"])
    assert (told["state"], answer.status_code) == ("failed", 500)
    assert answer.json() == told["problem"]
    assert answer.headers["content-type"] == "application/problem+json"
    (record,) = [record for record in caplog.records if record.message == "fault"]
    assert vars(record)["instance"] == told["problem"]["instance"]
    assert "secret" not in answer.text


def test_a_fault_in_telling_how_far_it_is_ends_no_work(catalogue: Catalogue, tmp_path: Path, salmon: Document) -> None:
    with service(catalogue, tmp_path, blind) as client:
        told = ended(client, taken_on(client, salmon))
    assert (told["state"], told["progress"]) == ("done", None)


def test_work_has_a_place_in_the_queue_and_no_more_time_than_others(
    catalogue: Catalogue, tmp_path: Path, salmon: Document
) -> None:
    held = Held()
    limits = {"solves_at_once": 1, "slow_solves_at_once": 0, "solves_waiting": 1}
    with service(catalogue, tmp_path, held, **limits) as client:
        first = taken_on(client, salmon)
        assert held.begun.acquire(timeout=10)
        second = taken_on(client, {**salmon, "time_limit_s": 2})
        until(lambda: client.post("/v1/plans", json=salmon, headers=ASYNC).status_code == 503)
        assert client.get(second).json()["state"] == "queued"
        late = ended(client, second)
        assert (late["state"], late["problem"]["type"]) == ("failed", "/problems/busy")
        assert client.get(late["answer"]).status_code == 503
        until(lambda: client.get(first).json()["progress"] is not None)
        progress = client.get(first).json()["progress"]
        held.go.set()
        assert ended(client, first)["state"] == "done"
    assert progress == {"level": "balanced", "value": 3.0, "bound": 1.0, "gap": 2.0, "best": None}


def test_what_waits_for_a_place_is_cancelled_at_once(catalogue: Catalogue, tmp_path: Path, salmon: Document) -> None:
    held = Held()
    limits = {"solves_at_once": 1, "slow_solves_at_once": 0, "solves_waiting": 1}
    with service(catalogue, tmp_path, held, **limits) as client:
        first = taken_on(client, salmon)
        assert held.begun.acquire(timeout=10)
        second = taken_on(client, salmon)
        assert client.delete(second).status_code == 204
        until(lambda: 'waiting{kind="linear"} 0' in client.get("/metrics").text)
        held.go.set()
        assert ended(client, first)["state"] == "done"


def test_an_outcome_is_counted_once_however_often_it_is_fetched(
    catalogue: Catalogue, tmp_path: Path, salmon: Document
) -> None:
    with service(catalogue, tmp_path) as client:
        told = ended(client, taken_on(client, salmon))
        for _ in range(3):
            assert client.get(told["answer"]).json()["outcome"] == "plan"
        waited = client.post("/v1/plans", json=salmon, headers={"Prefer": "respond-async, wait=9"})
        assert waited.status_code == 200
        counts = client.get("/metrics").text
    assert re.findall(r'outcomes_total\{outcome="plan"\} (\d+)', counts) == ["2"]


def test_more_than_may_be_kept_is_refused(catalogue: Catalogue, tmp_path: Path, salmon: Document) -> None:
    with service(catalogue, tmp_path, work_limit=1) as client:
        work = taken_on(client, salmon)
        refused: httpx2.Response = client.post("/v1/plans", json=salmon, headers=ASYNC)
        assert (refused.status_code, refused.json()["type"]) == (503, "/problems/too_much_work")
        assert int(refused.headers["retry-after"]) >= 1
        ended(client, work)
        assert client.delete(work).status_code == 204
        assert client.post("/v1/plans", json=salmon, headers=ASYNC).status_code == 202


def test_without_a_folder_no_work_is_taken_and_plans_are_made(catalogue: Catalogue, salmon: Document) -> None:
    with service(catalogue, None) as client:
        for refused in (
            client.post("/v1/plans", json=salmon, headers=ASYNC),
            client.get(f"/v1/work/{'A' * 22}"),
            client.delete(f"/v1/work/{'A' * 22}"),
        ):
            assert (refused.status_code, refused.json()["type"]) == (503, "/problems/work_not_kept")
        assert client.post("/v1/plans", json=salmon).json()["outcome"] == "plan"


def test_a_solver_that_shows_nothing_on_its_way_shows_its_levels_and_is_cancelled(
    catalogue: Catalogue, tmp_path: Path, salmon: Document, work_brief: Document
) -> None:
    with service(catalogue, tmp_path, backend="pulp-cbc") as client:
        told = ended(client, taken_on(client, salmon))
        assert told["state"] == "done"
        work = taken_on(client, {**work_brief, "time_limit_s": 25})
        until(lambda: client.get(work).json()["state"] == "running")
        assert client.delete(work).status_code == 204
        until(lambda: 'running{kind="stepped"} 0' in client.get("/metrics").text)


def test_the_best_dish_stays_until_there_is_a_better_one_that_can_be_printed() -> None:
    seen: list[Look] = []
    solve_brief(brief(), HighsBackend(), Deadline.after(10), watch=seen.append)
    latest, best = Latest(), seen[-1]
    assert latest.taken() is None
    latest.look(best)
    first = latest.taken()
    assert first is not None
    assert '"best":{"quantities"' in first
    assert latest.taken() is None, "it is told once"
    latest.look(Look(best.formulation, best.level, 1.0, 0.5, None))
    later = latest.taken()
    assert later is not None
    assert later.partition('"best":')[2] == first.partition('"best":')[2]
