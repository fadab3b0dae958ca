"""The scripted backend, which tests above the seam rely on."""

import numpy as np
import pytest

from solver.backends.base import Limits, RawSolution, Status
from solver.backends.fake import FakeBackend
from solver.deadline import Deadline
from solver.errors import BackendError
from tests.solver.backends.every_backend import ample
from tests.solver.backends.random_programmes import small_programme

PROGRAMME = small_programme(1, feasible=True, integers=False)
INFEASIBLE = RawSolution(Status.INFEASIBLE, "scripted")
STOPPED = RawSolution(Status.STOPPED, "scripted")


def test_answers_come_in_the_order_of_the_script() -> None:
    session = FakeBackend([INFEASIBLE, STOPPED]).open(PROGRAMME)
    assert [session.solve(ample()).status, session.solve(ample()).status] == [Status.INFEASIBLE, Status.STOPPED]


def test_past_the_end_of_the_script_is_an_error() -> None:
    session = FakeBackend([INFEASIBLE]).open(PROGRAMME)
    session.solve(ample())
    with pytest.raises(BackendError, match="no answer left"):
        session.solve(ample())


def test_a_function_answers_by_the_programme() -> None:
    backend = FakeBackend(lambda program: STOPPED if program.cost.any() else INFEASIBLE)
    session = backend.open(PROGRAMME)
    session.set_cost(np.zeros(len(PROGRAMME.cost)))
    assert session.solve(ample()).status is Status.INFEASIBLE


def test_the_programme_of_each_solve_is_recorded_as_it_stood() -> None:
    backend = FakeBackend([STOPPED, STOPPED])
    session, zero = backend.open(PROGRAMME), np.zeros(len(PROGRAMME.cost))
    session.solve(ample())
    session.set_cost(zero)
    session.solve(ample())
    assert [program.cost.tolist() for program in backend.asked] == [PROGRAMME.cost.tolist(), zero.tolist()]
    assert len(backend.limits) == 2


def test_a_solve_without_time_uses_up_no_answer() -> None:
    backend = FakeBackend([STOPPED])
    session = backend.open(PROGRAMME)
    assert session.solve(Limits(Deadline.after(0.0))).status is Status.TIME_LIMIT
    assert session.solve(ample()).status is Status.STOPPED
    assert len(backend.asked) == 1
