"""Ranges of cooked briefs: random dishes, counted food by food, never go beyond them, whatever fat runs out."""

from dataclasses import replace

import numpy as np
import pytest

from reference_data import reference_folder
from solver.catalogue import Catalogue
from solver.cooking_table import load_cooking_table
from solver.deadline import Deadline
from solver.reach import reachable
from solver.targets import Target, WeightBasis
from tests.solver.random_cooked_briefs import Larder, random_cooked_brief, random_dish
from tests.solver.reaching import pantry, value_at

DISHES = 300

ASKED = ("energy_kcal", "fat_share_percent", "protein_g", "fat_g", "saturated_fat_g", "cholesterol_mg")

#: What all sources of fat hold alike, so that its range is reached.
ALIKE = ("energy_kcal", "fat_share_percent", "protein_g", "fat_g")


@pytest.fixture(scope="module")
def larder(catalogue: Catalogue) -> Larder:
    return Larder(catalogue, load_cooking_table(reference_folder() / "cooking"))


@pytest.mark.parametrize("stepped", [False, True])
@pytest.mark.parametrize("seed", range(5))
def test_no_random_dish_is_beyond_a_range_and_ends_are_reached(larder: Larder, seed: int, *, stepped: bool) -> None:
    plain = random_cooked_brief(larder, seed, stepped=stepped)
    asked = replace(plain, targets=(Target("fed", "energy_kcal", lower=1.0),))
    wanted = tuple(Target(of, of, lower=0.0) for of in ASKED)
    ranges = dict(zip(ASKED, reachable(asked, pantry(asked).backend, Deadline.after(30), wanted), strict=True))
    rng = np.random.default_rng(seed)
    for _ in range(DISHES):
        dish = random_dish(rng, asked, ASKED)
        for result in dish.targets:
            if dish.portion.energy_kcal >= 1 and result.value is not None:
                least, most = ranges[result.target.of].least, ranges[result.target.of].most
                assert least.value is not None
                assert most.value is not None
                below, above = (1e-5 + (end.gap or 0.0) for end in (least, most))
                assert least.value - below <= result.value <= most.value + above, result.target.of
    for of in ALIKE:
        assert not ranges[of].outer
        for end in (ranges[of].least, ranges[of].most):
            assert value_at(asked, end.amounts, Target(of, of, lower=0.0)) == pytest.approx(end.value, abs=1e-3)


def test_a_range_before_cooking_counts_what_was_weighed_out(larder: Larder) -> None:
    asked = replace(random_cooked_brief(larder, 1), targets=(Target("fed", "energy_kcal", lower=1.0),))
    raw = Target("raw", "fat_g", lower=0.0, basis=WeightBasis.RAW)
    eaten = Target("eaten", "fat_g", lower=0.0)
    before, after = reachable(asked, pantry(asked).backend, Deadline.after(20), (raw, eaten))
    fat_g = sum(item.food.value("fat_g") * (item.on_hand_g or 0.0) / 100 for item in asked.pantry)
    assert before.most.value == pytest.approx(fat_g / asked.portions, rel=1e-3)
    assert after.most.value is not None
    assert before.most.value is not None
    assert after.most.value < before.most.value
