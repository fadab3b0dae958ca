"""Every status of every library has its place in the one vocabulary, and what has none is an error."""

import inspect
from collections.abc import Mapping

import highspy
import pulp  # type: ignore[import-untyped]  # PuLP 3 ships no types
import pytest
from scipy.optimize import linprog, milp
from scipy.optimize._highspy._core import (  # type: ignore[import-not-found]  # the only place scipy keeps them
    HighsModelStatus,
)

from solver.backends import highs_statuses, pulp_cbc, scipy_highs
from solver.backends.base import Status
from solver.errors import BackendError


def test_highs_has_a_place_for_every_status_of_its_library() -> None:
    assert set(highs_statuses.STATUSES) == set(highspy.HighsModelStatus.__members__)


def test_scipy_has_a_place_for_every_status_of_the_highs_inside() -> None:
    assert set(scipy_highs.HIGHS_STATUSES) == {int(status) for status in HighsModelStatus.__members__.values()}


@pytest.mark.parametrize("function", [linprog, milp])
def test_scipy_has_a_place_for_every_status_it_documents(function: object) -> None:
    documented = inspect.getdoc(function)
    assert documented is not None
    listed = documented.partition("status : int")[2].partition("success")[0].partition("nit : int")[0]
    assert all(f"``{code}`` :" in listed for code in scipy_highs.STATUSES)
    assert f"``{len(scipy_highs.STATUSES)}`` :" not in listed


def test_cbc_has_a_place_for_every_status_of_pulp() -> None:
    assert set(pulp_cbc.STATUSES) == set(pulp.LpStatus)
    assert set(pulp_cbc.SOLUTION_STATUSES) == set(pulp.constants.LpSolution)


@pytest.mark.parametrize(
    ("table", "optimal"),
    [
        (highs_statuses.STATUSES, {"kOptimal", "kModelEmpty"}),
        (scipy_highs.STATUSES, {0}),
        (scipy_highs.HIGHS_STATUSES, {7}),
        (pulp_cbc.STATUSES, {pulp.LpStatusOptimal}),
        (pulp_cbc.SOLUTION_STATUSES, {pulp.LpSolutionOptimal}),
        (pulp_cbc.STOP_REASONS, set()),
    ],
)
def test_only_an_optimum_is_called_optimal(table: Mapping[object, Status], optimal: set[object]) -> None:
    assert {native for native, status in table.items() if status is Status.OPTIMAL} == optimal


def test_scipys_infeasible_that_is_a_model_error_is_a_failure() -> None:
    assert scipy_highs.status_of(2, "The problem is infeasible. (HiGHS Status 8: ...)") is Status.INFEASIBLE
    assert scipy_highs.status_of(2, " (HiGHS Status 2: Model error)") is Status.FAILED


def test_scipys_optimum_that_it_found_broken_is_a_failure() -> None:
    assert scipy_highs.status_of(0, "(HiGHS Status 7: Optimal)") is Status.OPTIMAL
    assert scipy_highs.status_of(4, "(HiGHS Status 7: Optimal)") is Status.FAILED


def test_scipys_iteration_limit_is_no_time_limit() -> None:
    assert scipy_highs.status_of(1, "Time limit reached. (HiGHS Status 13: ...)") is Status.TIME_LIMIT
    assert scipy_highs.status_of(1, "Iteration limit reached. (HiGHS Status 14: ...)") is Status.STOPPED


@pytest.mark.parametrize(("code", "message"), [(5, "a new one"), (4, "(HiGHS Status 99: a new one)")])
def test_a_status_outside_scipys_tables_is_an_error(code: int, message: str) -> None:
    with pytest.raises(BackendError, match="outside its table"):
        scipy_highs.status_of(code, message)


def test_pulps_optimal_after_a_time_limit_is_a_time_limit() -> None:
    optimal, feasible = pulp.LpStatusOptimal, pulp.LpSolutionIntegerFeasible
    assert pulp_cbc.status_of(optimal, feasible, "Stopped on time") is Status.TIME_LIMIT
    assert pulp_cbc.status_of(optimal, feasible, "Stopped on iterations") is Status.STOPPED
    assert pulp_cbc.status_of(optimal, feasible, "words unheard of") is Status.STOPPED
    assert pulp_cbc.status_of(optimal, pulp.LpSolutionOptimal, "Optimal") is Status.OPTIMAL


def test_cbcs_stop_without_a_solution_is_a_time_limit() -> None:
    native = "Stopped on time (no integer solution - continuous used)"
    unsolved = pulp.LpStatusNotSolved, pulp.LpSolutionNoSolutionFound
    assert pulp_cbc.status_of(*unsolved, native) is Status.TIME_LIMIT


@pytest.mark.parametrize(
    ("code", "solution_code", "native"), [(7, 1, "Optimal"), (1, 9, "Optimal"), (0, 0, "Stopped on a whim")]
)
def test_a_status_outside_cbcs_tables_is_an_error(code: int, solution_code: int, native: str) -> None:
    with pytest.raises(BackendError, match="outside its table"):
        pulp_cbc.status_of(code, solution_code, native)
