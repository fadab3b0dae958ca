"""Components that contradict themselves are refused, each with what to mend."""

from dataclasses import replace

import pytest

from solver.brief import Brief
from solver.components import Component, Placed
from solver.targets import WeightBasis
from solver.usable import refuse_unusable
from tests.solver.larder import PATTIES, ROAST, TABLE, between, into, item, kitchen, macronutrients
from tests.solver.refusals import only_problem

MINCE = macronutrients("mince", protein=15, fat=30)
FAT = between("fat_g", 40.0, 60.0)


def asked(component: Component, *, grams: float | None = 900.0, of: str = "fat_g") -> Brief:
    """900 g mince, 270 g fat, fixed in a component; or as much as one likes."""
    fixed = item(MINCE) if grams is None else replace(item(MINCE), at_least_g=grams, at_most_g=grams)
    targets = (FAT, between("water_g", 1.0, None)) if of == "water_g" else (FAT,)
    return kitchen(into(fixed, component), targets=targets, parts=tuple(dict.fromkeys((component, TABLE))))


def weighed(cooked_g: float | None = None, drippings_g: float | None = None) -> Component:
    return replace(PATTIES, finished=True, cooked_g=cooked_g, drippings_g=drippings_g)


def test_an_item_that_goes_into_a_component_that_is_none_is_refused() -> None:
    lost = replace(item(MINCE), placed=(Placed("pie"),))
    pointer, code, _ = only_problem(kitchen(lost, targets=(FAT,), parts=(PATTIES,)))
    assert (pointer, code) == ("/pantry/0/goes_in", "unknown_component")


def test_an_item_that_goes_nowhere_is_refused() -> None:
    lost = replace(item(MINCE), placed=())
    assert only_problem(kitchen(lost, targets=(FAT,), parts=(PATTIES,)))[1] == "unknown_component"


def test_what_is_in_a_finished_component_has_to_be_given() -> None:
    pointer, code, detail = only_problem(asked(weighed(), grams=None))
    assert (pointer, code) == ("/pantry/0", "not_settled")
    assert "mince" in detail


def test_an_item_that_may_also_go_elsewhere_is_not_settled() -> None:
    component = weighed(cooked_g=500.0)
    both = into(replace(item(MINCE), at_least_g=900.0, at_most_g=900.0), component, TABLE)
    assert only_problem(kitchen(both, targets=(FAT,), parts=(component, TABLE)))[1] == "not_settled"


@pytest.mark.parametrize(
    ("component", "pointer", "code"),
    [
        (weighed(drippings_g=270.5), "/components/0/drippings_weight", "drippings_exceed_fat"),
        (weighed(cooked_g=902.0), "/components/0/cooked_weight", "heavier_than_raw"),
        (weighed(cooked_g=700.0, drippings_g=202.0), "/components/0/cooked_weight", "heavier_than_raw"),
    ],
)
def test_weights_that_contradict_what_went_in_are_refused(component: Component, pointer: str, code: str) -> None:
    assert only_problem(asked(component))[:2] == (pointer, code)


@pytest.mark.parametrize("component", [weighed(drippings_g=270.0), weighed(cooked_g=900.5), weighed(500.0, 150.0)])
def test_weights_that_a_scale_may_show_are_usable(component: Component) -> None:
    refuse_unusable(asked(component))


def test_the_water_of_a_mix_that_nobody_weighed_is_not_planned_by() -> None:
    pointer, code, detail = only_problem(asked(PATTIES, of="water_g"))
    assert (pointer, code) == ("/targets/1", "water_of_mix")
    assert "patties" in detail


@pytest.mark.parametrize("component", [ROAST, TABLE, weighed(cooked_g=500.0)])
def test_water_of_everything_else_may_be_asked_for(component: Component) -> None:
    refuse_unusable(asked(component, of="water_g"))


def test_raw_water_of_a_mix_may_be_asked_for() -> None:
    water = replace(between("water_g", 1.0, None), basis=WeightBasis.RAW)
    refuse_unusable(replace(asked(PATTIES), targets=(FAT, water)))
