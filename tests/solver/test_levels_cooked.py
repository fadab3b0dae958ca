"""The last level of a cooked brief: of plans that are as good, the one that needs the least added fat."""

from dataclasses import replace

import numpy as np
import pytest

from solver.backends import open_backend
from solver.brief import Brief
from solver.components import Component, Drippings, Placed
from solver.cook import SPOON_G
from solver.levels import completed, levels
from solver.outcome import Plan
from solver.solve import solve
from tests.solver.larder import PATTIES, ROAST, TABLE, between, cooking_row, into, item, kitchen, macronutrients, posed

MINCE, TALLOW = macronutrients("mince", protein=15, fat=30), macronutrients("tallow", fat=100)
SPOONED = replace(PATTIES, drippings=Drippings.SPOONED_BACK)


def with_tallow(component: Component) -> Brief:
    placed = Placed(component.name, cooking_row(0.6, 0.7) if component == ROAST else None)
    items = (into(item(MINCE), placed), into(item(TALLOW), TABLE))
    return kitchen(*items, targets=(between("fat_g", 40.0, 60.0),), parts=(component, TABLE))


def names(asked: Brief) -> list[str]:
    return [level.name for level in levels(posed(asked))]


@pytest.mark.parametrize("component", [PATTIES, SPOONED, ROAST])
def test_where_a_pan_may_lose_fat_the_last_level_counts_the_fat_that_is_added(component: Component) -> None:
    formulation = posed(with_tallow(component))
    *_, last = levels(formulation)
    assert last.name == "least added fat"
    uses = formulation.layout.uses
    amounts = np.array([3.0 if use.is_spoon else 2.0 for use in uses])
    # 200 g of mince are no added fat, 200 g of tallow are; what is spooned back was there.
    x = completed(formulation, amounts, frozenset())
    assert last.cost @ x == pytest.approx(2.0 + x[formulation.layout.deviation_column] / 1000)


def test_where_nothing_can_be_lost_or_no_fat_is_added_there_is_no_such_level() -> None:
    served = replace(PATTIES, drippings=Drippings.SERVED)
    assert names(with_tallow(served)) == ["balanced"]
    lean_only = kitchen(into(item(MINCE), PATTIES), targets=(between("fat_g", 40.0, 60.0),), parts=(PATTIES,))
    assert names(lean_only) == ["balanced"]


def test_drippings_are_taken_before_tallow_is_opened() -> None:
    # 400 g mince keep 42 g of fat and render 78 g, of which a spoon finds 62 g; 20 g more are wanted.
    mince = into(replace(item(MINCE), at_least_g=400.0, at_most_g=400.0), SPOONED)
    tallow = into(replace(item(TALLOW), on_hand_g=100.0), TABLE)
    asked = kitchen(mince, tallow, targets=(between("fat_g", 60.0, 64.0),), parts=(SPOONED, TABLE))
    outcome = solve(asked, open_backend("highs"))
    assert isinstance(outcome, Plan)
    opened = sum(q.grams for q in outcome.dish.quantities if q.item.name == "tallow")
    assert opened < SPOON_G, "no more than what whole teaspoons leave open"
    assert outcome.dish.cooked[0].spoons >= 4


def test_tallow_is_not_rendered_to_be_spooned_back() -> None:
    # 400 g mince keep 42 g of fat; 20 g more are wanted, from the pan or from tallow beside it.
    mince = into(replace(item(MINCE), at_least_g=400.0, at_most_g=400.0), SPOONED)
    tallow = into(replace(item(TALLOW), on_hand_g=100.0), SPOONED, TABLE)
    asked = kitchen(mince, tallow, targets=(between("fat_g", 60.0, 64.0),), parts=(SPOONED, TABLE))
    outcome = solve(asked, open_backend("highs"))
    assert isinstance(outcome, Plan)
    assert not [q for q in outcome.dish.quantities if q.item.name == "tallow" and q.placed.component == "patties"]
