"""What breaks while the service runs: workers, solvers, the disk, and the word to stop."""

import os
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from typing import Any

import httpx2
import numpy as np
import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.settings import Settings
from solver.backends.base import Limits, RawSolution, Session, Status
from solver.backends.highs import HighsBackend
from solver.catalogue import Catalogue
from solver.errors import BackendError
from solver.program import LinearProgram
from tests.service.asking import refusal
from tests.service.conftest import REPOSITORY, serving

Document = dict[str, Any]
Lie = Callable[[RawSolution], RawSolution]


def workers_of(log: Path) -> list[int]:
    """The processes that have begun to answer, in their order."""
    return [int(each) for each in re.findall(r"Started server process \[(\d+)\]", log.read_text())]


def until(happens: Callable[[], bool], seconds: float = 20) -> None:
    ends = time.monotonic() + seconds
    while not happens():
        assert time.monotonic() < ends
        time.sleep(0.05)


def is_answered(address: str, brief: Document) -> bool:
    """By whichever worker takes it; one that is killed under it answers nothing."""
    try:
        return httpx2.post(f"{address}/v1/plans", json=brief, timeout=20).status_code == 200
    except httpx2.TransportError:
        return False


def test_a_worker_that_is_killed_while_it_solves_is_replaced_and_the_others_go_on(
    tmp_path: Path, slow: Document, salmon: Document
) -> None:
    log = tmp_path / "log"
    with serving(log, workers=2) as (address, process), ThreadPoolExecutor(4) as pool:
        first = workers_of(log)
        assert len(set(first)) == 2
        solves = [pool.submit(is_answered, address, slow) for _ in range(4)]
        time.sleep(1)
        os.kill(first[0], signal.SIGKILL)
        assert [is_answered(address, salmon) for _ in range(5)].count(True) >= 4
        until(lambda: len(workers_of(log)) == 3)
        assert any(solve.result() for solve in solves), "the other worker finished what it had"
        assert all(is_answered(address, salmon) for _ in range(10))
        counts = httpx2.get(f"{address}/metrics").text
        assert float(re.findall(r'outcomes_total\{outcome="plan"\} (\d+)', counts)[0]) >= 10, "over all workers"
        process.terminate()
        assert process.wait(timeout=15) == 0
    until(lambda: not any(Path(f"/proc/{worker}").exists() for worker in workers_of(log)), 5)


def test_no_worker_outlives_the_process_that_started_it(tmp_path: Path) -> None:
    log = tmp_path / "log"
    with serving(log, workers=2) as (_, process):
        process.kill()
        until(lambda: not any(Path(f"/proc/{worker}").exists() for worker in workers_of(log)), 10)


@pytest.mark.parametrize("workers", [1, 2])
def test_who_is_told_to_stop_finishes_what_it_took_and_refuses_the_rest(
    tmp_path: Path, slow: Document, salmon: Document, workers: int
) -> None:
    with serving(tmp_path / "log", workers=workers) as (address, process), ThreadPoolExecutor(4) as pool:
        taken = [pool.submit(is_answered, address, slow) for _ in range(2 * workers)]
        time.sleep(1)
        process.terminate()
        time.sleep(0.7)
        if not any(solve.done() for solve in taken) and workers == 1:
            assert refusal(httpx2.get(f"{address}/readyz"), 503)
            assert refusal(httpx2.post(f"{address}/v1/plans", json=salmon), 503)
            assert httpx2.get(f"{address}/healthz").status_code == 200
        assert all(solve.result() for solve in taken)
        assert process.wait(timeout=10) == 0


def test_it_ends_within_its_grace_though_a_solve_goes_on(tmp_path: Path, slow: Document) -> None:
    settings = {"grace_s": 1}
    with serving(tmp_path / "log", **settings) as (address, process), ThreadPoolExecutor(1) as pool:
        pool.submit(is_answered, address, {**slow, "time_limit_s": 25})
        time.sleep(1)
        began = time.monotonic()
        process.terminate()
        assert process.wait(timeout=15) == 0
        assert time.monotonic() - began < 6


class LyingBackend:
    """HiGHS, whose answers are changed on their way."""

    name, version = "lying", "0"

    def __init__(self, lie: Lie) -> None:
        self._lie = lie

    def open(self, program: LinearProgram) -> Session:
        session = HighsBackend().open(program)
        solve = session.solve

        def lying(limits: Limits) -> RawSolution:
            return self._lie(solve(limits))

        session.solve = lying  # type: ignore[method-assign]
        return session


def _crash(_: RawSolution) -> RawSolution:
    raise BackendError("secret")


def _fault(_: RawSolution) -> RawSolution:
    raise ZeroDivisionError("secret")


LIES: dict[str, Lie] = {
    "crashes": _crash,
    "has a fault": _fault,
    "says failed": lambda _: RawSolution(Status.FAILED, "failed"),
    "says unbounded": lambda _: RawSolution(Status.UNBOUNDED, "unbounded"),
    "says optimal and shows nothing": lambda said: replace(said, x=None, objective=None),
    "shows NaN": lambda said: said if said.x is None else replace(said, x=np.full_like(said.x, np.nan)),
    "shows infinity": lambda said: said if said.x is None else replace(said, x=np.full_like(said.x, np.inf)),
    "shows half of it": lambda said: said if said.x is None else replace(said, x=said.x / 2),
    "shows less than nothing": lambda said: said if said.x is None else replace(said, x=-said.x),
    "says that there is no plan": lambda _: RawSolution(Status.INFEASIBLE, "infeasible"),
}


@pytest.mark.parametrize("lie", LIES)
@pytest.mark.parametrize("step", [None, "5 g"])
def test_a_solver_that_breaks_or_lies_is_a_fault_with_an_id_and_never_a_plan(
    catalogue: Catalogue, salmon: Document, lie: str, step: str | None
) -> None:
    salmon["pantry"][0]["step"] = step
    app = create_app(Settings(), catalogue=catalogue, backend=LyingBackend(LIES[lie]))
    with TestClient(app, raise_server_exceptions=False) as client:
        response = client.post("/v1/plans", json=salmon)
        document = refusal(response, 500)
        assert document["instance"].startswith("urn:uuid:")
        assert "secret" not in response.text
        assert client.get("/healthz").status_code == 200


def test_a_disk_that_cannot_be_written_stops_no_plan(salmon: Document) -> None:
    """No folder that temporary files may go to, and a log on a device that is always full (Linux, full(4))."""
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    command = [sys.executable, "-m", "service", "serve", "--port", str(port)]
    env = {**os.environ, "TMPDIR": "/nowhere", "LARDERLINE_BACKEND": "pulp-cbc"}
    with Path("/dev/full").open("wb") as full, subprocess.Popen(command, cwd=REPOSITORY, env=env, stderr=full) as ours:
        try:
            until(lambda: is_answered(f"http://127.0.0.1:{port}", salmon), 60)
            assert is_answered(f"http://127.0.0.1:{port}", salmon)
            ours.terminate()
            assert ours.wait(timeout=10) == 0
        finally:
            ours.kill()
