"""Numbers that a person would write, moved outward."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.sensible import ends_from, grain, outward, weights_from


@pytest.mark.parametrize(
    ("value", "unit", "down", "first"),
    [
        (700.2, "kcal", False, 701.0),
        (700.0000000000001, "kcal", False, 700.0),
        (68.888, "%", True, 68.8),
        (2.0556, "1", False, 2.06),
        (1234.0, "mg", False, 1240.0),
        (1.2345, "ug", True, 1.23),
    ],
)
def test_an_end_is_moved_outward_to_the_last_digit_worth_writing(
    value: float,
    unit: str,
    down: bool,  # noqa: FBT001  a column of the table
    first: float,
) -> None:
    assert next(ends_from(value, unit, down=down)) == first


@given(st.floats(0, 1e6), st.sampled_from(["kcal", "g", "%", "1", "mg"]), st.booleans())
def test_what_is_moved_outward_is_never_inside_and_never_a_digit_further(value: float, unit: str, down: bool) -> None:  # noqa: FBT001
    step = grain(unit, value)
    moved = outward(value, step, down=down)
    beyond = value - moved if down else moved - value
    assert -2e-6 * step <= beyond <= step * (1 + 1e-6)


@given(st.floats(0, 1e4), st.sampled_from(["kcal", "g", "%", "1", "ug"]), st.booleans())
def test_ends_go_further_outward_and_never_below_nothing(value: float, unit: str, down: bool) -> None:  # noqa: FBT001
    ends = list(ends_from(value, unit, down=down))
    assert ends == sorted(ends, reverse=down)
    assert all(end >= 0 for end in ends)


def test_weights_are_whole_steps_or_grams_that_a_scale_shows() -> None:
    assert next(weights_from(99.3, None, down=False)) == 100.0
    assert next(weights_from(3.14, None, down=False)) == 3.2
    assert next(weights_from(120.0, 50.0, down=False)) == 150.0
    assert next(weights_from(120.0, 50.0, down=True)) == 100.0
