"""What is seen of a brief while it is solved, and the best dish that it shows."""

from dataclasses import replace

import numpy as np
import pytest

from solver.backends import open_backend
from solver.backends.base import Limits, Progress
from solver.backends.highs import HighsBackend
from solver.best_so_far import best_so_far
from solver.catalogue import Catalogue
from solver.deadline import Deadline
from solver.levels import levels
from solver.outcome import Plan
from solver.solve import solve
from solver.watch import Look, looking
from tests.solver.backends.random_programmes import market_split
from tests.solver.larder import brief, posed
from tests.solver.random_briefs import random_brief


def watched(catalogue: Catalogue, seed: int, backend: str, *, stepped: bool) -> tuple[list[Look], Plan | None]:
    seen: list[Look] = []
    asked = random_brief(catalogue, seed, stepped=stepped)
    outcome = solve(asked, open_backend(backend), Deadline.after(10), watch=seen.append)
    return seen, outcome if isinstance(outcome, Plan) else None


@pytest.mark.parametrize("backend", ["highs", "scipy-highs"])
@pytest.mark.parametrize("stepped", [False, True])
@pytest.mark.parametrize("seed", range(6))
def test_the_last_look_at_each_level_is_what_its_proof_says(
    catalogue: Catalogue, seed: int, backend: str, *, stepped: bool
) -> None:
    seen, plan = watched(catalogue, seed, backend, stepped=stepped)
    if plan is None:
        return
    last = {look.level.name: look for look in seen}
    assert list(last) == [level.level for level in plan.proof.levels]
    for level in plan.proof.levels:
        look = last[level.level]
        assert look.bound == level.bound
        assert look.value is not None
        assert level.bound is None or look.value >= level.bound - 1e-6


@pytest.mark.parametrize("seed", range(8))
def test_every_dish_that_is_shown_meets_every_must(catalogue: Catalogue, seed: int) -> None:
    seen, _ = watched(catalogue, seed, "highs", stepped=True)
    for look in seen:
        dish = best_so_far(look)
        assert dish is None or all(result.met for result in dish.targets if result.target.priority is None)
        assert dish is None or look.x is not None


def test_enough_of_those_briefs_show_a_dish(catalogue: Catalogue) -> None:
    shown = [any(best_so_far(look) for look in watched(catalogue, seed, "highs", stepped=True)[0]) for seed in range(8)]
    assert sum(shown) >= 3


def test_a_point_that_breaks_a_must_when_it_is_printed_shows_no_dish() -> None:
    formulation = posed(brief())
    level = levels(formulation)[0]
    nothing = Look(formulation, level, 0.0, 0.0, np.zeros(formulation.layout.width))
    assert best_so_far(nothing) is None, "an empty plate has no energy"
    assert best_so_far(replace(nothing, x=None)) is None


def test_whoever_looks_is_told_the_level() -> None:
    formulation, seen = posed(brief()), list[Look]()
    level = levels(formulation)[0]
    looking(seen.append, formulation, level)(Progress(0.1, 2.0, 1.0))
    (look,) = seen
    assert (look.level.name, look.value, look.bound, look.x) == ("balanced", 2.0, 1.0, None)


def test_nobody_looks_and_the_plan_is_the_same(catalogue: Catalogue) -> None:
    for seed in range(4):
        asked = random_brief(catalogue, seed, stepped=True)
        alone = solve(asked, HighsBackend(), Deadline.after(10))
        _, plan = watched(catalogue, seed, "highs", stepped=True)
        if plan is not None:
            assert isinstance(alone, Plan)
            assert alone.dish.quantities == plan.dish.quantities


def test_highs_shows_the_best_point_of_a_running_solve() -> None:
    hard = market_split(rows=4, columns=30, seed=0)
    session, seen = HighsBackend().open(hard), list[Progress]()
    session.watch(seen.append)
    session.solve(Limits(Deadline.after(0.4)))
    session.close()
    with_points = [progress for progress in seen if progress.x is not None]
    for progress in with_points:
        assert progress.x is not None
        assert progress.objective is not None
        assert float(hard.cost @ progress.x) >= progress.objective - 1e-6
    assert with_points
