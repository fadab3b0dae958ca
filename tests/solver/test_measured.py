"""Measuring exactly what was predicted changes nothing."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.backends import open_backend
from solver.components import Component, Drippings
from solver.cooked import CookedComponent
from solver.outcome import Plan, Totals
from solver.solve import solve
from solver.tally import Tally
from tests.solver.larder import PATTIES, ROAST, between, into, item, kitchen, macronutrients
from tests.solver.random_kitchens import Kitchen, random_kitchen

SAME = 1e-9


def unweighed(kitchen: Kitchen) -> Kitchen:
    first, *rest = kitchen.brief.components
    component = replace(first, cooked_g=None, drippings_g=None, finished=False)
    return replace(kitchen, brief=replace(kitchen.brief, components=(component, *rest)), spoons=0)


def weighed(kitchen: Kitchen, cooked_g: float | None, drippings_g: float | None) -> Kitchen:
    first, *rest = kitchen.brief.components
    component = replace(first, cooked_g=cooked_g, drippings_g=drippings_g, finished=True)
    return replace(kitchen, brief=replace(kitchen.brief, components=(component, *rest)))


def assert_same(one: Tally, other: Tally) -> None:
    for mine, theirs in ((one.batch, other.batch), (one.portion, other.portion), (one.raw, other.raw)):
        assert flat(mine) == pytest.approx(flat(theirs), rel=SAME, abs=SAME)
    for slice_name in ("protein", "fat", "carbohydrate", "alcohol"):
        assert getattr(one.macro, slice_name) == pytest.approx(getattr(other.macro, slice_name), rel=SAME, abs=SAME)
    for before, after in zip(one.cooked, other.cooked, strict=True):
        assert weights(before) == pytest.approx(weights(after), rel=SAME, abs=SAME)


def flat(totals: Totals) -> dict[str, float]:
    known = {name: value for name, value in totals.values.items() if value is not None}
    return known | {"grams": totals.grams, "basis kcal": totals.energy_kcal, "kJ": totals.energy_kj}


def weights(cooked: CookedComponent) -> list[float]:
    whole = [cooked.cooked_g, cooked.fat_g, cooked.rendered_g, cooked.returned_g, cooked.lost_g, cooked.evaporated_g]
    return whole + [each for item in cooked.items for each in (item.rendered_g, item.lost_g)]


@settings(deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_weighing_what_was_predicted_changes_no_total(seed: int) -> None:
    kitchen = unweighed(random_kitchen(seed, sources=3))
    before = kitchen.tally
    cooked_g, drippings_g = before.cooked[0].cooked_g, before.cooked[0].rendered_g
    for weights_g in ((cooked_g, None), (None, drippings_g), (cooked_g, drippings_g)):
        assert_same(before, weighed(kitchen, *weights_g).tally)


FATTY = macronutrients("mince", protein=15, fat=30)


@pytest.mark.parametrize("drippings", [Drippings.DISCARDED, Drippings.SPOONED_BACK])
@pytest.mark.parametrize("of", [PATTIES, ROAST])
def test_a_plan_around_what_was_predicted_is_the_plan_before_it_was_weighed(
    of: Component, drippings: Drippings
) -> None:
    component = replace(of, drippings=drippings)
    mince = into(replace(item(FATTY), at_least_g=900.0, at_most_g=900.0), component)
    asked = kitchen(mince, targets=(between("fat_g", 80.0, 280.0),), parts=(component,))
    before = solve(asked, open_backend("highs"))
    assert isinstance(before, Plan)
    (cooked,) = before.dish.cooked
    done = replace(component, finished=True, cooked_g=cooked.cooked_g, drippings_g=cooked.rendered_g)
    after = solve(replace(asked, components=(done,)), open_backend("highs"))
    assert isinstance(after, Plan)
    assert after.dish.cooked[0].spoons == cooked.spoons
    assert flat(after.dish.batch) == pytest.approx(flat(before.dish.batch), rel=SAME, abs=SAME)
