import math
from pathlib import Path

import highspy
import numpy as np
import pytest

from solver.backends.base import Limits, RawSolution, Status
from solver.backends.fake import FakeBackend
from solver.backends.highs import HighsBackend
from solver.backends.mps import write_mps
from solver.backends.remembered import Remembered
from solver.deadline import Deadline
from solver.errors import BackendError
from solver.numerics import FloatArray
from solver.program import LinearProgram, Rows

LONG = Limits(Deadline(float("inf")))


def at_most_4() -> LinearProgram:
    """At least -x - 2y with x + y <= 4, y <= 3.5, y whole."""
    return LinearProgram(
        cost=np.array([-1.0, -2.0]),
        rows=Rows.from_dense(np.array([[1.0, 1.0]])),
        row_lower=np.array([-math.inf]),
        row_upper=np.array([4.0]),
        column_lower=np.zeros(2),
        column_upper=np.array([math.inf, 3.5]),
        integer=np.array([False, True]),
    )


def optimum_of(path: Path) -> float:
    """By HiGHS's own reader of the format."""
    highs = highspy.Highs()
    highs.setOptionValue("threads", 1)  # one process has one number of threads, which its first solve decides
    highs.setOptionValue("output_flag", False)  # noqa: FBT003  the library takes no keyword
    assert highs.readModel(str(path)) != highspy.HighsStatus.kError
    highs.run()
    assert highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return float(highs.getInfo().objective_function_value)


def test_a_programme_that_is_read_back_has_the_same_optimum(tmp_path: Path) -> None:
    write_mps(at_most_4(), tmp_path / "a.mps")
    assert optimum_of(tmp_path / "a.mps") == pytest.approx(-1 - 2 * 3)


@pytest.mark.parametrize("where", ["/nowhere/a.mps", "/dev/full"])
def test_a_programme_that_cannot_be_written_is_an_error(where: str) -> None:
    with pytest.raises((OSError, BackendError)):
        write_mps(at_most_4(), Path(where))


def test_what_is_remembered_is_the_programme_as_it_was_solved_with_every_change_in_it(tmp_path: Path) -> None:
    remembered = Remembered()
    assert not remembered.write(tmp_path / "none.mps")
    session = remembered.watching(HighsBackend()).open(at_most_4())
    session.set_cost(np.array([-1.0, -3.0]))
    session.set_column_bounds(np.array([1.0, 0.0]), np.array([math.inf, 9.5]))
    session.set_row_bounds(np.array([-math.inf]), np.array([8.0]))
    session.add_rows(Rows.from_dense(np.array([[0.0, 1.0]])), np.array([-math.inf]), np.array([6.75]))
    session.set_integer(np.array([False, False]))
    raw = session.solve(LONG)
    session.set_cost(np.zeros(2))
    assert remembered.write(tmp_path / "a.mps")
    assert raw.objective == pytest.approx(-1.25 - 3 * 6.75)
    assert optimum_of(tmp_path / "a.mps") == pytest.approx(raw.objective)


def answers(*statuses: tuple[Status, float]) -> FakeBackend:
    x: FloatArray = np.zeros(2)
    return FakeBackend([RawSolution(status, "said", x, 0.0, seconds=seconds) for status, seconds in statuses])


def test_the_solve_that_went_on_for_longest_without_a_decision_is_the_one_that_is_written(tmp_path: Path) -> None:
    remembered = Remembered()
    said = [(Status.OPTIMAL, 9.0), (Status.TIME_LIMIT, 2.0), (Status.TIME_LIMIT, 0.0), (Status.OPTIMAL, 5.0)]
    session = remembered.watching(answers(*said)).open(at_most_4())
    for number, _ in enumerate(said):
        session.set_cost(np.array([0.0, -1.0 - number]))
        session.solve(LONG)
    remembered.write(tmp_path / "a.mps")
    assert optimum_of(tmp_path / "a.mps") == pytest.approx(-2.0 * 3)


def test_a_solve_that_breaks_comes_before_one_that_only_took_long(tmp_path: Path) -> None:
    remembered = Remembered()
    session = remembered.watching(answers((Status.TIME_LIMIT, 20.0), (Status.FAILED, 0.1))).open(at_most_4())
    for cost in (-1.0, -5.0):
        session.set_cost(np.array([0.0, cost]))
        session.solve(LONG)
    remembered.write(tmp_path / "a.mps")
    assert optimum_of(tmp_path / "a.mps") == pytest.approx(-5.0 * 3)
