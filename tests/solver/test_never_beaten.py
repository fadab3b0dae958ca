"""The exact curve is never beaten: ten thousand random points, evaluated food by food, against what was proven."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest

from reference_data import reference_folder
from solver.backends import open_backend
from solver.brief import Brief, Preference
from solver.catalogue import Catalogue
from solver.components import Component, Drippings, Placed
from solver.cook import SPOON_G
from solver.cooking_table import load_cooking_table
from solver.numerics import FloatArray
from solver.outcome import Conflict, Dish, Plan, Quantity
from solver.pans import SPOONABLE
from solver.pantry import PantryItem
from solver.solve import solve
from solver.targets import Target
from solver.verify import dish_of
from tests.solver.larder import TABLE, between, into, kitchen
from tests.solver.pretending import pretends

POINTS = 10_000

#: USDA SR28 row, most grams, price of a gram, and whether it goes to the table instead of into the patties.
FOODS = {
    "sr28:13498": (900.0, 0.006, False),  # mince of 30 % fat
    "sr28:23557": (900.0, 0.012, False),  # mince of 5 % fat
    "sr28:01123": (150.0, 0.004, False),  # egg
    "sr28:04001": (120.0, 0.003, True),  # tallow
}


def asked(catalogue: Catalogue, drippings: Drippings, prefer: Preference, *targets: Target) -> Brief:
    curves = load_cooking_table(reference_folder() / "cooking").curves
    patties = Component("patties", "broiled patty", drippings, next(c for c in curves if c.mix == "broiled patty"))
    items = [
        into(
            PantryItem(of, catalogue.food(of), on_hand_g=most, price_per_g=price),
            Placed((TABLE if at_table else patties).name),
        )
        for of, (most, price, at_table) in FOODS.items()
    ]
    return replace(kitchen(*items, targets=targets, parts=(patties, TABLE), portions=4), prefer=(prefer,))


def points(brief: Brief, near: Dish | None, seed: int) -> Iterator[Dish]:
    """Half of them anywhere, half of them near a dish."""
    rng = np.random.default_rng(seed)
    most = np.array([item.on_hand_g or 0.0 for item in brief.pantry])
    around = None if near is None else {quantity.item.name: quantity.grams for quantity in near.quantities}
    for number in range(POINTS):
        grams = rng.uniform(0, most) * (rng.random(len(most)) < 0.9)
        if around is not None and number % 2:
            here = np.array([around.get(item.name, 0.0) for item in brief.pantry])
            grams = np.clip(here + rng.normal(0, rng.choice([0.3, 3.0, 30.0]), len(most)), 0, most)
        yield _dish(rng, brief, grams)


def _dish(rng: np.random.Generator, brief: Brief, grams: FloatArray) -> Dish:
    pairs = zip(brief.pantry, np.floor(grams * 10) / 10, strict=True)
    used = [Quantity(item, round(float(g), 1), None, item.placed[0]) for item, g in pairs if g > 0]
    dish = dish_of(used, brief, frozenset())
    spooned = [cooked for cooked in dish.cooked if cooked.component.drippings is Drippings.SPOONED_BACK]
    if not spooned:
        return dish
    spoons = {
        each.component.name: int(rng.integers(int(SPOONABLE * each.rendered_g / SPOON_G + 1e-9) + 1))
        for each in spooned
    }
    return dish_of(used, brief, frozenset(), spoons)


def meets_all(dish: Dish) -> bool:
    return all(result.met for result in dish.targets)


def value(dish: Dish, prefer: Preference) -> float:
    """What the level counts: the cost, or half-bands from the middle of the amount that is furthest from it."""
    if prefer is Preference.CHEAPEST:
        assert dish.cost is not None
        return dish.cost
    deviations = []
    for result in dish.targets:
        lower, upper = result.target.lower, result.target.upper
        if lower is not None and upper is not None and result.value is not None:
            deviations.append(abs(result.value - (lower + upper) / 2) / ((upper - lower) / 2))
    return max(deviations)


#: The middle of the fat is below what the mixes can come to, so it pays to pretend.
BANDS = (between("protein_g", 33.0, 39.0), between("fat_g", 2.0, 13.0), between("energy_kcal", 200.0, 330.0))


@pytest.mark.parametrize(
    ("prefer", "drippings"),
    [
        (Preference.BALANCED, Drippings.DISCARDED),
        (Preference.CHEAPEST, Drippings.DISCARDED),
        (Preference.BALANCED, Drippings.SPOONED_BACK),
    ],
)
def test_none_of_ten_thousand_points_is_better_than_what_a_plan_has_proven(
    catalogue: Catalogue, prefer: Preference, drippings: Drippings
) -> None:
    brief = asked(catalogue, drippings, prefer, *BANDS)
    assert pretends(brief) == {"patties"}
    outcome = solve(brief, open_backend("highs"))
    assert isinstance(outcome, Plan)
    bound = outcome.proof.levels[0].bound
    assert bound is not None
    values = [value(dish, prefer) for dish in points(brief, outcome.dish, seed=1) if meets_all(dish)]
    assert len(values) > 300
    assert min(values) >= bound - 1e-6
    assert outcome.proof.levels[0].value <= min(values) + 0.1, "the plan itself is at most the gap behind"


def test_none_of_ten_thousand_points_meets_what_is_called_a_conflict(catalogue: Catalogue) -> None:
    # Patties of 40 g protein a portion keep more fat than this, whichever mince they are of.
    targets = (between("protein_g", 40.0, None), between("fat_g", None, 8.5))
    brief = asked(catalogue, Drippings.DISCARDED, Preference.BALANCED, *targets)
    assert pretends(brief) == {"patties"}
    outcome = solve(brief, open_backend("highs"))
    assert isinstance(outcome, Conflict)
    assert outcome.nearest is not None
    assert not any(meets_all(dish) for dish in points(brief, outcome.nearest, seed=2))
