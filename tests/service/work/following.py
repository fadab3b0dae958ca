"""Sends a brief that is not waited for, and follows it."""

import json
import re
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeAlias

import httpx2

Document: TypeAlias = dict[str, Any]

ASYNC = {"Prefer": "respond-async"}
EVENTS = {"Accept": "text/event-stream"}


@dataclass(frozen=True, slots=True)
class Event:
    """One server-sent event. data: the document in it."""

    id: int
    name: str
    data: Document


def taken_on(address: str, brief: Document, path: str = "/v1/plans", **headers: str) -> str:
    """The whole address of the work that a brief becomes."""
    response = httpx2.post(address + path, json=brief, headers={**ASYNC, **headers}, timeout=20)
    assert response.status_code == 202, response.text
    assert response.headers["preference-applied"] == "respond-async"
    assert response.headers["location"] == f"/v1/work/{response.json()['id']}"
    return address + str(response.headers["location"])


def events(work: str, **headers: str) -> Iterator[Event]:
    """Until the service ends them. A comment is passed over, as a browser does."""
    with httpx2.stream("GET", work, headers={**EVENTS, **headers}, timeout=20) as answer:
        assert answer.status_code == 200
        assert answer.headers["content-type"].startswith("text/event-stream")
        fields: dict[str, str] = {}
        for line in answer.iter_lines():
            name, _, value = line.partition(": ")
            if line and name:
                fields[name] = value
            elif "data" in fields:
                yield Event(int(fields["id"]), fields["event"], json.loads(fields["data"]))
                fields = {}


def polled(work: str, until: Callable[[Document], bool], headers: dict[str, str] | None = None) -> Document:
    """The work once it is so. Every time on a connection of its own, so that any worker may answer."""
    ends = time.monotonic() + 20
    while True:
        response = httpx2.get(work, headers=headers)
        assert response.status_code == 200, response.text
        told: Document = response.json()
        if until(told):
            return told
        assert time.monotonic() < ends, told
        time.sleep(0.1)


def has_ended(told: Document) -> bool:
    return told["state"] not in {"queued", "running"}


def is_running(told: Document) -> bool:
    return bool(told["state"] == "running")


def workers_of(log: Path) -> list[int]:
    """The processes that answer."""
    return [int(each) for each in re.findall(r"Started server process \[(\d+)\]", log.read_text())]


def cpu_ticks(process_id: int) -> int:
    """What a process has used, in ticks of the clock (proc(5): utime and stime)."""
    fields = Path(f"/proc/{process_id}/stat").read_text().rpartition(")")[2].split()
    return int(fields[11]) + int(fields[12])


def busiest(processes: list[int]) -> int:
    """That which works most in the next moment."""
    before = {each: cpu_ticks(each) for each in processes}
    time.sleep(0.3)
    return max(processes, key=lambda each: cpu_ticks(each) - before[each])


def used_in(seconds: float, processes: list[int]) -> int:
    """Ticks that the processes use in the next seconds."""
    before = sum(map(cpu_ticks, processes))
    time.sleep(seconds)
    return sum(map(cpu_ticks, processes)) - before


def until(happens: Callable[[], bool], seconds: float = 15) -> None:
    """Far sooner than the 25 s that a solve in these tests may go on for."""
    ends = time.monotonic() + seconds
    while not happens():
        assert time.monotonic() < ends
        time.sleep(0.05)


def refusal_of(response: httpx2.Response, status: int) -> str:
    """The code of the one problem in it."""
    assert response.headers["content-type"] == "application/problem+json"
    document = response.json()
    assert (response.status_code, document["status"]) == (status, status)
    (problem,) = document["problems"]
    return str(problem["code"])
