"""The scale outranks the table: what the cook weighed takes the place of what a curve or a row says."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.components import UNCOOKED, Component, Placed
from solver.cook import Content, cook
from solver.cooked import CookedComponent, Evidence
from solver.verify import check_balance
from tests.solver.larder import PATTIES, ROAST, cooking_row, macronutrients

MINCE, TALLOW = macronutrients("mince", protein=15, fat=30), macronutrients("tallow", fat=100)

#: By the curve: 513 g cooked, 175.5 g of drippings.
CONTENTS = [Content("mince", MINCE, 900.0, UNCOOKED)]


def weighed(cooked_g: float | None = None, drippings_g: float | None = None) -> CookedComponent:
    return cook(replace(PATTIES, cooked_g=cooked_g, drippings_g=drippings_g), CONTENTS)


def test_a_weighed_component_keeps_the_fat_of_the_curve() -> None:
    done = weighed(cooked_g=540.0)
    assert [done.cooked_g, done.rendered_g] == pytest.approx([540, 175.5])
    assert (done.weight, done.fat) == (Evidence.MEASURED, Evidence.ESTIMATED)
    assert done.cooked_half_g == 0
    assert done.rendered_half_g == pytest.approx(9)


def test_no_more_fat_ran_out_than_the_scale_says_is_gone() -> None:
    done = weighed(cooked_g=800.0)
    assert (done.rendered_g, done.evaporated_g) == (100, 0)


def test_weighed_drippings_are_the_fat_that_ran_out() -> None:
    done = weighed(drippings_g=150.0)
    assert (done.rendered_g, done.kept_g) == (150, 120)
    assert done.cooked_g == pytest.approx(513)
    assert (done.weight, done.fat) == (Evidence.ESTIMATED, Evidence.MEASURED)
    assert done.rendered_half_g == 0
    assert done.cooked_half_g == pytest.approx(72)


def test_with_both_weights_nothing_is_estimated() -> None:
    done = weighed(cooked_g=540.0, drippings_g=150.0)
    assert (done.cooked_g, done.rendered_g, done.evaporated_g) == (540, 150, 210)
    assert (done.weight, done.fat) == (Evidence.MEASURED, Evidence.MEASURED)
    assert (done.cooked_half_g, done.rendered_half_g) == (0, 0)
    assert "weighed by the cook" in done.why


def test_weighed_drippings_come_from_each_item_as_the_table_expects() -> None:
    contents = [
        Content("chops", MINCE, 200.0, Placed("roast", cooking_row(0.6, 0.7))),  # 24 g expected
        Content("tallow", TALLOW, 6.0, Placed("roast", melts=True)),  # 6 g expected, and there are no more
    ]
    done = cook(replace(ROAST, drippings_g=40.0), contents)
    assert [item.rendered_g for item in done.items] == pytest.approx([34, 6])


def test_where_the_table_expects_no_drippings_they_come_from_the_fat_of_each() -> None:
    contents = [Content(f"piece {grams}", MINCE, grams, Placed("roast")) for grams in (100.0, 300.0)]
    done = cook(replace(ROAST, drippings_g=20.0), contents)
    assert [item.rendered_g for item in done.items] == pytest.approx([5, 15])


@given(
    st.lists(st.tuples(st.floats(1, 900), st.floats(0, 100)), min_size=1, max_size=5),
    st.floats(0, 1),
    st.sampled_from([PATTIES, ROAST]),
)
def test_whatever_was_weighed_no_item_loses_more_than_it_has(
    rows: list[tuple[float, float]], part: float, component: Component
) -> None:
    foods = [macronutrients(f"food {n}", fat=fat) for n, (_, fat) in enumerate(rows)]
    placed = Placed("roast", cooking_row(0.6, 0.7))
    contents = [Content(of.name, of, grams, placed) for of, (grams, _) in zip(foods, rows, strict=True)]
    whole = sum(content.fat_g for content in contents)
    done = cook(replace(component, drippings_g=part * whole), contents)
    assert done.rendered_g == pytest.approx(part * whole, abs=1e-9)
    for item in done.items:
        assert -1e-9 <= item.rendered_g <= item.fat_g + 1e-9
    check_balance(done)
