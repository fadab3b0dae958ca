"""An hour of mixed work: `pytest -m soak`. LARDER_SOAK_S says how many seconds it lasts. It prints its figures."""

import os
import statistics
import sys
import time
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import httpx2
import pytest

from tests.service.conftest import serving
from tests.service.test_slow_clients import memory_kb, sockets_of

#: Seconds after which memory has to have stopped growing, and how much more it may be at the end.
WARM_S, GROWTH = 60, 1.05


@pytest.mark.soak
def test_memory_and_connections_are_flat_and_nothing_is_a_fault(tmp_path: Path, examples: Path) -> None:
    lasts_s = float(os.environ.get("LARDER_SOAK_S", "3600"))
    bodies = [path.read_bytes() for path in sorted(examples.glob("*.json"))]
    statuses: Counter[int] = Counter()
    seconds: list[float] = []

    def client(first: int, address: str, ends: float) -> None:
        headers = {"Content-Type": "application/json"}
        with httpx2.Client(base_url=address, timeout=40, headers=headers) as own:
            turn = first
            while time.monotonic() < ends:
                began = time.perf_counter()
                body = bodies[turn % len(bodies)]
                statuses[own.post("/v1/plans", content=body).status_code] += 1
                seconds.append(time.perf_counter() - began)
                turn += 1

    with serving(tmp_path / "log") as (address, process), ThreadPoolExecutor(3) as pool:
        begun = time.monotonic()
        running = [pool.submit(client, n * 5, address, begun + lasts_s) for n in range(3)]
        time.sleep(min(WARM_S, lasts_s / 2))
        warm_kb = memory_kb(process.pid)
        for each in running:
            each.result()
        end_kb, left = memory_kb(process.pid), sockets_of(process.pid)
    ranked = statistics.quantiles(seconds, n=100)
    sys.stdout.write(
        f"\n{len(seconds)} requests in {lasts_s:g} s, {dict(statuses)}; median {ranked[49] * 1000:.0f} ms, "
        f"p99 {ranked[98] * 1000:.0f} ms; memory {warm_kb // 1024} MB warm, {end_kb // 1024} MB at the end; "
        f"{left} sockets open\n"
    )
    assert set(statuses) == {200}
    assert end_kb < warm_kb * GROWTH
    assert left < 10
