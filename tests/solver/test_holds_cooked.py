"""Random cooked dishes over the real food table that hold: no composition of a sample breaks a must."""

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from itertools import chain

import numpy as np
import pytest

from reference_data import reference_folder
from solver.backends import open_backend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.components import Component, Drippings, Placed
from solver.cooking_table import load_cooking_table
from solver.errors import VerificationError
from solver.foods import Food
from solver.holds import Holds, Tolerance
from solver.holds_cooking import placed_at
from solver.holds_ends import ends
from solver.outcome import Conflict, Dish, Plan
from solver.pantry import PantryItem, Step
from solver.solve import solve
from solver.targets import Target
from solver.verify import dish_of
from tests.solver.random_cooked_briefs import Larder, random_cooked_brief

#: Of the EU tolerance, so that enough of the random bands are wide enough for it.
PART = 0.1

BRIEFS, SAMPLES = 60, 40


def moved(food: Food, holds: Holds, rng: np.random.Generator) -> Food:
    """Some composition inside the box, every second one a vertex of it; stated energy apart."""
    least, most = ends(food, holds)
    part = rng.random(len(least)) if rng.random() < 0.5 else rng.integers(0, 2, len(least))
    return replace(food, per_100g=least + part * (most - least))


def sampled(dish: Dish, asked: Brief, rng: np.random.Generator) -> Iterator[Dish]:
    assert asked.holds is not None
    spoons = {part.component.name: part.spoons for part in dish.cooked}
    for _ in range(SAMPLES):
        quantities = []
        for each in dish.quantities:
            item = replace(each.item, food=moved(each.item.food, asked.holds, rng))
            placed = each.placed
            if asked.holds.cooking:
                placed = placed_at(placed, asked.holds, all_kept=bool(rng.integers(0, 2)))
            quantities.append(replace(each, item=item, placed=placed))
        # A curve that is far outside of what was measured may let more fat run out of some composition than it has.
        with suppress(VerificationError):
            yield dish_of(quantities, replace(asked, holds=None), frozenset(), spoons)


def assert_no_worse(moved: Dish, stated: Dish) -> None:
    """No target comes to less or to more than the plan says of its worst case."""
    for now, each in zip(moved.targets, stated.targets, strict=True):
        if now.value is not None and each.worst is not None:
            slack = 1e-6 * max(1.0, abs(now.value))
            assert each.worst.lowest - slack <= now.value, each.target.id
            assert each.worst.highest is None or now.value <= each.worst.highest + slack, each.target.id


@pytest.mark.parametrize("cooking", [False, True])
def test_no_sampled_composition_breaks_a_must_of_a_cooked_dish(catalogue: Catalogue, *, cooking: bool) -> None:
    larder = Larder(catalogue, load_cooking_table(reference_folder() / "cooking"))
    rng, backend = np.random.default_rng(3), open_backend("highs")
    held = conflicts = counted = 0
    for seed in range(BRIEFS):
        plain = random_cooked_brief(larder, seed, stepped=seed % 3 == 0)
        asked = replace(plain, holds=Holds(Tolerance.EU, scale=PART, cooking=cooking))
        outcome = solve(asked, backend)
        conflicts += isinstance(outcome, Conflict)
        if isinstance(outcome, Plan):
            held += 1
            for dish in sampled(outcome.dish, asked, rng):
                counted += 1
                assert not dish.missed, (seed, dish.missed)
                assert_no_worse(dish, outcome.dish)
    assert held >= (BRIEFS // 6 if not cooking else 1)
    assert counted >= 0.9 * held * SAMPLES
    assert conflicts


def test_no_sampled_composition_breaks_a_must_of_a_mix_that_was_weighed(catalogue: Catalogue) -> None:
    """What ran out is known, what it is made of moves: from each of three foods."""
    curves = load_cooking_table(reference_folder() / "cooking").curves
    curve = next(each for each in curves if each.mix == "broiled patty")
    pan = Component(
        "pan", curve.mix, Drippings.SPOONED_BACK, curve=curve, cooked_g=760.0, drippings_g=190.0, finished=True
    )
    foods = {"beef": ("13498", 900.0), "egg": ("01123", 100.0), "pork": ("10219", 200.0)}
    items = tuple(
        PantryItem(
            name,
            catalogue.food(f"sr28:{number}"),
            at_least_g=grams,
            at_most_g=grams,
            step=Step(1, "batch", grams),
            placed=(Placed("pan"),),
        )
        for name, (number, grams) in foods.items()
    )
    targets = (
        Target("share", "fat_share_percent", lower=67.0, upper=79.0),
        Target("protein", "protein_g", lower=25.0),
        Target("saturated", "saturated_fat_g", upper=40.0),
        Target("cholesterol", "cholesterol_mg", upper=400.0),
    )
    moving = dict.fromkeys(("fat_g", "protein_g", "available_carbohydrate_g", "saturated_fat_g", "cholesterol_mg"), 5.0)
    holds = Holds(Tolerance.PERCENT, moving)
    asked = Brief("weighed", 4, items, targets, components=(pan,), holds=holds, time_limit_s=10.0)
    outcome = solve(asked, open_backend("highs"))
    assert isinstance(outcome, Plan)
    for dish in chain.from_iterable(sampled(outcome.dish, asked, np.random.default_rng(seed)) for seed in range(25)):
        assert not dish.missed
        assert_no_worse(dish, outcome.dish)
