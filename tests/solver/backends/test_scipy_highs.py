"""What is particular to HiGHS through scipy; the rest is in the conformance tests."""

import scipy

from solver.backends.base import Limits, Progress, Status
from solver.backends.scipy_highs import ScipyHighsBackend
from solver.deadline import Deadline
from tests.solver.backends.every_backend import ample
from tests.solver.backends.random_programmes import market_split, small_programme


def test_the_version_names_scipy() -> None:
    assert scipy.__version__ in ScipyHighsBackend().version


def test_a_watcher_is_never_called() -> None:
    seen: list[Progress] = []
    session = ScipyHighsBackend().open(market_split(rows=2, columns=12, seed=1))
    session.watch(seen.append)
    assert session.solve(ample()).status is Status.OPTIMAL
    assert seen == []


def test_an_incumbent_at_the_time_limit_comes_with_a_bound() -> None:
    answer = ScipyHighsBackend().open(market_split(rows=4, columns=30, seed=0)).solve(Limits(Deadline.after(0.6)))
    assert answer.status is Status.TIME_LIMIT
    assert answer.objective is not None
    assert answer.bound is not None
    assert answer.bound <= answer.objective


def test_solving_twice_gives_the_same_point() -> None:
    session = ScipyHighsBackend().open(small_programme(11, feasible=True, integers=True))
    first, second = session.solve(ample()).x, session.solve(ample()).x
    assert first is not None
    assert second is not None
    assert first.tolist() == second.tolist()
