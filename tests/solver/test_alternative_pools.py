"""What makes two plans different: how much of an item counts, and whose middles do."""

from dataclasses import replace

import pytest

from solver.alternative_pools import grams_of, least_to_count_g
from solver.alternatives import alternatives
from solver.backends import open_backend
from solver.brief import Preference
from solver.deadline import Deadline
from tests.solver import larder
from tests.solver.worths import planned, pure

FAT, THIN = larder.PURE[1], larder.macronutrients("thin fat", fat=90)


def test_an_item_counts_from_a_twentieth_of_the_plan_on_or_from_what_the_plan_has_of_it() -> None:
    # By hand: 0.3 g of carbohydrate are 3 g of lemon, and what is dear is not used beyond that.
    lemon, fat, thin = (
        replace(larder.item(food), price_per_g=price)
        for food, price in ((larder.macronutrients("lemon", carbohydrate=10), 9.0), (FAT, 1.0), (THIN, 9.0))
    )
    targets = (larder.between("energy_kcal", 590.0, 610.0), larder.between("available_carbohydrate_g", 0.3, None))
    plan = planned(replace(larder.brief(lemon, fat, thin, targets=targets), prefer=(Preference.CHEAPEST,)))
    mass = sum(grams_of(plan.dish).values())
    assert least_to_count_g(lemon, plan.dish, 1e4) == pytest.approx(3.0)
    assert least_to_count_g(thin, plan.dish, 1e4) == pytest.approx(mass / 20, abs=0.1)


def test_the_middle_of_a_missed_wish_keeps_no_other_plan_away() -> None:
    # By hand: 600 kcal of either protein miss the wish by 50 g or more, and are far from the middle of its band.
    wish = replace(larder.between("protein_g", 200.0, 220.0), priority=1)
    other = larder.item(larder.macronutrients("thinner protein", protein=90))
    plan = planned(larder.brief(pure()[0], other, targets=(larder.between("energy_kcal", 100.0, 600.0), wish)))
    found = alternatives(plan, 2, open_backend("highs"), Deadline.after(10)).found
    # Each alone, and both together: the plan is one of them.
    dishes = [plan.dish, *(one.dish for one in found)]
    assert len({frozenset(grams_of(dish)) for dish in dishes}) == 3
