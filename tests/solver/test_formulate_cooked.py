"""A cooked brief as a programme: where its columns are, and that the order of the brief never matters."""

import itertools
from dataclasses import replace

import numpy as np

from solver.brief import Brief
from solver.components import Drippings, Placed
from solver.cook import SPOON_G
from solver.pantry import Step
from solver.program import LinearProgram
from tests.solver.larder import (
    PATTIES,
    ROAST,
    TABLE,
    between,
    cooking_row,
    into,
    item,
    kitchen,
    macronutrients,
    posed,
)

MINCE, CHOP = macronutrients("mince", protein=15, fat=30), macronutrients("chop", protein=20, fat=10)
TALLOW = macronutrients("tallow", fat=100)

SPOONED = replace(PATTIES, drippings=Drippings.SPOONED_BACK)
ROASTED = replace(ROAST, drippings=Drippings.SPOONED_BACK)


def asked() -> Brief:
    """1 kg mince for patties, chops for the roast, and tallow for both and the table; both pans are spooned."""
    return kitchen(
        into(replace(item(MINCE), on_hand_g=1000.0), SPOONED),
        into(replace(item(CHOP), on_hand_g=500.0), Placed("roast", cooking_row(0.6, 0.7))),
        into(
            replace(item(TALLOW), step=Step(1, "tsp", 4.0), on_hand_g=101.0),
            SPOONED,
            TABLE,
            Placed("roast", melts=True),
        ),
        targets=(between("fat_g", 40.0, 60.0), between("energy_kcal", 400.0, 600.0)),
        parts=(SPOONED, ROASTED, TABLE),
    )


def test_the_layout_says_which_column_is_what() -> None:
    layout = posed(asked(), exact=frozenset({"patties"})).layout
    assert [(use.item.name, use.component.name) for use in layout.uses] == [
        ("chop", "roast"),
        ("mince", "patties"),
        ("tallow", "at the table"),
        ("tallow", "patties"),
        ("tallow", "roast"),
        ("drippings of patties", "patties"),
        ("drippings of roast", "roast"),
    ]
    assert layout.use_columns == slice(0, 7)
    assert layout.pan_columns == slice(7, 8), "only the mix has one; pieces are a sum"
    assert layout.selector_columns == slice(8, 11)
    assert layout.miss_columns == slice(11, 15)
    assert layout.unit_g.tolist() == [100, 100, 4, 4, 4, SPOON_G, SPOON_G]
    assert [layout.items[number].name for number in layout.shared] == ["tallow"]


def test_bounds_are_what_there_is_and_what_can_render_of_it() -> None:
    program = posed(asked()).program
    # 25 whole teaspoons of tallow, 100 g; 1 kg mince and all tallow render at most 0.15 x 1.3 less than their fat.
    assert program.column_upper[:5].tolist() == [5, 10, 25, 25, 25]
    most = 1000 * (0.3 - 0.15 + 0.15 * 0.3) + 100.0
    assert np.isclose(program.column_upper[7], most / 100)
    assert program.column_upper[5] == int(0.8 * most / SPOON_G)
    assert program.column_upper[6] == int(0.8 * (0.4 * 50 + 100) / SPOON_G)
    assert program.integer.tolist() == [False, False, True, True, True, True, True, *[False] * 6]


def test_any_order_of_items_targets_and_places_is_the_identical_programme() -> None:
    first, brief = posed(asked()), asked()
    turned = tuple(replace(one, placed=one.placed[::-1]) for one in brief.pantry)
    for pantry, targets in itertools.product(itertools.permutations(turned), itertools.permutations(brief.targets)):
        assert_identical(first.program, posed(replace(brief, pantry=pantry, targets=targets)).program)


def test_any_order_of_the_components_is_the_identical_programme() -> None:
    first, brief = posed(asked()), asked()
    for components in itertools.permutations(brief.components):
        assert_identical(first.program, posed(replace(brief, components=components)).program)


def assert_identical(one: LinearProgram, other: LinearProgram) -> None:
    for name in ("cost", "row_lower", "row_upper", "column_lower", "column_upper", "integer"):
        np.testing.assert_array_equal(getattr(one, name), getattr(other, name))
    rows, others = one.rows, other.rows
    for name in ("start", "index", "value"):
        np.testing.assert_array_equal(getattr(rows, name), getattr(others, name))
