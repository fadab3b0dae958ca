"""Ranges of random briefs over the food table: random dishes lie inside, and bisection finds the same ratios."""

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

import numpy as np
import pytest

from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.deadline import Deadline
from solver.formulate import Formulation
from solver.missing import count
from solver.numerics import FloatArray
from solver.outcome import Dish
from solver.reach import Pantry, range_of, reachable
from solver.reach_ends import amounts_at
from solver.reach_outcome import End
from solver.reach_search import Farthest, Search
from solver.targets import Target
from tests.solver.random_briefs import random_brief
from tests.solver.reaching import dish_at, pantry

SEEDS = [seed for seed in range(16) if seed % 4 != 3]


@pytest.mark.parametrize("seed", SEEDS)
def test_random_dishes_lie_inside_all_ranges(catalogue: Catalogue, seed: int) -> None:
    asked = random_brief(catalogue, seed)
    ranges = reachable(asked, pantry(asked).backend, Deadline.after(20))
    dishes = list(random_dishes(asked, seed))
    assert len(dishes) == 10
    for dish in dishes:
        for found, result in zip(ranges, dish.targets, strict=True):
            assert result.met
            slack = 1e-6 * max(1.0, abs(result.value or 0.0))
            assert _value(found.least, -np.inf) - slack <= (result.value or 0.0) <= _value(found.most, np.inf) + slack


def _same(row: FloatArray, _: Formulation) -> FloatArray:
    return row


def _value(end: End, without: float) -> float:
    return without if end.value is None else end.value


def random_dishes(asked: Brief, seed: int) -> Iterator[Dish]:
    """Ten dishes that meet every must: the furthest in random directions."""
    rng = np.random.default_rng(seed)
    musts = replace(asked, prefer=())
    search = Search(musts, count(asked), pantry(asked).backend, Deadline.after(20))
    try:
        for _ in range(10):
            row = np.zeros(search.formulation.layout.width)
            row[search.formulation.layout.use_columns] = rng.normal(size=len(search.formulation.layout.uses))
            found = search.most(partial(_same, row))
            if isinstance(found, Farthest):
                yield dish_at(asked, amounts_at(found.formulation, found.solved.x))
    finally:
        search.close()


@pytest.mark.parametrize("seed", SEEDS[:8])
@pytest.mark.parametrize("of", ["fat_share_percent", "ketogenic_ratio"])
def test_the_iteration_finds_the_ratio_that_bisection_on_feasibility_finds(
    catalogue: Catalogue, seed: int, of: str
) -> None:
    asked = random_brief(catalogue, seed)
    asked = replace(asked, targets=tuple(target for target in asked.targets if target.of != of))
    found = range_of(pantry(asked), Target(of, of))
    if found.most.value is not None:
        low, high = 0.0, 100.0 if of == "fat_share_percent" else 2 * found.most.value + 1
        while high - low > 1e-8 * high:
            middle = (low + high) / 2
            low, high = (middle, high) if _has_a_dish(asked, Target(of, of, lower=middle)) else (low, middle)
        assert found.most.value == pytest.approx(low, rel=2e-5)


def _has_a_dish(asked: Brief, must: Target) -> bool:
    bound = replace(asked, targets=(*asked.targets, must), prefer=())
    ours = Pantry(bound, pantry(asked).backend, Deadline.after(20))
    search = Search(bound, count(bound), ours.backend, ours.deadline)
    try:
        return isinstance(search.most(lambda formulation: np.zeros(formulation.layout.width)), Farthest)
    finally:
        search.close()
