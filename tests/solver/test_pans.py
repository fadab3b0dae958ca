"""Pans: how much fat ran out, by the matrix's own arithmetic, against `cook`."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.as_eaten import PLACE
from solver.board import Board, board_of
from solver.brief import Brief
from solver.components import Component, Drippings, Placed
from solver.missing import count
from solver.pan_rows import most_rendered100
from solver.pans import SPOONABLE, Pan
from tests.solver.larder import (
    NOTHING,
    PATTIES,
    PURE,
    ROAST,
    TABLE,
    between,
    cooking_row,
    food,
    into,
    item,
    kitchen,
    macronutrients,
)
from tests.solver.random_kitchens import random_kitchen

MINCE, TALLOW = macronutrients("mince", protein=15, fat=30), macronutrients("tallow", fat=100)
SPOONED = replace(PATTIES, drippings=Drippings.SPOONED_BACK)


def board(asked: Brief) -> Board:
    return board_of(asked, count(asked))


def pan_of(component: Component, *, at_least_g: float = 0.0) -> Pan:
    """Of mince and tallow."""
    items = [into(replace(item(of), at_least_g=at_least_g), component) for of in (MINCE, TALLOW)]
    (pan,) = board(kitchen(*items, targets=(between("fat_g", 1.0, None),), parts=(component,))).pans
    return pan


@settings(deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_a_pan_renders_what_cook_says(seed: int) -> None:
    made = random_kitchen(seed, sources=3)
    (pan,) = made.board.pans
    (cooked, *_) = made.tally.cooked
    assert pan.rendered_g(made.amounts_g(made.board)) == pytest.approx(cooked.rendered_g, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize(
    ("component", "has_column"),
    [
        (PATTIES, True),
        (SPOONED, True),
        (ROAST, False),
        (replace(ROAST, drippings=Drippings.SPOONED_BACK), False),
        (replace(ROAST, drippings_g=10.0, finished=True), True),
    ],
)
def test_only_what_is_no_sum_over_its_members_is_a_column(component: Component, *, has_column: bool) -> None:
    assert pan_of(component, at_least_g=100.0).has_column is has_column


def test_a_spoon_finds_a_part_of_what_rendered_but_all_of_what_was_weighed() -> None:
    assert pan_of(SPOONED).spoonable == SPOONABLE
    assert pan_of(replace(SPOONED, drippings_g=50.0, finished=True), at_least_g=200.0).spoonable == 1


def test_a_mix_that_is_finished_has_nothing_left_to_say() -> None:
    pan = pan_of(replace(PATTIES, finished=True), at_least_g=200.0)
    assert pan.settled is not None
    # 400 g hold 260 g fat; the lean of 140 g keeps 21 g.
    assert pan.rendered_g(np.zeros(2)) == pytest.approx(260 - 21)
    assert len(pan.rising) == 0
    assert most_rendered100(pan, np.full(2, 1e6)) == pytest.approx(2.39)


def test_the_line_of_all_fat_kept_never_rises() -> None:
    pan = pan_of(PATTIES)
    assert len(pan.lines) == 3
    assert len(pan.rising) == 2


def test_what_is_not_cooked_has_no_pan() -> None:
    assert board(kitchen(into(item(MINCE), TABLE), targets=(between("fat_g", 1.0, None),), parts=(TABLE,))).pans == ()


@given(st.lists(st.floats(0, 1000), min_size=2, max_size=2), st.lists(st.floats(0, 100), min_size=2, max_size=2))
def test_more_of_the_members_never_renders_more_than_the_steepest_says(grams: list[float], more: list[float]) -> None:
    pan = pan_of(PATTIES)
    before, after = np.array(grams), np.array(grams) + np.array(more)
    assert abs(pan.rendered_g(after) - pan.rendered_g(before)) <= pan.steepest() @ np.array(more) + 1e-9
    assert pan.rendered_g(after) <= 100 * most_rendered100(pan, after) + 1e-9


def test_every_source_says_what_a_hundred_grams_of_its_fat_take_along() -> None:
    lard = food("lard", **NOTHING | {"fat_g": 50.0, "saturated_fat_g": 20.0, "cholesterol_mg": 40.0})
    tallow = food("tallow", **NOTHING | {"fat_g": 100.0, "saturated_fat_g": 50.0, "cholesterol_mg": 500.0})
    items = [into(item(of), PATTIES) for of in (lard, tallow, PURE[0])]
    (pan,) = board(kitchen(*items, targets=(between("fat_g", 1.0, None),), parts=(PATTIES,))).pans
    assert pan.sources[:, PLACE["fat_g"]].tolist() == pytest.approx([100, 100])
    assert sorted(pan.sources[:, PLACE["saturated_fat_g"]]) == pytest.approx([40, 50])
    # 80 mg in 100 g fat of the one; of the other no more than 1.09 mg a gram, the cholesterol of tallow (SR28 04001).
    assert sorted(pan.sources[:, PLACE["cholesterol_mg"]]) == pytest.approx([80, 109])
    assert sorted(pan.sources[:, PLACE["basis_energy_kcal"]]) == pytest.approx([900, 900])


def test_pieces_that_render_nothing_are_no_source() -> None:
    kept = Placed("roast", cooking_row(1.0, 0.7))
    melting = Placed("roast", melts=True)
    items = [into(item(MINCE), kept), into(item(TALLOW), melting)]
    (pan,) = board(kitchen(*items, targets=(between("fat_g", 1.0, None),), parts=(ROAST,))).pans
    assert len(pan.sources) == 1
    assert pan.rendered_g(np.array([100.0, 20.0])) == pytest.approx(20)
