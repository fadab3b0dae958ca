"""What is counted, over all workers, in the text format that Prometheus reads."""

import os
import re

import httpx2
import pytest

from service.lanes import Kind
from service.metrics import SECONDS, Metrics, shared_memory
from service.metrics_text import as_text

# The text format, version 0.0.4: comments, and samples of a name, labels and a value.
SAMPLE = re.compile(r'[a-z_]+(\{[a-z]+="[^"]*"(,[a-z]+="[^"]*")*\})? [-+0-9.e]+')


def test_workers_count_in_rows_of_their_own_and_any_of_them_gives_the_sum() -> None:
    memory = shared_memory(2)
    assert memory is not None
    one, other = Metrics(os.dup(memory), 0, 2), Metrics(os.dup(memory), 1, 2)
    one.request(200, "plan")
    other.request(200, "plan")
    other.request(503, "busy")
    assert one.total("requests", "200") == other.total("requests", "200") == 2
    assert (one.total("outcomes", "plan"), one.total("shed")) == (2, 1)
    replaced = Metrics(os.dup(memory), 1, 2)
    assert replaced.total("requests", "200") == 2, "who takes the place of a dead one goes on with its counts"


def test_what_a_dead_worker_had_running_is_forgotten() -> None:
    memory = shared_memory(1)
    Metrics(memory).add("running", "linear")
    assert Metrics(memory).total("running", "linear") == 0


@pytest.mark.parametrize("status", [418, 0])
def test_a_status_that_nobody_foresaw_is_counted_with_others(status: int) -> None:
    metrics = Metrics()
    metrics.request(status, "<b>")
    assert metrics.total("requests", "0") == 1


def test_times_are_counted_in_classes_that_hold_all_below() -> None:
    metrics = Metrics()
    for seconds in (0.001, 0.2, 100.0):
        metrics.solve(Kind.LINEAR, seconds)
    text = as_text(metrics)
    counts = [int(each) for each in re.findall(r'bucket\{kind="linear",le="[^"]+"\} (\d+)', text)]
    assert counts == [1, 1, 1, 2, 2, 2, 2, 2, 3]
    assert len(counts) == len(SECONDS)
    assert 'solve_seconds_sum{kind="linear"} 100.201000\n' in text
    assert 'solve_seconds_count{kind="linear"} 3\n' in text


def test_the_service_says_what_it_has_done(client: httpx2.Client, salmon: dict[str, object]) -> None:
    def plans() -> int:
        return int(re.findall(r'outcomes_total\{outcome="plan"\} (\d+)', client.get("/metrics").text)[0])

    before = plans()
    client.post("/v1/plans", json=salmon)
    assert plans() == before + 1
    response = client.get("/metrics")
    assert response.headers["content-type"] == "text/plain; version=0.0.4; charset=utf-8"
    assert response.headers["cache-control"] == "no-store"
    lines = response.text.splitlines()
    assert [line for line in lines if not line.startswith("# ") and not SAMPLE.fullmatch(line)] == []
    assert len({line.split()[2] for line in lines if line.startswith("# TYPE")}) == 6
