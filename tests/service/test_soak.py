"""An hour of mixed work: `pytest -m soak -s`. LARDER_SOAK_S says how many seconds it lasts. It prints its figures."""

import os
import statistics
import sys
import time
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path

import httpx2
import pytest

from tests.service.conftest import serving
from tests.service.test_slow_clients import memory_kb

#: Answers after which memory has to have stopped growing, or half of the time where that comes first; and how much
#: more it may be at the end.
WARM, GROWTH = 5000, 1.05

CLIENTS = 3

#: What is asked for by the folder of its examples, and the statuses that it is answered with.
JOBS = {
    "": ("/v1/plans", {200}),
    "breakdowns": ("/v1/breakdowns", {200}),
    "reworks": ("/v1/reworks", {200}),
    "reach": ("/v1/reach", {200}),
    "refused": ("/v1/plans", {422}),
}


@dataclass(slots=True)
class Figures:
    """What came of it. answers: each address with its status. faults: what should not have been."""

    answers: Counter[tuple[str, int]] = field(default_factory=Counter)
    seconds: list[float] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)


def requests_of(examples: Path) -> list[tuple[str, bytes, set[int]]]:
    found = [(job, path) for job in JOBS for path in sorted((examples / job).glob("*.json"))]
    return [(JOBS[job][0], path.read_bytes(), JOBS[job][1]) for job, path in found]


def ask(address: str, requests: list[tuple[str, bytes, set[int]]], first: int, ends: float, seen: Figures) -> None:
    with httpx2.Client(base_url=address, timeout=40, headers={"Content-Type": "application/json"}) as own:
        turn = first
        while time.monotonic() < ends:
            path, body, expected = requests[turn % len(requests)]
            began = time.perf_counter()
            response = own.post(path, content=body)
            seen.seconds.append(time.perf_counter() - began)
            seen.answers[path, response.status_code] += 1
            if response.status_code not in expected:
                seen.faults.append(f"{path} {response.status_code} {response.text[:200]}")
            turn += 1


def handles(process: int) -> int:
    """Files, sockets and pipes that it holds open; Linux, proc(5)."""
    return sum(1 for _ in Path(f"/proc/{process}/fd").iterdir())


@pytest.mark.soak
def test_memory_and_handles_are_flat_and_nothing_is_a_fault(tmp_path: Path, examples: Path) -> None:
    lasts_s = float(os.environ.get("LARDER_SOAK_S", "3600"))
    requests, seen, log = requests_of(examples), Figures(), tmp_path / "log"
    with serving(log) as (address, process), ThreadPoolExecutor(CLIENTS) as pool:
        at_first = memory_kb(process.pid), handles(process.pid)
        begun = time.monotonic()
        running = [pool.submit(ask, address, requests, n * 7, begun + lasts_s, seen) for n in range(CLIENTS)]
        while len(seen.seconds) < WARM and time.monotonic() < begun + lasts_s / 2:
            time.sleep(0.1)
        warm, warm_after = memory_kb(process.pid), len(seen.seconds)
        for each in running:
            each.result()
        at_last = memory_kb(process.pid), handles(process.pid)
    ranked = statistics.quantiles(seen.seconds, n=100)
    sys.stdout.write(
        f"\n{len(seen.seconds)} answers in {lasts_s:g} s, {len(seen.faults)} faults; "
        f"median {ranked[49] * 1000:.0f} ms, p99 {ranked[98] * 1000:.0f} ms; "
        f"memory {at_first[0] // 1024} MB at start, {warm // 1024} MB after {warm_after}, "
        f"{at_last[0] // 1024} MB at the end; {at_first[1]} handles at start, {at_last[1]} at the end\n"
        f"{dict(sorted(seen.answers.items()))}\n"
    )
    assert seen.faults == []
    assert '"level": "error"' not in log.read_text()
    assert at_last[0] < warm * GROWTH
    assert at_last[1] < at_first[1] + 10
