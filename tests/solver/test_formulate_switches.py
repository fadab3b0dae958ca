"""Least amounts when used: zero or at least that, by an on/off column and two rows."""

from dataclasses import replace

import numpy as np
import pytest

from solver.formulate import Formulation
from solver.numerics import LARGEST_PORTION_G
from solver.pantry import Step
from tests.solver.larder import BREAD, BUTTER, brief, item, posed

PIECE = replace(item(BREAD), name="roll", step=Step(1, "piece", 50.0))


def switched(at_least_g: float = 0.0, least_when_used_g: float = 40.04) -> Formulation:
    bread = replace(item(BREAD), least_when_used_g=least_when_used_g, at_least_g=at_least_g)
    return posed(brief(item(BUTTER), bread))


def satisfied(formulation: Formulation, bread_g: float, *, on: bool) -> bool:
    """Whether the two rows of the switch hold."""
    x = np.zeros(formulation.layout.width)
    x[0] = bread_g / formulation.layout.unit_g[0]
    x[formulation.layout.switch_columns] = float(on)
    rows = slice(-2, None)
    return bool((formulation.program.rows.times(x)[rows] >= formulation.program.row_lower[rows] - 1e-12).all())


def test_a_least_amount_when_used_has_a_whole_switch_from_0_to_1() -> None:
    formulation = switched()
    (column,) = range(*formulation.layout.switch_columns.indices(formulation.layout.width))
    assert formulation.layout.switched == (0,)
    assert formulation.program.integer[column]
    assert (formulation.program.column_lower[column], formulation.program.column_upper[column]) == (0, 1)


@pytest.mark.parametrize(
    ("bread_g", "allowed"), [(0.0, True), (0.1, False), (40.0, False), (40.1, True), (LARGEST_PORTION_G, True)]
)
def test_an_item_with_a_least_amount_when_used_is_not_used_or_used_for_that(bread_g: float, *, allowed: bool) -> None:
    # 40.04 g cannot be weighed; the least that can be printed is 40.1 g.
    formulation = switched()
    assert any(satisfied(formulation, bread_g, on=on) for on in (False, True)) is allowed


@pytest.mark.parametrize(("at_least_g", "least_when_used_g"), [(50.0, 40.0), (0.0, 0.1), (0.0, 0.0)])
def test_a_least_amount_that_changes_nothing_has_no_switch(at_least_g: float, least_when_used_g: float) -> None:
    assert switched(at_least_g, least_when_used_g).layout.switched == ()


def test_one_step_is_no_least_amount_when_used() -> None:
    formulation = posed(brief(replace(PIECE, least_when_used_g=50.0)))
    assert formulation.layout.switched == ()


def test_a_least_amount_when_used_counts_in_steps() -> None:
    formulation = posed(brief(replace(PIECE, least_when_used_g=60.0)))
    assert satisfied(formulation, 100.0, on=True)
    assert not satisfied(formulation, 50.0, on=True)
