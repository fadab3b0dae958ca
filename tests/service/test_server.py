"""The process as `larderline serve` starts it: how it ends, and what it writes down."""

import json
import signal
import socket
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import httpx2
import pytest

from tests.service.conftest import Run, serving

#: Words that stand in the brief, and nowhere in the product.
SECRETS = ("Zwieback", "zanzibar", "secret-query")


@pytest.fixture
def log(tmp_path: Path) -> Path:
    return tmp_path / "log"


def lines_of(log: Path) -> Iterator[dict[str, Any]]:
    return (json.loads(line) for line in log.read_text().splitlines())


@pytest.fixture
def brief(salmon: dict[str, Any]) -> dict[str, Any]:
    salmon["title"] = SECRETS[0]
    salmon["pantry"][0]["name"] = SECRETS[1]
    return salmon


@pytest.mark.parametrize("told", [signal.SIGTERM, signal.SIGINT])
def test_it_ends_with_0_when_it_is_told_to_stop(log: Path, told: signal.Signals) -> None:
    with serving(log) as (_, process):
        process.send_signal(told)
        assert process.wait(timeout=10) == 0


def test_what_is_under_way_is_answered_first(log: Path, slow: dict[str, Any]) -> None:
    with serving(log) as (address, process), ThreadPoolExecutor(1) as pool:
        answer = pool.submit(httpx2.post, f"{address}/v1/plans", json=slow, timeout=20)
        time.sleep(1)
        process.terminate()
        assert answer.result().status_code == 200
        assert process.wait(timeout=10) == 0


@pytest.mark.parametrize("backend", ["highs", "scipy-highs", "pulp-cbc"])
def test_health_answers_while_every_place_is_solving(log: Path, slow: dict[str, Any], backend: str) -> None:
    with serving(log, backend=backend, solves_at_once=2) as (address, _), ThreadPoolExecutor(2) as pool:
        solves = [pool.submit(httpx2.post, f"{address}/v1/plans", json=slow, timeout=30) for _ in range(2)]
        waited_s = []
        with httpx2.Client(base_url=address) as client:
            while not all(solve.done() for solve in solves):
                began = time.monotonic()
                assert client.get("/healthz").status_code == client.get("/readyz").status_code == 200
                waited_s.append(time.monotonic() - began)
                time.sleep(0.05)
        assert [solve.result().status_code for solve in solves] == [200, 200]
    assert len(waited_s) > 10, "the solves went on while health was asked for"
    assert max(waited_s) < 1


def test_a_client_that_goes_away_frees_its_place(log: Path, slow: dict[str, Any], salmon: dict[str, Any]) -> None:
    body = json.dumps({**slow, "time_limit_s": 25}).encode()
    head = (
        f"POST /v1/plans HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: {len(body)}\r\n\r\n"
    )
    salmon["pantry"][0]["step"] = "5 g"  # which puts it into the same lane
    hurried = {**salmon, "time_limit_s": 0.5}  # sent away when it has waited that long for the only place
    with serving(log, solves_at_once=1, slow_solves_at_once=0, solves_waiting=5) as (address, _):
        where = urlsplit(address)
        with socket.create_connection((where.hostname or "", where.port or 80)) as connection:
            connection.sendall(head.encode() + body)
            until(lambda: status_of(address, hurried) == 503)
        until(lambda: status_of(address, hurried) == 200)


def status_of(address: str, brief: dict[str, Any]) -> int:
    return httpx2.post(f"{address}/v1/plans", json=brief, timeout=20).status_code


def until(happens: Callable[[], bool]) -> None:
    """Within 8 s: far less than the 25 s that the solve would go on for."""
    ends = time.monotonic() + 8
    while not happens():
        assert time.monotonic() < ends
        time.sleep(0.05)


def test_a_port_that_is_taken_stops_the_start(log: Path, larderline: Run) -> None:
    with serving(log) as (address, _):
        second = larderline("serve", "--port", address.rpartition(":")[2])
    assert second.returncode == 1
    assert "Traceback" not in second.stderr
    assert "address already in use" in second.stderr


def test_each_request_is_one_line_that_holds_nothing_of_a_brief(log: Path, brief: dict[str, Any]) -> None:
    wrong = {**brief, "portions": SECRETS[0], SECRETS[1]: 1}
    with serving(log) as (address, process):
        with httpx2.Client(base_url=address, headers={"X-Request-ID": "walk"}) as client:
            client.post("/v1/plans", json=brief)
            client.post("/v1/plans", json=wrong)
            client.post(f"/v1/plans?{SECRETS[2]}", content=SECRETS[0].encode())
            client.get(f"/v1/foods/{SECRETS[2]}")
            client.get(f"/{SECRETS[2]}?query={SECRETS[2]}")
            client.head("/healthz")
        process.terminate()
        process.wait(timeout=10)
    lines = [line for line in lines_of(log) if line["message"] == "request"]
    assert [(line["method"], line["route"], line["status"], line["outcome"]) for line in lines] == [
        ("POST", "/v1/plans", 200, "plan"),
        ("POST", "/v1/plans", 422, "unusable_request"),
        ("POST", "/v1/plans", 415, "not_json"),
        ("GET", "/v1/foods/{id}", 404, "not_found"),
        ("GET", None, 404, "not_found"),
        ("HEAD", "/healthz", 200, None),
    ]
    assert {line["request_id"] for line in lines} == {"walk"}
    assert all(line["milliseconds"] >= 0 for line in lines)
    assert [line["size_bytes"] > 0 for line in lines] == [True] * 5 + [False]
    assert not [secret for secret in SECRETS if secret in log.read_text()]
