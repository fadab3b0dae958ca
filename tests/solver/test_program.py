"""Sparse rows against ordinary arrays, and what a programme refuses to hold."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from solver.errors import ProgramError
from solver.numerics import LARGEST_COEFFICIENT, FloatArray
from solver.program import LinearProgram, Rows, refuse_crossed

whole_numbers = st.integers(-50, 50).map(float)
sizes = st.integers(0, 6)


@st.composite
def matrices(draw: st.DrawFn, columns: int | None = None) -> FloatArray:
    width = draw(st.integers(1, 6)) if columns is None else columns
    matrix: FloatArray = draw(arrays(np.float64, (draw(sizes), width), elements=whole_numbers))
    matrix[draw(arrays(np.bool_, matrix.shape))] = 0.0
    return matrix


@st.composite
def two_of_one_width(draw: st.DrawFn) -> tuple[FloatArray, FloatArray]:
    upper = draw(matrices())
    return upper, draw(matrices(columns=upper.shape[1]))


def vector(length: int) -> st.SearchStrategy[FloatArray]:
    return arrays(np.float64, length, elements=whole_numbers)


def back_to_dense(rows: Rows) -> FloatArray:
    return np.array([rows.transposed_times(unit) for unit in np.eye(rows.height)]).reshape(rows.height, rows.width)


@given(matrices())
def test_only_entries_that_are_not_zero_are_kept(matrix: FloatArray) -> None:
    rows = Rows.from_dense(matrix)
    assert (rows.height, rows.width) == matrix.shape
    assert len(rows.value) == np.count_nonzero(matrix)
    assert (rows.value == matrix[rows.row_of_entry, rows.index]).all()


@given(matrices())
def test_each_row_is_a_slice_of_the_entries(matrix: FloatArray) -> None:
    rows = Rows.from_dense(matrix)
    for row in range(rows.height):
        entries = slice(rows.start[row], rows.start[row + 1])
        assert (rows.row_of_entry[entries] == row).all()
        assert rows.index[entries].tolist() == np.nonzero(matrix[row])[0].tolist()


@given(st.data(), matrices())
def test_a_product_with_a_point_is_that_of_the_array(data: st.DataObject, matrix: FloatArray) -> None:
    x = data.draw(vector(matrix.shape[1]))
    assert (Rows.from_dense(matrix).times(x) == matrix @ x).all()


@given(st.data(), matrices())
def test_a_product_with_duals_is_that_of_the_transposed_array(data: st.DataObject, matrix: FloatArray) -> None:
    y = data.draw(vector(matrix.shape[0]))
    assert (Rows.from_dense(matrix).transposed_times(y) == matrix.T @ y).all()


@given(two_of_one_width())
def test_rows_below_others_are_the_stacked_array(both: tuple[FloatArray, FloatArray]) -> None:
    above, below = both
    stacked = Rows.from_dense(above).below(Rows.from_dense(below))
    assert (back_to_dense(stacked) == np.vstack((above, below))).all()
    whole = Rows.from_dense(np.vstack((above, below)))
    assert stacked.start.tolist() == whole.start.tolist()
    assert stacked.index.tolist() == whole.index.tolist()


def test_indices_are_32_bit_as_solvers_want_them() -> None:
    rows = Rows.from_dense(np.eye(2)).below(Rows.from_dense(np.eye(2)))
    assert {rows.start.dtype, rows.index.dtype, rows.row_of_entry.dtype} == {np.dtype(np.int32)}


PROGRAMME = LinearProgram(
    cost=np.array([1.0, 2.0]),
    rows=Rows.from_dense(np.array([[1.0, LARGEST_COEFFICIENT]])),
    row_lower=np.array([-np.inf]),
    row_upper=np.array([1.0]),
    column_lower=np.array([0.0, -np.inf]),
    column_upper=np.array([np.inf, np.inf]),
    integer=np.array([False, False]),
)


def test_infinite_bounds_and_the_largest_coefficient_are_accepted() -> None:
    assert not PROGRAMME.has_integers


def test_one_whole_column_makes_it_an_integer_programme() -> None:
    assert replace(PROGRAMME, integer=np.array([False, True])).has_integers


@pytest.mark.parametrize("bad", [np.nan, np.inf, -np.inf])
def test_a_cost_must_be_finite(bad: float) -> None:
    with pytest.raises(ProgramError, match="not finite"):
        replace(PROGRAMME, cost=np.array([1.0, bad]))


@pytest.mark.parametrize("bad", [np.nan, np.inf, -np.inf])
def test_a_coefficient_must_be_finite(bad: float) -> None:
    with pytest.raises(ProgramError, match="not finite"):
        replace(PROGRAMME, rows=Rows.from_dense(np.array([[1.0, bad]])))


@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_a_coefficient_must_not_be_huge(sign: float) -> None:
    with pytest.raises(ProgramError, match="beyond 10000"):
        replace(PROGRAMME, rows=Rows.from_dense(np.array([[1.0, sign * LARGEST_COEFFICIENT * 1.001]])))


@pytest.mark.parametrize("field", ["row_lower", "row_upper", "column_lower", "column_upper"])
def test_a_bound_must_not_be_missing(field: str) -> None:
    bounds = getattr(PROGRAMME, field).copy()
    bounds[0] = np.nan
    with pytest.raises(ProgramError, match="NaN"):
        replace(PROGRAMME, **{field: bounds})


def test_row_bounds_must_not_cross() -> None:
    with pytest.raises(ProgramError, match="above its upper bound"):
        replace(PROGRAMME, row_lower=np.array([2.0]))


def test_column_bounds_must_not_cross() -> None:
    with pytest.raises(ProgramError, match="above its upper bound"):
        replace(PROGRAMME, column_lower=np.array([1.0, 0.0]), column_upper=np.array([0.0, 1.0]))


def test_equal_bounds_do_not_cross() -> None:
    refuse_crossed(np.array([1.0]), np.array([1.0]))


@pytest.mark.parametrize("field", ["cost", "row_lower", "row_upper", "column_lower", "column_upper", "integer"])
def test_every_array_has_the_length_of_its_side(field: str) -> None:
    longer: Any = np.append(getattr(PROGRAMME, field), getattr(PROGRAMME, field)[0])
    with pytest.raises(ProgramError, match="do not fit"):
        replace(PROGRAMME, **{field: longer})


@pytest.mark.parametrize(("field", "bound"), [("row_lower", np.inf), ("column_upper", -np.inf)])
def test_a_bound_is_not_at_the_wrong_end_of_infinity(field: str, bound: float) -> None:
    bounds = np.full_like(getattr(PROGRAMME, field), bound)
    with pytest.raises(ProgramError, match="wrong side"):
        replace(PROGRAMME, **{field: bounds})


def test_appended_rows_come_after_the_present_ones() -> None:
    longer = PROGRAMME.with_rows(PROGRAMME.rows, PROGRAMME.row_lower, PROGRAMME.row_upper)
    x = np.arange(1.0, PROGRAMME.rows.width + 1)
    assert longer.rows.times(x).tolist() == [*PROGRAMME.rows.times(x), *PROGRAMME.rows.times(x)]
    assert len(longer.row_lower) == 2 * len(PROGRAMME.row_lower)
