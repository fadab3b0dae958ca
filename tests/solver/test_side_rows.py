"""The rows of sides and centres against a count of each of them by itself."""

import numpy as np

from solver.bands import Centre, Side, centre, sides
from solver.board import board_of
from solver.missing import count
from solver.numerics import ROW_MAGNITUDE, FloatArray
from solver.side_rows import SideRows
from solver.targets import Target
from tests.solver.larder import BUTTER, CHICKEN, brief, pantry

BANDS = (
    Target("energy", "energy_kcal", lower=500.0, upper=600.0),
    Target("fat", "fat_share_percent", lower=70.0, upper=80.0),
    Target("protein", "protein_g", lower=20.0),
)
UNIT_G = np.array([100.0, 14.2])
GRAMS = np.array([60.0, 90.0])


def posed() -> tuple[list[Side], list[Centre], SideRows]:
    asked = brief(*pantry(BUTTER, CHICKEN), targets=BANDS)
    board = board_of(asked, count(asked))
    found = [side for target in BANDS for side in sides(target, board, asked)]
    middles = [middle for target in BANDS if (middle := centre(target, board, asked)) is not None]
    return found, middles, SideRows.of(found, middles, UNIT_G, 0)


def left_over(rows: SideRows) -> FloatArray:
    return np.asarray(rows.weights @ (GRAMS / UNIT_G) - rows.least)


def test_a_row_leaves_over_what_its_side_does() -> None:
    found, _, rows = posed()
    by_side = [side.left(GRAMS / 100, np.zeros(0)) - side.least for side in found]
    np.testing.assert_allclose(left_over(rows)[: len(found)], by_side)


def test_the_two_rows_of_a_centre_are_as_far_apart_as_it_is_off() -> None:
    found, middles, rows = posed()
    off = [middle.off(GRAMS / 100, np.zeros(0)) for middle in middles]
    above, below = (left_over(rows)[len(found) + turn :: 2] for turn in (0, 1))
    np.testing.assert_allclose(above, -below)
    np.testing.assert_allclose(np.abs(above) / rows.extra[len(found) :: 2], off)


def test_a_row_is_scaled_by_a_power_of_two_to_just_below_the_magnitude_of_rows() -> None:
    _, _, rows = posed()
    assert np.array_equal(np.log2(rows.scale()) % 1, np.zeros(len(rows.least)))
    largest = np.maximum(np.abs(rows.weights).max(axis=1), rows.extra / 64) * rows.scale()
    assert (largest <= ROW_MAGNITUDE).all()
    assert (largest > ROW_MAGNITUDE / 2).all()


def test_nothing_to_meet_has_no_rows() -> None:
    rows = SideRows.of([], [], UNIT_G, 3)
    assert (rows.weights.shape, rows.pans.shape, rows.scale().shape) == ((0, 2), (0, 3), (0,))
