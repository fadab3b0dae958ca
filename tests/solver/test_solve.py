"""The way through: each outcome, and what may never leave."""

from dataclasses import replace

import numpy as np
import pytest

from solver.backends import open_backend
from solver.backends.base import RawSolution, Status
from solver.backends.fake import FakeBackend
from solver.deadline import Deadline
from solver.errors import BackendError, UnusableBrief, VerificationError
from solver.outcome import Plan, Undecided
from solver.pantry import PantryItem, Step
from solver.solve import solve
from tests.solver import larder


def test_a_plan_meets_its_targets_and_says_who_proved_it() -> None:
    plan = solve(larder.brief(), open_backend("highs"))
    assert isinstance(plan, Plan)
    (energy,) = plan.dish.targets
    assert energy.met
    assert energy.value == pytest.approx(500.0, abs=1.0)
    assert (plan.proof.solver, len(plan.proof.levels)) == ("highs", 1)
    assert plan.proof.solver_version


def test_no_time_at_all_leaves_the_brief_undecided() -> None:
    outcome = solve(replace(larder.brief(), time_limit_s=0.0), open_backend("highs"))
    assert isinstance(outcome, Undecided)
    assert outcome.advice


def test_the_callers_deadline_outranks_the_briefs_own_limit() -> None:
    assert isinstance(solve(larder.brief(), open_backend("highs"), Deadline.after(0)), Undecided)


def test_an_interrupted_solve_is_undecided() -> None:
    fake = FakeBackend([RawSolution(Status.INTERRUPTED, "interrupted")])
    assert isinstance(solve(larder.brief(), fake), Undecided)


@pytest.mark.parametrize("status", [Status.FAILED, Status.UNBOUNDED])
def test_a_solver_that_breaks_is_no_answer(status: Status) -> None:
    with pytest.raises(BackendError):
        solve(larder.brief(), FakeBackend([RawSolution(status, "broken")]))


def test_a_false_infeasible_is_found_out_by_the_elastic_programme() -> None:
    """A solver that calls a possible brief infeasible does not get a conflict through."""
    honest = open_backend("highs")
    lies = iter([RawSolution(Status.INFEASIBLE, "infeasible")])

    def answer(program: object) -> RawSolution:
        from solver.backends.base import Limits  # noqa: PLC0415  one use

        return next(lies, None) or honest.open(program).solve(Limits(Deadline.after(10)))  # type: ignore[arg-type]

    assert isinstance(solve(larder.brief(), FakeBackend(answer)), Undecided)


def test_a_point_that_misses_a_must_never_leaves() -> None:
    width = larder.posed(larder.brief()).layout.width
    fake = FakeBackend([RawSolution(Status.OPTIMAL, "optimal", x=np.zeros(width), objective=0.0)])
    with pytest.raises(VerificationError):
        solve(larder.brief(), fake)


def test_an_unusable_brief_never_reaches_a_solver() -> None:
    fake = FakeBackend([])
    with pytest.raises(UnusableBrief):
        solve(replace(larder.brief(), portions=0), fake)
    assert fake.asked == []


def test_a_hard_stepped_brief_keeps_to_its_deadline_and_keeps_what_it_found() -> None:
    # Equality knapsacks over many steps are hard on purpose; half a second must be half a second.
    rng = np.random.default_rng(7)
    items = tuple(
        PantryItem(
            f"item {n}",
            larder.macronutrients(f"item {n}", protein=float(rng.uniform(1, 30)), fat=float(rng.uniform(1, 60))),
            step=Step(1, "spoon", float(rng.uniform(3, 40))),
        )
        for n in range(60)
    )
    narrow = (larder.between("protein_g", 30.0, 30.0001), larder.between("fat_g", 60.0, 60.0001))
    outcome = solve(replace(larder.brief(*items, targets=narrow), time_limit_s=0.5), open_backend("highs"))
    assert outcome.proof.seconds < 2.0
