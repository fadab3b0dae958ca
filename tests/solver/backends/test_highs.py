"""What is particular to HiGHS through its own interface; the rest is in the conformance tests."""

import gc
import threading
import weakref

import pytest

from solver.backends.base import Limits, Progress, Status
from solver.backends.highs import HighsBackend
from solver.deadline import Deadline
from tests.solver.backends.every_backend import ample
from tests.solver.backends.random_programmes import market_split, small_programme

HARD = market_split(rows=4, columns=30, seed=0)


def test_a_running_solve_stops_soon_when_it_is_interrupted() -> None:
    session = HighsBackend().open(HARD)
    threading.Timer(0.2, session.interrupt).start()
    answer = session.solve(ample())
    assert answer.status is Status.INTERRUPTED
    assert session.solve(ample()).native == "interrupted before the solve"


def test_a_watcher_sees_each_solve_from_its_own_beginning() -> None:
    session = HighsBackend().open(HARD)
    session.solve(Limits(Deadline.after(0.5)))
    seen: list[Progress] = []
    session.watch(seen.append)
    session.solve(Limits(Deadline.after(0.2)))
    assert seen
    assert all(0.0 <= progress.seconds < 0.4 for progress in seen)
    assert all(
        progress.bound <= progress.objective
        for progress in seen
        if progress.bound is not None and progress.objective is not None
    )


def test_a_watcher_is_no_longer_called_once_it_is_dismissed() -> None:
    session = HighsBackend().open(HARD)
    seen: list[Progress] = []
    session.watch(seen.append)
    session.watch(None)
    session.solve(Limits(Deadline.after(0.1)))
    assert seen == []


def test_nothing_is_printed(capfd: pytest.CaptureFixture[str]) -> None:
    session = HighsBackend().open(small_programme(1, feasible=True, integers=True))
    session.solve(ample())
    session.close()
    assert HighsBackend().version
    assert capfd.readouterr() == ("", "")


def test_solving_twice_from_fresh_gives_the_same_point() -> None:
    program = small_programme(11, feasible=True, integers=True)
    first, second = (HighsBackend().open(program).solve(ample()).x for _ in range(2))
    assert first is not None
    assert second is not None
    assert first.tolist() == second.tolist()


def test_a_closed_session_leaves_nothing_to_the_collector_of_cycles() -> None:
    gc.disable()
    try:
        session = HighsBackend().open(small_programme(0, feasible=True, integers=False))
        session.solve(ample())
        session.close()
        seen = weakref.ref(session)
        del session
        assert seen() is None
    finally:
        gc.enable()
