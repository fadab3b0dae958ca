"""Dishes for other numbers of portions: by hand, and what has to stay the same whatever the dish."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference_data import reference_folder
from solver.breakdown import break_down
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.components import Component, Drippings, Placed
from solver.cook import SPOON_G
from solver.cooked import CookedComponent
from solver.cooking_table import load_cooking_table
from solver.outcome import Quantity
from solver.pantry import PantryItem, Step
from solver.rules import Group, Rule
from solver.scaling import TIMES, ScaledDish, scaled_dish
from solver.tally import tally
from solver.used import in_kitchen

MINCE, EGG, WATER, ONION, BUTTER = "sr28:23572", "sr28:01123", "sr28:14411", "sr28:11282", "sr28:01001"


def dish(
    catalogue: Catalogue, amounts_g: dict[str, float], portions: int, component: Component | None = None
) -> tuple[list[Quantity], Brief]:
    """A dish of one component, its items named by their foods."""
    placed = Placed() if component is None else Placed(component.name)
    items = [
        PantryItem(food, catalogue.food(food), step=Step(grams, "g", grams), placed=(placed,))
        for food, grams in amounts_g.items()
    ]
    quantities = [Quantity(item, grams, 1, placed) for item, grams in zip(items, amounts_g.values(), strict=True)]
    components = () if component is None else (component,)
    return quantities, Brief("a dish", portions, tuple(items), (), components=components)


@pytest.fixture(scope="module")
def patties() -> Component:
    table = load_cooking_table(reference_folder() / "cooking")
    curve = next(each for each in table.curves if each.mix == "broiled patty")
    return Component("patties", curve.mix, Drippings.SPOONED_BACK, curve=curve)


def only(found: ScaledDish) -> CookedComponent:
    return in_kitchen(found.quantities, found.spoons, found.brief).cooked[0]


def grams(found: ScaledDish) -> dict[str, float]:
    return {each.item.name: each.grams for each in found.quantities}


def burns(found: ScaledDish) -> bool:
    return any("would burn" in note for note in found.notes)


def test_a_stock_reduced_in_the_same_pot_loses_the_same_water(catalogue: Catalogue) -> None:
    """By hand: 2000 g reduced to 1200 g lose 800 g; 3000 g in the same pot are left as 2200 g, not as 1800 g."""
    pot = Component("stock", cooked_g=1200.0, finished=True)
    quantities, brief = dish(catalogue, {WATER: 1800.0, ONION: 200.0}, 4, pot)
    found = scaled_dish(quantities, {}, brief, 6)
    assert grams(found) == {WATER: 2700.0, ONION: 300.0}
    assert only(found).cooked_g == pytest.approx(2200)
    assert only(found).evaporated_g == pytest.approx(800)
    of_pan, last = found.notes
    assert "as much evaporates as before, 800 g, which leaves 2200 g; pieces" in of_pan
    assert of_pan.endswith("which leaves 1800 g. Weigh it.")
    assert last == TIMES


def test_what_would_burn_leaves_the_pot_earlier(catalogue: Catalogue) -> None:
    """By hand: a quarter of it, 500 g, has not 800 g of water; it is counted as reduced to a quarter of 1200 g."""
    pot = Component("stock", cooked_g=1200.0, finished=True)
    quantities, brief = dish(catalogue, {WATER: 1800.0, ONION: 200.0}, 4, pot)
    found = scaled_dish(quantities, {}, brief, 1)
    assert only(found).cooked_g == pytest.approx(300)
    assert found.notes[0].endswith("take it off at 300 g, which the numbers count.")


def test_what_rendered_follows_the_food_and_is_spooned_back_in_whole_teaspoons(
    catalogue: Catalogue, patties: Component
) -> None:
    """By hand: 60 g of drippings become 30 g; 3 teaspoons become 1.5, so 2."""
    pan = replace(patties, cooked_g=340.0, drippings_g=60.0, finished=True)
    quantities, brief = dish(catalogue, {MINCE: 500.0}, 4, pan)
    found = scaled_dish(quantities, {"patties": 3}, brief, 2)
    cooked = only(found)
    assert cooked.rendered_g == pytest.approx(30)
    assert cooked.evaporated_g == pytest.approx(100)
    assert cooked.cooked_g == pytest.approx(120)
    assert found.spoons == {"patties": 2}
    assert "patties: 2 tsp of drippings in place of 1.5 tsp." in found.notes


def test_no_more_is_spooned_back_than_ran_out(catalogue: Catalogue, patties: Component) -> None:
    pan = replace(patties, drippings_g=6.5 * SPOON_G, finished=True)
    quantities, brief = dish(catalogue, {MINCE: 500.0}, 10, pan)
    found = scaled_dish(quantities, {"patties": 5}, brief, 1)  # half a spoon, of 0.65 that ran out
    assert found.spoons == {"patties": 0}


def test_the_numbers_of_a_portion_stay_where_nothing_is_rounded_or_weighed(
    catalogue: Catalogue, patties: Component
) -> None:
    quantities, brief = dish(catalogue, {MINCE: 500.0, EGG: 50.0, BUTTER: 20.0}, 4, patties)
    found = scaled_dish(quantities, {}, brief, 7)
    before = break_down(quantities, {}, brief).dish.portion
    after = break_down(found.quantities, found.spoons, found.brief).dish.portion
    assert after.energy_kcal == pytest.approx(before.energy_kcal)
    assert after.grams == pytest.approx(before.grams)
    assert found.notes == (TIMES,)


def test_the_same_number_of_portions_is_the_same_dish(catalogue: Catalogue) -> None:
    quantities, brief = dish(catalogue, {MINCE: 500.0}, 4)
    assert scaled_dish(quantities, {}, brief, 4) == ScaledDish(brief, tuple(quantities), {}, ())


def test_whole_eggs_that_would_break_a_rule_are_weighed_instead(catalogue: Catalogue) -> None:
    """By hand: 3 eggs to 2000 g are 0.075; 4 portions of it made 5 give 2500 g and 3.75 eggs, and 4 are 0.08."""
    quantities, brief = dish(catalogue, {MINCE: 2000.0, EGG: 150.0}, 4)
    words = {(EGG, "the dish"): Step(3, "large", 150.0)}
    tight = Rule("binder", Group(frozenset({EGG})), to=Group(frozenset({MINCE})), lower=0.07, upper=0.078)
    free = scaled_dish(quantities, {}, replace(brief, rules=(replace(tight, upper=0.11),)), 5, words)
    held = scaled_dish(quantities, {}, replace(brief, rules=(tight,)), 5, words)
    assert grams(free)[EGG] == 200.0
    assert grams(held)[EGG] == 187.5
    assert any("weigh 187.5 g" in note for note in held.notes)


def test_a_rule_that_the_whole_batch_breaks_is_told(catalogue: Catalogue) -> None:
    quantities, brief = dish(catalogue, {MINCE: 500.0}, 4)
    tray = Rule("the tray", Group(frozenset({MINCE})), upper=900.0)
    assert (
        "The scaled amounts miss the rule the tray."
        in scaled_dish(quantities, {}, replace(brief, rules=(tray,)), 8).notes
    )


AMOUNTS = st.dictionaries(
    st.sampled_from([MINCE, EGG, WATER, ONION, BUTTER]), st.floats(5, 800), min_size=1, max_size=5
)


@given(AMOUNTS, st.integers(1, 60), st.integers(1, 60))
def test_there_and_back_is_the_same_dish_and_the_share_of_fat_stays(
    catalogue: Catalogue, amounts_g: dict[str, float], portions: int, others: int
) -> None:
    quantities, brief = dish(catalogue, amounts_g, portions)
    there = scaled_dish(quantities, {}, brief, others)
    back = scaled_dish(there.quantities, {}, there.brief, portions)
    assert grams(back) == pytest.approx(amounts_g)
    fat, whole = tally(quantities, brief, {}).macro, tally(there.quantities, there.brief, {}).macro
    assert whole.fat * fat.total == pytest.approx(fat.fat * whole.total, abs=1e-6)


@given(AMOUNTS.filter(lambda each: WATER in each), st.floats(0.05, 0.95), st.integers(1, 20), st.integers(1, 20))
def test_what_evaporates_is_the_same_unless_there_is_not_as_much_water(
    catalogue: Catalogue, amounts_g: dict[str, float], part: float, portions: int, others: int
) -> None:
    lost = part * amounts_g[WATER]
    pot = Component("pot", cooked_g=sum(amounts_g.values()) - lost, finished=True)
    quantities, brief = dish(catalogue, amounts_g, portions, pot)
    found = scaled_dish(quantities, {}, brief, others)
    cooked, factor = only(found), others / portions
    assert break_down(found.quantities, found.spoons, found.brief).dish.batch.grams == pytest.approx(cooked.eaten_g)
    if burns(found):
        assert factor < 1
        assert cooked.evaporated_g == pytest.approx(factor * lost, abs=1e-6)
    else:
        assert cooked.evaporated_g == pytest.approx(lost, abs=1e-6)


@given(st.floats(200, 2000), st.floats(0.5, 0.8), st.tuples(st.integers(1, 12), st.integers(1, 12)))
def test_a_weighed_mix_renders_by_its_fat_and_steams_as_before(
    catalogue: Catalogue, patties: Component, mince_g: float, left: float, numbers: tuple[int, int]
) -> None:
    portions, others = numbers
    pan = replace(patties, cooked_g=left * mince_g, finished=True)
    quantities, brief = dish(catalogue, {MINCE: mince_g}, portions, pan)
    before = in_kitchen(quantities, {}, brief).cooked[0]
    found = scaled_dish(quantities, {}, brief, others)
    cooked = only(found)
    assert cooked.rendered_g == pytest.approx(before.rendered_g * others / portions, rel=1e-9, abs=1e-6)
    if not burns(found):
        assert cooked.evaporated_g == pytest.approx(before.evaporated_g, abs=1e-6)
