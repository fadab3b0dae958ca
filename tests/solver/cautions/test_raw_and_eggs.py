"""What is eaten raw, raw juices, raw egg (71 C is 160 F for egg dishes: foodsafety.gov), and halves of eggs."""

from dataclasses import replace

import pytest

from solver.components import Component, Drippings, Placed
from solver.foods import Measure
from solver.outcome import Quantity
from solver.pantry import PantryItem, Step
from tests.solver.cautions.dishes import (
    BEEF,
    BUTTER,
    CAUTIONS,
    EGG,
    OLIVE_OIL,
    STEAK,
    THIGH,
    YOLK,
    brief_of,
    dish_of,
    made_of,
    said,
    table_food,
)
from tests.solver.larder import food

TABLE = Component("at the table")
PASTEURISED = table_food("Egg, yolk, raw, frozen, pasteurized", "Dairy and Egg Products")


def test_raw_meat_that_nothing_cooks_is_eaten_raw() -> None:
    caution = said(TABLE, ("ground beef", BEEF, 150))["raw_animal_food"]
    assert caution.trigger == "at the table: ground beef, not cooked"
    assert "raw_animal_food" not in said(Component("pan", "pan-fried"), ("ground beef", BEEF, 150))


@pytest.mark.parametrize("name", ["smoked salmon", "canned tuna", "boiled ham", "salami"])
def test_what_its_maker_made_ready_is_not_called_raw(name: str) -> None:
    assert "raw_animal_food" not in said(TABLE, (name, food(name), 100))


def test_raw_egg_is_said_in_a_mayonnaise_and_not_in_a_baked_dish() -> None:
    cautions = said(TABLE, ("yolk", YOLK, 17), ("oil", OLIVE_OIL, 150))
    assert "pasteurised" in cautions["raw_egg"].text
    assert "2 days" in cautions["keeping_raw_egg"].text
    assert "raw_egg" not in said(Component("loaf", "baked"), ("egg", EGG, 50))
    assert "raw_egg" not in said(TABLE, ("yolk", PASTEURISED, 17), ("oil", OLIVE_OIL, 150))


def test_raw_egg_is_found_in_a_dish_in_the_dish() -> None:
    mayonnaise = made_of("mayonnaise", (YOLK, 10.0, False), (OLIVE_OIL, 80.0, False))
    assert said(TABLE, ("mayonnaise", mayonnaise, 30))["raw_egg"].trigger == (
        "at the table: mayonnaise (Egg, yolk, raw, fresh), not cooked"
    )
    curd = made_of("boiled dressing", (YOLK, 10.0, True), (OLIVE_OIL, 80.0, True))
    assert "raw_egg" not in said(TABLE, ("boiled dressing", curd, 30))


@pytest.mark.parametrize("component", [Component("hollandaise"), Component("hollandaise", "simmered")])
def test_a_hollandaise_never_reaches_71_celsius_whatever_its_method(component: Component) -> None:
    cautions = said(component, ("yolk", YOLK, 34), ("butter", BUTTER, 150))
    assert "71.2 °C" in cautions["egg_sauce_below_71"].text
    assert "keeping_raw_egg" in cautions
    assert "raw_egg" not in cautions
    assert "egg_sauce_below_71" not in said(component, ("yolk", PASTEURISED, 34), ("butter", BUTTER, 150))


@pytest.mark.parametrize(("fate", "expected"), [(Drippings.SERVED, True), (Drippings.DISCARDED, False)])
def test_juices_of_poultry_are_boiled_before_they_are_eaten(fate: Drippings, *, expected: bool) -> None:
    pan = Component("thighs", "roasted", drippings=fate)
    assert ("raw_juices" in said(pan, ("thigh", THIGH, 500))) is expected
    assert "raw_juices" not in said(pan, ("sirloin", STEAK, 500))


def test_a_marinade_is_boiled_whatever_the_meat() -> None:
    pan = Component("skewers", "grilled", drippings=Drippings.SPOONED_BACK)
    caution = said(pan, ("sirloin", STEAK, 500), ("marinade", food("oil and vinegar"), 80))["raw_juices"]
    assert caution.trigger == "skewers: marinade, drippings spooned back"
    assert "boiled" in caution.text
    assert "raw_juices" in said(TABLE, ("the marinade", food("oil and vinegar"), 20))


@pytest.mark.parametrize(("grams", "expected"), [(50, False), (100, False), (75, True), (25, True), (100.5, False)])
def test_part_of_an_egg_is_beaten_egg_by_weight(grams: float, *, expected: bool) -> None:
    large = replace(EGG, measures=(Measure(1, "large", 50.0),))
    assert ("half_egg" in said(TABLE, ("egg", large, grams))) is expected


@pytest.mark.parametrize(("step", "expected"), [(Step(1, "large", 50.0), False), (Step(0.5, "large", 25.0), True)])
def test_an_egg_is_halved_where_the_step_allows_it(step: Step, *, expected: bool) -> None:
    halved = PantryItem("egg", EGG, step=step, placed=(Placed("loaf"),))
    quantity = Quantity(halved, step.grams, 1, Placed("loaf"))
    found = CAUTIONS(brief_of(halved, components=(Component("loaf", "baked"),)), dish_of(quantity), None)
    assert ("half_egg" in {caution.code for caution in found}) is expected
