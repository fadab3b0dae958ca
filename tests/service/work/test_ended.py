"""What may befall work that is followed: a worker that dies, the word to stop, a disk that is full, another's key."""

import os
import resource
import signal
from pathlib import Path

import httpx2

from service.keys import as_set, new_key
from tests.service.asking import refusal
from tests.service.conftest import serving
from tests.service.work.following import (
    ASYNC,
    Document,
    busiest,
    events,
    has_ended,
    is_running,
    polled,
    refusal_of,
    taken_on,
    workers_of,
)


def test_work_of_a_worker_that_is_killed_has_failed_and_is_not_running_for_ever(
    tmp_path: Path, work_brief: Document
) -> None:
    log = tmp_path / "log"
    with serving(log, workers=2) as (address, _):
        work = taken_on(address, {**work_brief, "time_limit_s": 25})
        polled(work, is_running)
        os.kill(busiest(workers_of(log)), signal.SIGKILL)
        told = polled(work, has_ended)
        assert (told["state"], told["problem"]["type"]) == ("failed", "/problems/work_lost")
        assert refusal(httpx2.get(address + told["answer"]), 503) == told["problem"]
        assert list(events(work))[-1].name == "failed"


def test_told_to_stop_it_ends_what_it_took_on_and_whoever_follows_sees_it(tmp_path: Path, work_brief: Document) -> None:
    with serving(tmp_path / "log", work_folder=tmp_path) as (address, process):
        work = taken_on(address, {**work_brief, "time_limit_s": 2})
        polled(work, is_running)
        follower = events(work)
        next(follower)
        process.terminate()
        last = list(follower)[-1]
        assert last.name == "done"
        assert httpx2.get(address + last.data["answer"]).json()["outcome"] == "plan"
        assert httpx2.post(f"{address}/v1/plans", json=work_brief, headers=ASYNC).status_code == 503
        assert process.wait(timeout=10) == 0
        assert list(tmp_path.glob("larderline-work-*")) == [], "nothing is left of it"


def test_what_goes_on_past_the_grace_has_failed(tmp_path: Path, work_brief: Document) -> None:
    with serving(tmp_path / "log", grace_s=1) as (address, process):
        work = taken_on(address, {**work_brief, "time_limit_s": 25})
        polled(work, is_running)
        follower = events(work)
        next(follower)
        process.terminate()
        assert [event.name for event in follower][-1] == "failed"
        assert process.wait(timeout=10) == 0


def test_a_key_follows_what_it_asked_for_and_nothing_else(tmp_path: Path, salmon: Document) -> None:
    anna, bert = new_key(), new_key()
    keys = f"{as_set('anna', anna)},{as_set('bert', bert)}"
    hers, his = ({"Authorization": f"Bearer {key}"} for key in (anna, bert))
    with serving(tmp_path / "log", api_keys=keys) as (address, _):
        work = taken_on(address, salmon, **hers)
        told = polled(work, has_ended, hers)
        for method, where in (("GET", work), ("DELETE", work), ("GET", address + told["answer"])):
            assert refusal_of(httpx2.request(method, where, headers=his), 404) == "unknown_work"
            assert httpx2.request(method, where).status_code == 401
        assert httpx2.get(address + told["answer"], headers=hers).json()["outcome"] == "plan"
        assert told["id"] not in (tmp_path / "log").read_text(), "where there is no key it would open the door"


def test_a_disk_that_is_full_stops_no_plan_and_takes_no_work(tmp_path: Path, salmon: Document) -> None:
    """No byte more may be written to any file (setrlimit(2), RLIMIT_FSIZE), as on a full disk."""
    with serving(tmp_path / "log") as (address, process):
        for _ in range(2):  # before the file is there, and after it is
            resource.prlimit(process.pid, resource.RLIMIT_FSIZE, (0, resource.RLIM_INFINITY))
            refused = httpx2.post(f"{address}/v1/plans", json=salmon, headers=ASYNC)
            assert refusal(refused, 503)["type"] == "/problems/work_not_kept"
            assert httpx2.post(f"{address}/v1/plans", json=salmon).json()["outcome"] == "plan"
            assert httpx2.get(f"{address}/readyz").status_code == 200
            resource.prlimit(process.pid, resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
            assert polled(taken_on(address, salmon), has_ended)["state"] == "done"
