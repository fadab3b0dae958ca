"""What must hold of every brief, shown on seeded random briefs over the real food table."""

from dataclasses import replace

import numpy as np
import pytest

from solver.backends import open_backend
from solver.backends.base import Backend
from solver.brief import Brief, Preference
from solver.catalogue import Catalogue
from solver.outcome import LevelProof, Outcome, Plan
from solver.solve import solve
from solver.targets import Target
from solver.targets_default import default_within
from tests.solver.random_briefs import random_brief

#: Bounds of two proofs of the same thing differ by no more, relative to max(1, |bound|).
SAME = 1e-6


@pytest.fixture(scope="module")
def highs() -> Backend:
    return open_backend("highs")


def proven_plan(outcome: Outcome) -> Plan:
    assert isinstance(outcome, Plan), outcome
    return outcome


def bound(level: LevelProof) -> float:
    assert level.bound is not None
    return level.bound


def never_worse(better: Plan, worse: Plan) -> bool:
    """Lexicographically: the first level where the proven bounds differ is lower in `better`."""
    for ours, theirs in zip(better.proof.levels, worse.proof.levels, strict=True):
        tolerance = SAME * max(1.0, abs(bound(theirs)))
        if bound(ours) < bound(theirs) - tolerance:
            return True
        if bound(ours) > bound(theirs) + tolerance:
            return False
    return True


@pytest.mark.parametrize("stepped", [False, True])
def test_permuting_a_brief_gives_the_identical_plan(catalogue: Catalogue, highs: Backend, *, stepped: bool) -> None:
    for seed in range(30):
        brief = random_brief(catalogue, seed, stepped=stepped)
        shuffle = np.random.default_rng(seed)
        turned = replace(
            brief,
            pantry=tuple(brief.pantry[n] for n in shuffle.permutation(len(brief.pantry))),
            targets=tuple(brief.targets[n] for n in shuffle.permutation(len(brief.targets))),
        )
        assert amounts(solve(brief, highs)) == amounts(solve(turned, highs)), seed


def amounts(outcome: Outcome) -> dict[str, float] | str:
    if isinstance(outcome, Plan):
        return {quantity.item.name: quantity.grams for quantity in outcome.dish.quantities}
    return type(outcome).__name__


def test_scaling_an_unstepped_brief_scales_it(catalogue: Catalogue, highs: Backend) -> None:
    scaled = 0
    for seed in range(40):
        brief = random_brief(catalogue, seed)
        stocked = (replace(i, on_hand_g=i.on_hand_g and 3 * i.on_hand_g) for i in brief.pantry)
        tripled = replace(brief, portions=3 * brief.portions, pantry=tuple(stocked))
        once, thrice = solve(brief, highs), solve(tripled, highs)
        assert type(once) is type(thrice), seed
        if isinstance(once, Plan) and isinstance(thrice, Plan):
            factor = 3.0 if brief.prefer == (Preference.CHEAPEST,) else 1.0
            assert bound(thrice.proof.levels[0]) == pytest.approx(factor * bound(once.proof.levels[0]), abs=1e-6), seed
            scaled += 1
    assert scaled > 20


def widened(brief: Brief) -> Brief:
    """Every band wider about the same middle, so that `balanced` measures the same deviation by a longer rule."""
    targets = []
    for target in brief.targets:
        by = 0.05 * max(target.lower or 0.0, target.upper or 0.0)
        if target.lower is not None and target.upper is not None:
            by = min(by, target.lower)  # an end below nothing would move the middle
        lower = None if target.lower is None else max(0.0, target.lower - by)
        targets.append(replace(target, lower=lower, upper=None if target.upper is None else target.upper + by))
    return replace(brief, targets=tuple(targets))


def within_a_hundred_percent(brief: Brief) -> bool:
    return all(t.upper is None or t.upper <= 100 for t in brief.targets if t.of == "fat_share_percent")


def test_a_wider_band_never_worsens_a_proven_plan(catalogue: Catalogue, highs: Backend) -> None:
    compared = 0
    for seed in range(60):
        brief = random_brief(catalogue, seed)
        wide = widened(brief)
        before = solve(brief, highs)
        if isinstance(before, Plan) and within_a_hundred_percent(wide):
            assert never_worse(proven_plan(solve(wide, highs)), before), seed
            compared += 1
    assert compared > 20


def test_one_more_item_never_worsens_a_proven_plan(catalogue: Catalogue, highs: Backend) -> None:
    compared = 0
    for seed in range(60):
        brief = random_brief(catalogue, seed)
        fewer = replace(brief, pantry=brief.pantry[:-1])
        before = solve(fewer, highs)
        if isinstance(before, Plan):
            assert never_worse(proven_plan(solve(brief, highs)), before), seed
            compared += 1
    assert compared > 20


def test_a_plans_own_totals_are_feasible_as_targets(catalogue: Catalogue, highs: Backend) -> None:
    posed = 0
    for seed in range(40):
        brief = random_brief(catalogue, seed, stepped=seed % 2 == 0)
        plan = solve(brief, highs)
        if isinstance(plan, Plan):
            targets = tuple(around(result.target, result.value) for result in plan.dish.targets if result.value)
            assert isinstance(solve(replace(brief, targets=targets), highs), Plan), seed
            posed += 1
    assert posed > 20


def around(target: Target, value: float) -> Target:
    within = default_within(target.of, value)
    upper = value + within if target.of != "fat_share_percent" else min(100.0, value + within)
    return replace(target, lower=max(0.0, value - within), upper=upper)
