"""A level that yields: of plans that nobody can tell apart by it, the best by the next, with one search for both."""

from dataclasses import replace

import numpy as np
import pytest

from solver.backends import open_backend
from solver.backends.base import Limits, RawSolution, Status
from solver.backends.fake import FakeBackend
from solver.brief import Brief, Preference
from solver.chain import Chain
from solver.deadline import Deadline
from solver.levels import BALANCED_GAP, CHEAPEST_GAP, Level, levels
from solver.numerics import VERIFICATION
from solver.outcome import Checked, Plan, ProofStatus
from solver.pantry import PantryItem, Step
from solver.program import LinearProgram, Rows
from solver.solve import solve
from solver.solved import ChainEnd
from tests.solver import larder

BOTH = (Preference.BALANCED, Preference.CHEAPEST)


def counted_out(step_g: float, *, portions: int = 1) -> Brief:
    """Butter, chicken and bread by the piece, each with a price, and bands with a middle."""
    foods = (larder.BUTTER, larder.CHICKEN, larder.BREAD)
    items = (
        PantryItem(food.name, food, step=Step(1, "piece", step_g), price_per_g=price)
        for food, price in zip(foods, (0.02, 0.01, 0.005), strict=True)
    )
    targets = (larder.between("energy_kcal", 400.0, 600.0), larder.between("protein_g", 20.0, 40.0))
    return replace(larder.brief(*items, targets=targets, portions=portions), prefer=BOTH)


def run(brief: Brief, *wanted: Level) -> ChainEnd:
    formulation = larder.posed(brief)
    chain = Chain(open_backend("highs"), formulation)
    try:
        return chain.run(wanted or levels(formulation), Deadline.after(10))
    finally:
        chain.close()


def one_by_one(brief: Brief) -> ChainEnd:
    return run(brief, *(replace(level, yields=False) for level in levels(larder.posed(brief))))


@pytest.mark.parametrize("step_g", [1.0, 2.5, 5.0])
def test_the_level_after_it_is_the_best_of_all_that_lie_within_its_gap(step_g: float) -> None:
    brief = counted_out(step_g)
    balanced, cheapest = run(brief).solved
    assert balanced.bound is not None
    assert balanced.value - balanced.bound <= BALANCED_GAP + VERIFICATION
    assert cheapest.value == pytest.approx(best_by_another_solver(brief, balanced.bound), abs=CHEAPEST_GAP)


def best_by_another_solver(brief: Brief, bound: float) -> float:
    """The least cost of all plans whose deviation is within the gap above a bound, as CBC finds it."""
    formulation = larder.posed(brief)
    deviation, cost = (level.cost for level in levels(formulation))
    session = open_backend("pulp-cbc").open(formulation.program)
    session.add_rows(Rows.from_dense(deviation[None, :]), np.array([-np.inf]), np.array([bound + BALANCED_GAP]))
    session.set_cost(cost)
    found = session.solve(Limits(Deadline.after(10)))
    assert found.status is Status.OPTIMAL
    assert found.objective is not None
    return found.objective


def test_it_is_proven_by_a_certificate_and_not_by_a_claim() -> None:
    balanced, _ = run(counted_out(5.0)).solved
    assert (balanced.status, balanced.checked) == (ProofStatus.WITHIN_GAP, Checked.CERTIFICATE)


def test_what_comes_after_it_is_no_dearer_than_when_it_is_sought_by_itself() -> None:
    for step_g in (1.0, 2.5, 5.0):
        brief = counted_out(step_g)
        assert run(brief).solved[1].value <= one_by_one(brief).solved[1].value + CHEAPEST_GAP


def test_where_nothing_lies_within_the_gap_of_its_bound_it_is_sought_by_itself() -> None:
    coarse = counted_out(70.0)
    found, alone = run(coarse), one_by_one(coarse)
    assert alone.solved[0].value > BALANCED_GAP  # 70 g are too coarse for the middle of both bands
    assert found.solved[0].checked is Checked.CLAIM
    for ours, theirs, gap in zip(found.solved, alone.solved, (BALANCED_GAP, CHEAPEST_GAP), strict=True):
        assert ours.value == pytest.approx(theirs.value, abs=gap)


def test_where_the_clock_ends_the_search_for_both_the_next_level_has_the_time_that_is_left() -> None:
    searches: list[LinearProgram] = []

    def answer(program: LinearProgram) -> RawSolution:
        honest = open_backend("highs").open(program).solve(Limits(Deadline.after(10), CHEAPEST_GAP))
        searches.extend([program] * program.has_integers)
        return replace(honest, status=Status.TIME_LIMIT) if len(searches) == 1 and program.has_integers else honest

    formulation = larder.posed(counted_out(5.0))
    balanced, cheapest = Chain(FakeBackend(answer), formulation).run(levels(formulation), Deadline.after(10)).solved
    assert len(searches) == 2
    assert balanced.most is not None
    assert cheapest.status is not ProofStatus.BEST_FOUND
    assert float(balanced.level.cost @ cheapest.x) <= balanced.most + VERIFICATION


def test_without_whole_numbers_each_level_is_sought_by_itself() -> None:
    whole = counted_out(5.0)
    weighed = replace(whole, pantry=tuple(replace(item, step=None) for item in whole.pantry))
    balanced, cheapest = run(weighed).solved
    assert balanced.value == pytest.approx(0.0, abs=1e-9)
    assert (balanced.most, cheapest.most) == (None, None)


def test_the_printed_plan_stays_within_what_the_level_was_let_come_to() -> None:
    stepped = counted_out(5.0, portions=4)
    half = replace(stepped, pantry=(replace(stepped.pantry[0], step=None), *stepped.pantry[1:]))
    plan = solve(half, open_backend("highs"))
    assert isinstance(plan, Plan)
    balanced, cheapest = plan.proof.levels
    assert balanced.gap is not None
    assert cheapest.gap is not None
    assert balanced.gap <= BALANCED_GAP + 0.01  # a tenth of a gram of butter is 0.2 % of half a band
    assert cheapest.gap <= CHEAPEST_GAP + 0.01 * 0.02 * 100  # and costs 0.002
