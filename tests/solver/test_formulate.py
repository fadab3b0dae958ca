import itertools
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.brief import Brief, Preference
from solver.formulate import Formulation
from solver.numerics import LARGEST_COEFFICIENT, LARGEST_PORTION_G, ROW_MAGNITUDE, FloatArray
from solver.pantry import PantryItem, Step
from solver.program import Rows
from tests.solver.larder import BREAD, BUTTER, CHICKEN, NOTHING, between, brief, food, item, macronutrients, posed

EGG = replace(item(macronutrients("egg", protein=12, fat=10, carbohydrate=1)), step=Step(1, "large", 50.0))


def dense(rows: Rows) -> FloatArray:
    matrix = np.zeros((rows.height, rows.width))
    matrix[rows.row_of_entry, rows.index] = rows.value
    return matrix


def unscaled(formulation: Formulation) -> tuple[FloatArray, FloatArray]:
    """The rows of sides and centres before they were scaled, and what they are at least."""
    scale = formulation.layout.row_scale
    rows = dense(formulation.program.rows)[: len(scale)]
    return rows / scale[:, None], formulation.program.row_lower[: len(scale)] / scale


def bounds_g(asked: PantryItem, portions: int = 1) -> tuple[float, float]:
    """The column bounds of the only item of a brief, in grams."""
    formulation = posed(brief(asked, portions=portions))
    unit_g = formulation.layout.unit_g[0]
    return float(formulation.program.column_lower[0] * unit_g), float(formulation.program.column_upper[0] * unit_g)


def by_hand() -> Brief:
    """Two portions of butter (weighed) and eggs (counted); one must on the fat share, one on energy, one wish."""
    wish = replace(between("protein_g", 20.0, None), priority=1)
    targets = (wish, between("fat_share_percent", 70.0, 80.0), between("energy_kcal", 400.0, 500.0))
    return brief(replace(item(BUTTER), on_hand_g=250.0), replace(EGG, at_most_g=320.0), targets=targets, portions=2)


def test_a_small_brief_is_posed_as_by_hand() -> None:
    formulation = posed(by_hand())
    rows, least = unscaled(formulation)
    # Columns: butter (100 g), egg (50 g), a miss for each side, the deviation. Targets by id: energy, share, protein.
    # Butter: P 1, F 80, C 1, 728 kcal in 100 g. An egg of 50 g: P 6, F 5, C 0.5, 71 kcal.
    butter_share, egg_share = (720 / 728, 45 / 71)
    energy_aim = 2 * 450.0
    by_definition: list[list[float]] = [
        [728, 71, 800, 0, 0, 0, 0, 0],
        [-728, -71, 0, 1000, 0, 0, 0, 0],
        [728 * (butter_share - 0.7), 71 * (egg_share - 0.7), 0, 0, energy_aim, 0, 0, 0],
        [728 * (0.8 - butter_share), 71 * (0.8 - egg_share), 0, 0, 0, energy_aim, 0, 0],
        [1, 6, 0, 0, 0, 0, 40, 0],
        [-728, -71, 0, 0, 0, 0, 0, 100],
        [728, 71, 0, 0, 0, 0, 0, 100],
        [-728 * (butter_share - 0.75), -71 * (egg_share - 0.75), 0, 0, 0, 0, 0, 0.05 * energy_aim],
        [728 * (butter_share - 0.75), 71 * (egg_share - 0.75), 0, 0, 0, 0, 0, 0.05 * energy_aim],
    ]
    np.testing.assert_allclose(rows, by_definition, atol=1e-9)
    np.testing.assert_allclose(least, [800, -1000, 0, 0, 40, -900, 900, 0, 0])
    assert np.isinf(formulation.program.row_upper).all()
    np.testing.assert_allclose(formulation.program.column_lower, 0)
    # 250 g butter, 6 eggs of at most 320 g; misses of musts shut, of wishes open.
    np.testing.assert_allclose(formulation.program.column_upper, [2.5, 6, 0, 0, 0, 0, np.inf, np.inf])
    assert formulation.program.integer.tolist() == [False, True] + [False] * 6
    assert not formulation.program.cost.any()


def test_the_layout_says_which_column_and_row_is_what() -> None:
    layout = posed(by_hand()).layout
    assert [one.name for one in layout.items] == ["butter", "egg"]
    assert layout.unit_g.tolist() == [100, 50]
    assert layout.weighed.tolist() == [True, False]
    assert [(side.target.id, side.is_lower) for side in layout.sides] == [
        ("energy_kcal", True),
        ("energy_kcal", False),
        ("fat_share_percent", True),
        ("fat_share_percent", False),
        ("protein_g", True),
    ]
    assert (layout.use_columns, layout.switch_columns, layout.miss_columns) == (
        slice(0, 2),
        slice(2, 2),
        slice(2, 7),
    )
    assert (layout.deviation_column, layout.width) == (7, 8)
    assert [layout.centre_rows(number) for number in range(2)] == [slice(5, 7), slice(7, 9)]


def test_items_that_are_left_out_are_carried_in_the_layout() -> None:
    layout = posed(brief(item(BUTTER), item(food("stock")))).layout
    assert [one.name for one in layout.items] == ["butter"]
    assert [out.item for out in layout.left_out] == ["stock"]


def test_any_order_of_a_brief_is_the_identical_programme() -> None:
    asked = by_hand()
    items = (*asked.pantry, replace(item(CHICKEN), least_when_used_g=40.0), item(BREAD))
    first = posed(replace(asked, pantry=items))
    orders = itertools.product(itertools.permutations(items), itertools.permutations(asked.targets))
    for pantry, targets in itertools.islice(orders, 0, None, 7):
        other = posed(replace(asked, pantry=pantry, targets=targets))
        assert other.layout.items == first.layout.items
        for name in ("cost", "row_lower", "row_upper", "column_lower", "column_upper", "integer"):
            np.testing.assert_array_equal(getattr(other.program, name), getattr(first.program, name))
        for name in ("start", "index", "value"):
            np.testing.assert_array_equal(getattr(other.program.rows, name), getattr(first.program.rows, name))


def test_an_item_with_a_step_is_counted_in_whole_steps() -> None:
    formulation = posed(brief(replace(EGG, on_hand_g=330.0, at_least_g=60.0)))
    assert formulation.layout.unit_g[0] == 50
    assert formulation.program.integer[0]
    assert (formulation.program.column_lower[0], formulation.program.column_upper[0]) == (2, 6)


def test_a_step_of_what_can_be_printed_is_no_step() -> None:
    formulation = posed(brief(replace(item(BUTTER), step=Step(0.1, "g", 0.1))))
    assert formulation.layout.weighed[0]
    assert not formulation.program.has_integers


@pytest.mark.parametrize(
    ("at_least_g", "on_hand_g", "bounds"),
    [
        (10.01, 100.07, (10.1, 100.0)),
        (10.0, 100.0, (10.0, 100.0)),
        (0.3, 0.7, (0.3, 0.7)),  # 0.3 / 0.1 is a little less than 3, and 0.7 / 0.1 a little less than 7
        (10 + 1e-11, 100 - 1e-11, (10.0, 100.0)),  # noise of a conversion
        (0.0, 0.05, (0.0, 0.0)),
    ],
)
def test_bounds_of_weighed_items_move_inwards_to_what_can_be_printed(
    at_least_g: float, on_hand_g: float, bounds: tuple[float, float]
) -> None:
    asked = replace(item(BUTTER), at_least_g=at_least_g, on_hand_g=on_hand_g)
    assert bounds_g(asked) == pytest.approx(bounds, rel=1e-12)


@given(st.floats(0, 1e4), st.floats(0, 1e4))
def test_no_bound_is_ever_outside_what_was_asked(at_least_g: float, room_g: float) -> None:
    asked = replace(item(BUTTER), at_least_g=at_least_g, at_most_g=at_least_g + room_g + 0.2)
    lower, upper = bounds_g(asked, portions=3)
    noise = 0.1 * 1e-8
    assert at_least_g - noise <= lower < at_least_g + 0.1 + noise
    assert at_least_g + room_g + 0.1 - noise < upper <= at_least_g + room_g + 0.2 + noise


def test_the_smaller_of_stock_and_most_is_the_bound() -> None:
    for on_hand_g, at_most_g in ((80.0, 120.0), (120.0, 80.0)):
        assert bounds_g(replace(item(BUTTER), on_hand_g=on_hand_g, at_most_g=at_most_g)) == (0, 80)


def test_what_has_no_limit_may_grow_to_the_largest_portion() -> None:
    assert bounds_g(item(BUTTER), portions=3) == (0, 3 * LARGEST_PORTION_G)


def test_only_balanced_needs_the_centres() -> None:
    asked = by_hand()
    assert len(posed(replace(asked, prefer=(Preference.CHEAPEST,))).layout.centres) == 0
    assert len(posed(replace(asked, prefer=(Preference.CHEAPEST, Preference.BALANCED))).layout.centres) == 2


def test_on_the_grid_weighed_items_are_whole_multiples_of_a_tenth_of_a_gram() -> None:
    coarse, grid = posed(by_hand()), posed(by_hand(), grid=True)
    assert grid.layout.unit_g.tolist() == pytest.approx([0.1, 50])
    assert grid.layout.weighed.tolist() == [True, False]
    assert grid.program.integer.tolist() == [True, True] + [False] * 6
    assert grid.program.column_upper[:2].tolist() == pytest.approx([2500, 6])
    rows, least = unscaled(grid)
    coarse_rows, coarse_least = unscaled(coarse)
    np.testing.assert_allclose(rows[:, 0] * 1000, coarse_rows[:, 0])
    np.testing.assert_allclose(rows[:, 1:], coarse_rows[:, 1:])
    np.testing.assert_allclose(least, coarse_least)


def test_rows_are_scaled_by_powers_of_two_to_one_size() -> None:
    formulation = posed(by_hand())
    assert (np.frexp(formulation.layout.row_scale)[0] == 0.5).all()
    of_items = np.abs(dense(formulation.program.rows)[:, formulation.layout.use_columns]).max(axis=1)
    assert (of_items <= ROW_MAGNITUDE).all()
    assert (of_items > ROW_MAGNITUDE / 2).all()


SALT = food("salt", sodium_mg=38758, vitamin_b12_ug=0.001, **NOTHING)  # SR28 02047: 38,758 mg sodium
ends = st.one_of(st.just(0.0), st.floats(1e-6, 1e7))


@given(
    of=st.sampled_from(["sodium_mg", "vitamin_b12_ug", "fat_g", "energy_kcal"]),
    one_end=ends,
    other_end=ends,
    ratio=st.one_of(st.just(0.0), st.floats(1e-3, 1e7)),
    portions=st.sampled_from([1, 4, 500]),
    step_g=st.sampled_from([None, 0.1, 0.25, 50.0, 10_000.0]),
    least_when_used_g=st.sampled_from([1.0, 30.0, 1500.0, LARGEST_PORTION_G]),
    grid=st.booleans(),
)
def test_no_extreme_takes_a_coefficient_out_of_what_solvers_read(
    *,
    of: str,
    one_end: float,
    other_end: float,
    ratio: float,
    portions: int,
    step_g: float | None,
    least_when_used_g: float,
    grid: bool,
) -> None:
    step = None if step_g is None else Step(1, "step", step_g)
    oil = food("oil", **{**NOTHING, "fat_g": 100, "sodium_mg": 0, "vitamin_b12_ug": 0})
    asked = brief(
        replace(item(SALT), step=step, least_when_used_g=least_when_used_g),
        item(oil),
        targets=(
            between(of, min(one_end, other_end), max(one_end, other_end)),
            between("ketogenic_ratio", None, ratio),
            between("fat_share_percent", 60.0, 70.0),
        ),
        portions=portions,
    )
    program = posed(asked, grid=grid).program  # which raises for a coefficient that is not finite or beyond the range
    assert np.abs(program.rows.value).max() <= LARGEST_COEFFICIENT
    assert np.isfinite(program.row_lower).all()
