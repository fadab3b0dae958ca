"""What the service has done, counted for whoever watches it, over all workers.

The counts lie in memory that the workers share: every worker writes a row of its own, and any of them reads all rows.
There is no file, so a full disk stops nothing, and a worker that takes the place of a dead one goes on with its counts.
"""

import math
import mmap
import os
import struct
from bisect import bisect_left

from service.lanes import Kind

#: What a request may have come to; another status is counted with the last.
STATUSES = (200, 202, 204, 304, 400, 401, 404, 405, 406, 408, 409, 410, 413, 415, 422, 500, 503, 0)

#: What a brief may have come to.
OUTCOMES = ("plan", "conflict", "undecided")

#: Upper ends of the classes that solve times are counted in, seconds.
SECONDS = (0.01, 0.03, 0.1, 0.3, 1.0, 3.0, 10.0, 30.0, math.inf)

_Series = tuple[str, str]


def _series() -> tuple[_Series, ...]:
    """Name and label of each number, in the order of its place in a row."""
    kinds = [kind.value for kind in Kind]
    return (
        *(("requests", str(status)) for status in STATUSES),
        *(("outcomes", outcome) for outcome in OUTCOMES),
        *((f"solve_seconds_{place}", kind) for kind in kinds for place in range(len(SECONDS))),
        *(("solve_seconds_sum", kind) for kind in kinds),
        *(("running", kind) for kind in kinds),
        *(("waiting", kind) for kind in kinds),
        ("shed", ""),
    )


SERIES = _series()
_PLACES = {each: place for place, each in enumerate(SERIES)}
_NUMBER = struct.Struct("d")


class Metrics:
    """The counts of one worker, and a view of all. Written by the event loop alone.

    memory: a file descriptor of shared memory, None for memory of this process. row: of this worker, of `rows`.
    """

    def __init__(self, memory: int | None = None, row: int = 0, rows: int = 1) -> None:
        self._memory = mmap.mmap(-1 if memory is None else memory, _size(rows))
        self._row, self._rows = row, rows
        for kind in Kind:  # of whoever wrote this row before
            self.set("running", kind.value, 0)
            self.set("waiting", kind.value, 0)

    def add(self, name: str, label: str = "", amount: float = 1.0) -> None:
        """Count so much more."""
        self.set(name, label, self._read(self._row, (name, label)) + amount)

    def set(self, name: str, label: str, value: float) -> None:
        """What is so now."""
        _NUMBER.pack_into(self._memory, self._at(self._row, (name, label)), value)

    def request(self, status: int, outcome: object) -> None:
        """One request that was answered."""
        self.add("requests", str(status if status in STATUSES else 0))
        if outcome in OUTCOMES:
            self.add("outcomes", str(outcome))
        if outcome == "busy":
            self.add("shed")

    def solve(self, kind: Kind, seconds: float) -> None:
        """One piece of work that is done."""
        self.add(f"solve_seconds_{bisect_left(SECONDS, seconds)}", kind.value)
        self.add("solve_seconds_sum", kind.value, seconds)

    def total(self, name: str, label: str = "") -> float:
        """Over all workers."""
        return sum(self._read(row, (name, label)) for row in range(self._rows))

    def _read(self, row: int, series: _Series) -> float:
        number: float = _NUMBER.unpack_from(self._memory, self._at(row, series))[0]
        return number

    def _at(self, row: int, series: _Series) -> int:
        return (row * len(SERIES) + _PLACES[series]) * _NUMBER.size


def shared_memory(rows: int) -> int | None:
    """A file descriptor of memory for so many workers; None where the system has no such memory."""
    if not hasattr(os, "memfd_create"):
        return None
    memory = os.memfd_create("larderline-metrics")
    os.ftruncate(memory, _size(rows))
    return memory


def _size(rows: int) -> int:
    return rows * len(SERIES) * _NUMBER.size
