"""Mass and fat of every cooked plan balance, when somebody else does the sums."""

from math import fsum

import pytest

from reference_data import reference_folder
from solver.backends import open_backend
from solver.catalogue import Catalogue
from solver.components import Drippings
from solver.cook import SPOON_G
from solver.cooked import CookedComponent
from solver.cooking_table import load_cooking_table
from solver.outcome import Dish, Plan
from solver.solve import solve
from tests.solver.random_cooked_briefs import Larder, random_cooked_brief

#: Relative to max(1, grams).
BALANCE = 1e-9


def same(one: float, other: float) -> bool:
    return one == pytest.approx(other, rel=BALANCE, abs=BALANCE)


def component_balances(dish: Dish, cooked: CookedComponent) -> bool:
    """raw = cooked + rendered + evaporated, fat in = fat eaten + fat that nobody eats, by the quantities themselves."""
    inside = [quantity for quantity in dish.quantities if quantity.placed.component == cooked.component.name]
    raw, fat = (
        fsum(quantity.grams * of / 100 for quantity in inside for of in [per_100g(quantity.item.food)])
        for per_100g in (lambda _: 100.0, lambda food: food.value("fat_g"))
    )
    spooned = cooked.spoons * SPOON_G
    fate = {Drippings.DISCARDED: 0.0, Drippings.SERVED: cooked.rendered_g, Drippings.SPOONED_BACK: spooned}
    returned = fate[cooked.component.drippings] if cooked.component.method is not None else 0.0
    return (
        same(raw, cooked.cooked_g + cooked.rendered_g + cooked.evaporated_g)
        and same(fat, cooked.kept_g + returned + cooked.lost_g)
        and same(fsum(item.lost_g for item in cooked.items), cooked.lost_g)
        and cooked.evaporated_g >= -BALANCE * max(1.0, raw)
        and min(cooked.kept_g, cooked.lost_g, cooked.rendered_g) >= -BALANCE * max(1.0, fat)
    )


@pytest.mark.parametrize("stepped", [False, True])
def test_in_every_plan_mass_and_fat_balance(catalogue: Catalogue, *, stepped: bool) -> None:
    highs = open_backend("highs")
    larder = Larder(catalogue, load_cooking_table(reference_folder() / "cooking"))
    plans = rendered = 0
    for seed in range(150):
        outcome = solve(random_cooked_brief(larder, seed, stepped=stepped), highs)
        if not isinstance(outcome, Plan):
            continue
        plans += 1
        dish = outcome.dish
        for cooked in dish.cooked:
            rendered += cooked.rendered_g > 1
            assert component_balances(dish, cooked), (seed, cooked.component.name)
        fat = fsum(quantity.grams * quantity.item.food.value("fat_g") / 100 for quantity in dish.quantities)
        eaten = dish.batch.values["fat_g"]
        assert eaten is not None
        assert same(fat, eaten + fsum(cooked.lost_g for cooked in dish.cooked)), seed
    assert plans > 80
    assert rendered > 60
