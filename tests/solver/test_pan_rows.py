"""Rows of pans and of shared stock: they hold exactly where the kitchen says so."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.components import Drippings
from solver.cook import SPOON_G
from solver.formulate import Formulation
from solver.levels import completed
from solver.numerics import FloatArray
from solver.pans import SPOONABLE
from tests.solver.larder import PATTIES, TABLE, between, into, item, kitchen, macronutrients, posed

MINCE, TALLOW = macronutrients("mince", protein=15, fat=30), macronutrients("tallow", fat=100)
SPOONED = replace(PATTIES, drippings=Drippings.SPOONED_BACK)
EXACT = frozenset({"patties"})


def formulated(exact: frozenset[str] = frozenset()) -> Formulation:
    """Mince in the patties, up to 100 g tallow there and at the table, drippings spooned back."""
    mince = into(replace(item(MINCE), on_hand_g=1000.0), SPOONED)
    tallow = into(replace(item(TALLOW), on_hand_g=100.0, at_least_g=10.0), SPOONED, TABLE)
    targets = (between("fat_g", 1.0, None),)
    return posed(kitchen(mince, tallow, targets=targets, parts=(SPOONED, TABLE)), exact=exact)


def columns(formulation: Formulation, mince: float, mixed: float, beside: float, spoons: int = 0) -> FloatArray:
    """All columns for grams of each use, with the true curve."""
    named = {(use.item.name, use.component.name): n for n, use in enumerate(formulation.layout.uses)}
    amounts = np.zeros(len(named))
    for use, grams in (("mince", "patties"), mince), (("tallow", "patties"), mixed), (("tallow", TABLE.name), beside):
        amounts[named[use]] = grams / 100
    amounts[named["drippings of patties", "patties"]] = spoons
    return completed(formulation, amounts, frozenset())


def holds(formulation: Formulation, x: FloatArray) -> bool:
    """Whether all rows below those of the targets hold, with any selectors."""
    layout, program = formulation.layout, formulation.program
    below = slice(len(layout.row_scale), None)
    selectors = product((0.0, 1.0), repeat=layout.selector_columns.stop - layout.selector_columns.start)
    for chosen in selectors:
        x[layout.selector_columns] = chosen
        if (program.rows.times(x)[below] >= program.row_lower[below] - 1e-9).all():
            return True
    return False


grams = st.floats(0, 1000)


@given(grams, st.floats(0, 60), st.floats(10, 40), st.sampled_from([frozenset[str](), EXACT]))
def test_the_true_curve_is_inside_the_rows(mince: float, mixed: float, beside: float, exact: frozenset[str]) -> None:
    formulation = formulated(exact)
    assert holds(formulation, columns(formulation, mince, mixed, beside))


@given(st.floats(50, 1000), st.floats(0, 60), st.sampled_from([frozenset[str](), EXACT]))
def test_less_fat_than_renders_is_outside_of_the_rows(mince: float, mixed: float, exact: frozenset[str]) -> None:
    formulation = formulated(exact)
    x = columns(formulation, mince, mixed, 10.0)
    x[formulation.layout.pan_columns] -= 0.01
    assert not holds(formulation, x)


@given(st.floats(50, 1000), st.floats(0, 60))
def test_more_fat_than_renders_is_outside_of_the_exact_rows_alone(mince: float, mixed: float) -> None:
    linear, exact = formulated(), formulated(EXACT)
    for formulation in (linear, exact):
        x = columns(formulation, mince, mixed, 10.0)
        x[formulation.layout.pan_columns] += 0.01
        assert holds(formulation, x) is (formulation is linear)


def test_a_spoon_finds_no_more_than_its_part_of_what_rendered() -> None:
    formulation = formulated()
    # 600 g mince hold 180 g fat, of which 63 g are kept; a spoon finds 0.8 of 117 g, 21.9 teaspoons.
    most = int(SPOONABLE * 117 / SPOON_G)
    assert holds(formulation, columns(formulation, 600.0, 0.0, 10.0, spoons=most))
    assert not holds(formulation, columns(formulation, 600.0, 0.0, 10.0, spoons=most + 1))


@pytest.mark.parametrize(
    ("mixed", "beside", "allowed"),
    [
        (50.0, 50.0, True),
        (50.0, 51.0, False),
        (100.0, 0.0, True),
        (0.0, 101.0, False),
        (5.0, 5.0, True),
        (5.0, 4.0, False),
    ],
)
def test_the_stock_of_an_item_is_that_of_both_places_together(mixed: float, beside: float, *, allowed: bool) -> None:
    formulation = formulated()
    assert holds(formulation, columns(formulation, 600.0, mixed, beside)) is allowed


def test_only_an_exact_pan_has_selectors_and_they_are_whole() -> None:
    linear, exact = formulated(), formulated(EXACT)
    assert linear.layout.selector_columns == slice(5, 5)
    assert exact.layout.selector_columns == slice(5, 8)
    assert exact.program.integer[exact.layout.selector_columns].all()
