"""Levels on one session: each on the optimal face of those before, each bound checked or marked as a claim."""

from dataclasses import replace

import numpy as np
import pytest

from solver.backends import open_backend
from solver.backends.base import Limits, RawSolution, Status
from solver.backends.fake import FakeBackend
from solver.brief import Brief, Preference
from solver.chain import Chain
from solver.deadline import Deadline
from solver.errors import VerificationError
from solver.levels import levels
from solver.numerics import FloatArray
from solver.outcome import Checked, ProofStatus
from solver.pantry import PantryItem, Step
from solver.program import LinearProgram
from solver.solved import ChainEnd
from solver.targets import Target
from tests.solver import larder


def run(brief: Brief) -> ChainEnd:
    formulation = larder.posed(brief)
    chain = Chain(open_backend("highs"), formulation)
    try:
        return chain.run(levels(formulation), Deadline.after(10))
    finally:
        chain.close()


def wish(of: str, lower: float | None, upper: float | None, priority: int) -> Target:
    return replace(larder.between(of, lower, upper), priority=priority)


def test_a_wish_that_can_be_met_is_met_before_the_preference_is_sought() -> None:
    priced = tuple(replace(item, price_per_g=0.01 * (n + 1)) for n, item in enumerate(larder.brief().pantry))
    brief = replace(
        larder.brief(*priced, targets=(larder.ENERGY, wish("protein_g", 50.0, None, 1))),
        prefer=(Preference.CHEAPEST,),
    )
    wished, cheapest = run(brief).solved
    assert wished.value == pytest.approx(0.0, abs=1e-9)
    protein_g = float(np.array([1, 30, 10]) @ by_name(brief, cheapest.x))
    assert protein_g == pytest.approx(50.0)


def by_name(brief: Brief, x: FloatArray) -> FloatArray:
    """Amounts in 100 g, in the brief's own order."""
    layout = larder.posed(brief).layout
    amounts = {item.name: amount for item, amount in zip(layout.items, x, strict=False)}
    return np.array([amounts[item.name] for item in brief.pantry])


def test_wishes_are_met_in_the_order_of_their_priority() -> None:
    # By hand, with c and b in 100 g of chicken and butter: 156 c + 728 b = 600 and 4 c + 80 b = 50 leave
    # 30 c + b = 36.9 g protein; with 30 c + b = 60 instead, 4 c + 80 b = 39.8 g fat are left.
    first, second = wish("fat_g", 50.0, None, 1), wish("protein_g", 60.0, None, 2)
    end = run(larder.brief(targets=(larder.ENERGY, first, second)))
    assert [solved.level.name for solved in end.solved[:2]] == ["wishes of priority 1", "wishes of priority 2"]
    assert end.solved[0].value == pytest.approx(0.0, abs=1e-9)
    assert end.solved[1].value == pytest.approx(1 - 36.9356 / 60, abs=1e-5)
    swapped = run(
        larder.brief(targets=(larder.ENERGY, replace(first, priority=2), replace(second, priority=1))),
    )
    assert swapped.solved[0].value == pytest.approx(0.0, abs=1e-9)
    assert swapped.solved[1].value == pytest.approx(1 - 39.8229 / 50, abs=1e-5)


def test_a_missed_wish_does_not_hide_the_deviation_of_the_others() -> None:
    targets = (larder.ENERGY, wish("protein_g", 300.0, 320.0, 1))
    end = run(larder.brief(targets=targets))
    assert end.freed == frozenset({1})
    assert end.solved[-1].level.name == "balanced"
    assert end.solved[-1].value < 1.0 + 1e-9


def test_a_linear_level_is_vouched_for_by_our_own_certificate() -> None:
    (balanced,) = run(larder.brief()).solved
    assert (balanced.status, balanced.checked) == (ProofStatus.OPTIMAL, Checked.CERTIFICATE)
    assert balanced.bound == pytest.approx(0.0, abs=1e-9)


def test_an_integer_level_is_marked_as_the_solvers_claim() -> None:
    stepped = PantryItem("butter", larder.BUTTER, step=Step(1, "pat", 5.0))
    (balanced,) = run(larder.brief(stepped, larder.item(larder.CHICKEN))).solved
    assert balanced.checked is Checked.CLAIM
    assert balanced.bound is not None


def pretending(**changes: object) -> FakeBackend:
    """A solver that answers as HiGHS would, but for some changes."""

    def answer(program: LinearProgram) -> RawSolution:
        honest = open_backend("highs").open(program).solve(Limits(Deadline.after(10)))
        return replace(honest, **changes)  # type: ignore[arg-type]  # the changes are RawSolution's own fields

    return FakeBackend(answer)


def test_a_solver_whose_point_breaks_its_own_bounds_is_found_out() -> None:
    formulation = larder.posed(larder.brief())
    chain = Chain(pretending(x=np.zeros(formulation.layout.width)), formulation)
    with pytest.raises(VerificationError, match="outside its own bounds"):
        chain.run(levels(formulation), Deadline.after(10))


def test_a_solver_that_calls_a_worse_point_optimal_is_found_out() -> None:
    formulation = larder.posed(larder.brief())
    worse = run(larder.brief()).solved[0].x.copy()
    worse[formulation.layout.deviation_column] = 0.9
    chain = Chain(pretending(x=worse), formulation)
    with pytest.raises(VerificationError, match="multipliers prove"):
        chain.run(levels(formulation), Deadline.after(10))


def test_a_plan_of_an_earlier_level_survives_a_later_time_out() -> None:
    formulation = larder.posed(larder.brief(targets=(larder.ENERGY, wish("protein_g", 30.0, 40.0, 1))))
    first = run(formulation.brief).solved[0]
    honest = RawSolution(Status.OPTIMAL, "optimal", x=first.x, objective=0.0)
    chain = Chain(FakeBackend([honest, RawSolution(Status.TIME_LIMIT, "time limit")]), formulation)
    end = chain.run(levels(formulation), Deadline.after(10))
    assert end.status is Status.TIME_LIMIT
    assert [solved.status for solved in end.solved] == [ProofStatus.BEST_FOUND, ProofStatus.BEST_FOUND]
    assert end.x is not None
    assert (end.x == first.x).all()


def test_a_first_level_without_a_point_ends_the_chain_with_its_status() -> None:
    formulation = larder.posed(larder.brief())
    end = Chain(FakeBackend([RawSolution(Status.TIME_LIMIT, "time limit")]), formulation).run(
        levels(formulation), Deadline.after(10)
    )
    assert (end.solved, end.status, end.x) == ((), Status.TIME_LIMIT, None)
