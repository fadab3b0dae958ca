import threading
import time

import pytest

from solver.backends import open_backend
from solver.backends.base import Limits, Status
from solver.backends.stop import Stop
from solver.deadline import Deadline
from solver.formulate import formulate
from solver.missing import count
from solver.outcome import Plan, Undecided
from solver.solve import solve
from tests.solver.larder import brief

BACKENDS = ["highs", "scipy-highs", "pulp-cbc"]


@pytest.mark.parametrize("name", BACKENDS)
def test_a_session_that_is_opened_after_the_stop_solves_nothing(name: str) -> None:
    stop = Stop()
    stop.set()
    session = stop.watching(open_backend(name)).open(formulate(brief(), count(brief())).program)
    assert session.solve(Limits(Deadline.after(5))).status is Status.INTERRUPTED
    session.close()


@pytest.mark.parametrize("name", BACKENDS)
def test_a_session_that_is_open_solves_no_more(name: str) -> None:
    stop = Stop()
    session = stop.watching(open_backend(name)).open(formulate(brief(), count(brief())).program)
    assert session.solve(Limits(Deadline.after(5))).status is Status.OPTIMAL
    stop.set()
    assert session.solve(Limits(Deadline.after(5))).status is Status.INTERRUPTED
    session.close()


@pytest.mark.parametrize("name", BACKENDS)
def test_stopping_what_is_closed_does_nothing(name: str) -> None:
    stop = Stop()
    backend = stop.watching(open_backend(name))
    assert isinstance(solve(brief(), backend), Plan)
    stop.set()
    assert (backend.name, backend.version) == (name, open_backend(name).version)


def test_a_brief_that_is_stopped_is_undecided() -> None:
    stop = Stop()
    stop.set()
    assert isinstance(solve(brief(), stop.watching(open_backend("highs"))), Undecided)


def test_it_may_be_set_from_another_thread() -> None:
    stop = Stop()
    threading.Timer(0.05, stop.set).start()
    session = stop.watching(open_backend("highs")).open(formulate(brief(), count(brief())).program)
    ends = time.monotonic() + 5
    while session.solve(Limits(Deadline.after(5))).status is Status.OPTIMAL:
        assert time.monotonic() < ends
    session.close()
