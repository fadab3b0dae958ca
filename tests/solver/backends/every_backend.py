"""The backends that every conformance test runs on, and how a test asks them."""

import pytest

from solver.backends import BACKENDS, open_backend
from solver.backends.base import Limits, RawSolution
from solver.deadline import Deadline
from solver.program import LinearProgram

on_every_backend = pytest.mark.parametrize("backend", BACKENDS)

#: Far more than any programme of this suite needs.
AMPLE_S = 30.0


def ample() -> Limits:
    return Limits(Deadline.after(AMPLE_S))


def solve(backend: str, program: LinearProgram) -> RawSolution:
    session = open_backend(backend).open(program)
    try:
        return session.solve(ample())
    finally:
        session.close()
