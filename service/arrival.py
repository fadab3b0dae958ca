"""When a request arrived, and by when it is to be answered: reading it and waiting for a place are part of its time."""

import time

from fastapi import Request

from service.stages import stages_of
from solver.deadline import Deadline


def note_arrival(request: Request) -> None:
    """The whole body is here, now; how long it may take to come has a limit of its own."""
    request.state.arrived_s = time.monotonic()
    stages_of(request).begin("parse")


def deadline_of(request: Request, seconds: float) -> Deadline:
    """The moment that many seconds after the arrival of a request."""
    return Deadline(request.state.arrived_s + seconds)
