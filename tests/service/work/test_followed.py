"""Work that goes on after its request was answered, over HTTP, with two workers: whoever is asked knows."""

import json
import os
import signal
import socket
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import httpx2
import pytest

from tests.service.asking import refusal
from tests.service.conftest import serving
from tests.service.work.following import (
    ASYNC,
    EVENTS,
    Document,
    busiest,
    events,
    has_ended,
    is_running,
    polled,
    refusal_of,
    taken_on,
    until,
    used_in,
    workers_of,
)


@pytest.fixture(scope="module")
def log(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("work") / "log"


@pytest.fixture(scope="module")
def address(log: Path) -> Iterator[str]:
    with serving(log, workers=2, followers_limit=2) as (address, process):
        yield address
        process.terminate()
        assert process.wait(timeout=20) == 0
    lines = [json.loads(line) for line in log.read_text().splitlines()]
    assert [line for line in lines if line["level"] in {"error", "critical"}] == []


def test_its_events_show_the_gap_closing_the_best_so_far_and_the_end(address: str, work_brief: Document) -> None:
    work = taken_on(address, {**work_brief, "time_limit_s": 3})
    seen = list(events(work))
    assert [event.id for event in seen] == sorted({event.id for event in seen}), "each once, in order"
    assert {event.name for event in seen[:-1]} == {"progress"}
    assert (seen[-1].name, seen[-1].data["state"]) == ("done", "done")
    progress = [event.data["progress"] for event in seen if event.data["progress"] is not None]
    gaps = [each["gap"] for each in progress if each["gap"] is not None]
    assert len(set(gaps)) >= 2, "it was seen to close"
    assert gaps == sorted(gaps, reverse=True)
    for each in progress:
        if each["best"] is not None:
            assert all(target["met"] for target in each["best"]["targets"])
            assert each["best"]["quantities"]
    assert progress[-1]["best"] is not None
    answer = httpx2.get(address + seen[-1].data["answer"]).json()
    assert answer["outcome"] == "plan"
    assert answer["proof"]["levels"][0]["level"] == progress[-1]["level"]


def test_what_was_seen_is_not_told_again(address: str, work_brief: Document) -> None:
    work = taken_on(address, {**work_brief, "time_limit_s": 2})
    first = next(iter(events(work)))
    rest = list(events(work, **{"Last-Event-ID": str(first.id)}))
    assert first.id < rest[0].id
    for hostile in ("-1", "x", "9" * 30, "99"):
        assert len(list(events(work, **{"Last-Event-ID": hostile}))) == 1, "which is nobody's, so all is told"
    again = httpx2.get(work, headers={**EVENTS, "Last-Event-ID": str(rest[-1].id)})
    assert (again.status_code, again.content) == (204, b""), "a browser comes no more"


def test_a_worker_that_cannot_answer_is_not_needed_for_that(address: str, log: Path, work_brief: Document) -> None:
    work = taken_on(address, {**work_brief, "time_limit_s": 4})
    polled(work, lambda told: told["progress"] is not None)
    worker = busiest(workers_of(log))
    os.kill(worker, signal.SIGSTOP)
    try:
        told = [httpx2.get(work, timeout=2).json() for _ in range(5)]
    finally:
        os.kill(worker, signal.SIGCONT)
    assert {each["state"] for each in told} == {"running"}
    assert told[0]["progress"]["level"] == "balanced"
    assert polled(work, has_ended)["state"] == "done"


def test_who_cancels_it_frees_the_processor(address: str, log: Path, work_brief: Document) -> None:
    work = taken_on(address, {**work_brief, "time_limit_s": 28})
    polled(work, is_running)
    follower = events(work)
    next(follower)
    until(lambda: used_in(0.5, workers_of(log)) > 20)
    assert httpx2.delete(work).status_code == 204
    until(lambda: used_in(0.5, workers_of(log)) < 10)
    assert [event.name for event in follower][-1] == "cancelled"
    for method in ("GET", "DELETE"):
        assert refusal_of(httpx2.request(method, work), 410) == "work_gone"
    assert refusal_of(httpx2.get(f"{work}/answer"), 410) == "work_gone"


def test_who_waits_a_while_is_answered_if_it_is_done_by_then(
    address: str, salmon: Document, work_brief: Document
) -> None:
    prefer = {"Prefer": "respond-async, wait=10"}
    done = httpx2.post(f"{address}/v1/plans?format=markdown", json=salmon, headers=prefer, timeout=20)
    assert (done.status_code, done.headers["content-type"]) == (200, "text/markdown; charset=utf-8")
    refused = httpx2.post(f"{address}/v1/plans", json={**salmon, "portions": 0}, headers=prefer)
    assert refusal(refused, 422)
    unknown = {**salmon, "pantry": [{"name": "x", "source": {"kind": "food", "id": "sr28:99999"}}]}
    assert refusal(httpx2.post(f"{address}/v1/plans", json=unknown, headers=prefer), 422)
    slow = {**work_brief, "time_limit_s": 3}
    begun = httpx2.post(f"{address}/v1/plans", json=slow, headers={"Prefer": "respond-async, wait=1"})
    assert begun.status_code == 202
    assert begun.json()["elapsed_s"] >= 1
    assert httpx2.delete(address + begun.headers["location"]).status_code == 204


@pytest.mark.parametrize("kind", ["plan", "rework", "reach", "conflict"])
def test_the_answer_is_the_same_as_to_who_waits(address: str, examples: Path, salmon: Document, kind: str) -> None:
    path, brief = {
        "plan": ("/v1/plans?nutrition_as=US", salmon),
        "conflict": ("/v1/plans", json.loads((examples / "conflict-too-little-energy.json").read_text())),
        "rework": (
            "/v1/reworks?nutrition_as=EU",
            json.loads((examples / "reworks" / "soup-made-richer.json").read_text()),
        ),
        "reach": ("/v1/reach", json.loads((examples / "reach" / "salmon-for-one.json").read_text())),
    }[kind]
    told = polled(taken_on(address, brief, path), has_ended)
    assert (told["state"], told["of"]) == ("done", "plan" if kind == "conflict" else kind)
    waited = httpx2.post(address + path, json=brief, timeout=20)
    later = httpx2.get(address + told["answer"])
    assert later.json().keys() == waited.json().keys()
    if kind == "rework":
        assert later.json()["answer"]["nutrition"] == waited.json()["answer"]["nutrition"] != []
    if kind == "plan":  # how far the searches of the others come is a matter of the clock
        assert without_times(later.json()) == without_times(waited.json())
    assert later.headers["cache-control"] == "no-store"
    for form in ("html", "csv", "pdf"):
        card = httpx2.get(f"{address}{told['answer']}?format={form}")
        assert card.status_code == 200
        assert card.headers["cache-control"] == "no-store"


def without_times(answer: object) -> object:
    """How long something took is never twice the same."""
    if isinstance(answer, dict):
        return {name: without_times(each) for name, each in answer.items() if name not in {"seconds", "proof"}}
    return [without_times(each) for each in answer] if isinstance(answer, list) else answer


def test_a_brief_that_cannot_be_used_has_failed_and_says_why(address: str, salmon: Document) -> None:
    unknown = {**salmon, "pantry": [{"name": "x", "source": {"kind": "food", "id": "sr28:99999"}}]}
    told = polled(taken_on(address, unknown), has_ended)
    assert (told["state"], told["problem"]["status"]) == ("failed", 422)
    waited = httpx2.post(f"{address}/v1/plans", json=unknown)
    later = httpx2.get(address + told["answer"])
    assert refusal(later, 422) == refusal(waited, 422) == told["problem"]


def test_an_answer_that_is_not_there_yet_is_a_problem(address: str, work_brief: Document) -> None:
    work = taken_on(address, {**work_brief, "time_limit_s": 25})
    early = httpx2.get(f"{work}/answer")
    assert refusal_of(early, 409) == "work_not_done"
    assert early.headers["retry-after"] == "1"
    assert httpx2.get(work).headers["retry-after"] == "1"
    assert httpx2.delete(work).status_code == 204


@pytest.mark.parametrize("name", ["x", "A" * 22, "A" * 5000, "..%2f..%2fetc", "%00", "'; DROP TABLE work; --", "ü"])
@pytest.mark.parametrize("method", ["GET", "DELETE"])
def test_an_id_that_nobody_was_given_is_unknown(address: str, name: str, method: str) -> None:
    response = httpx2.request(method, f"{address}/v1/work/{name}")
    assert response.status_code == 404
    assert response.json()["type"] in {"/problems/unknown_work", "/problems/not_found"}
    assert httpx2.head(f"{address}/v1/work/{'A' * 22}", headers=EVENTS).status_code == 404


def test_methods_and_forms_that_work_does_not_have_are_refused(address: str, salmon: Document) -> None:
    work = taken_on(address, salmon)
    polled(work, has_ended)
    assert httpx2.put(work).status_code == httpx2.post(work).status_code == 405
    assert refusal(httpx2.get(work, headers={"Accept": "image/png"}), 406)
    assert refusal(httpx2.get(f"{work}/answer", headers={"Accept": "image/png"}), 406)
    head = httpx2.head(work, headers=EVENTS)
    assert (head.status_code, head.content) == (200, b"")
    assert head.headers["content-type"].startswith("text/event-stream")
    assert httpx2.head(work).status_code == httpx2.head(f"{work}/answer").status_code == 200


def test_more_followers_than_may_are_sent_away_and_who_leaves_makes_room(address: str, work_brief: Document) -> None:
    work = taken_on(address, {**work_brief, "time_limit_s": 25})
    polled(work, is_running)
    clients = [httpx2.Client() for _ in range(6)]
    answers = [client.send(client.build_request("GET", work, headers=EVENTS), stream=True) for client in clients]
    statuses = [answer.status_code for answer in answers]
    (refused,) = {answer.read() for answer in answers if answer.status_code == 503}
    assert json.loads(refused)["type"] == "/problems/too_many_followers"
    assert 2 <= statuses.count(200) <= 4, "two in each of two workers"
    for client in clients:
        client.close()
    until(lambda: httpx2.head(work, headers=EVENTS).status_code == 200)
    assert httpx2.delete(work).status_code == 204


def test_who_leaves_while_it_waits_wants_no_work(address: str, log: Path, work_brief: Document) -> None:
    body = json.dumps({**work_brief, "time_limit_s": 28}).encode()
    head = (
        "POST /v1/plans HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nPrefer: respond-async, wait=20\r\n"
        f"Content-Length: {len(body)}\r\n\r\n"
    )
    where = urlsplit(address)
    with socket.create_connection((where.hostname or "", where.port or 80)) as connection:
        connection.sendall(head.encode() + body)
        until(lambda: used_in(0.5, workers_of(log)) > 20)
    until(lambda: used_in(0.5, workers_of(log)) < 10)


def test_hostile_preferences_are_passed_over(address: str, salmon: Document) -> None:
    for said in (
        "respond-async" + "x" * 5000,
        '"' * 3000,
        "wait=1",
        "respond-async=1",
        ";;;,,,=",
        ASYNC["Prefer"][:-1],
    ):
        assert httpx2.post(f"{address}/v1/plans", json=salmon, headers={"Prefer": said}).status_code == 200
