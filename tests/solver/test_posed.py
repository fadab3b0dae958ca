"""Two paths agree: what the rows of a programme count, and what the tally finds food by food.

With one source of fat in a pan the rows are exact. With several they never count more than there is of what has to be
reached, and never less than there is of what must not be passed.
"""

from collections.abc import Mapping

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.as_eaten import SLICE_COLUMNS
from solver.nutrients import NUTRIENTS
from solver.posed import posed
from solver.tally import Tally
from solver.targets import WeightBasis
from tests.solver.random_kitchens import Kitchen, random_kitchen

#: What a target may be of. Stated energy is not: it is a note beside the energy of the basis.
COLUMNS = (*(n.name for n in NUTRIENTS if n.name != "energy_kcal"), *SLICE_COLUMNS.values(), "basis_energy_kcal")

#: What a mix evaporates is no sum over its items, so no row may ask for its water before it is finished.
WITHOUT_WATER = tuple(name for name in COLUMNS if name != "water_g")

#: A random kitchen is made from its seed, which is all that a report of a failure needs.
SEEDS = st.integers(0, 2**32 - 1)


def counted(kitchen: Kitchen, counts: Mapping[str, float], basis: WeightBasis = WeightBasis.AS_EATEN) -> float:
    """What the row of a target counts."""
    board = kitchen.board
    grams = kitchen.amounts_g(board)
    weights, pans = posed(board, counts, basis)
    rendered = np.array([pan.rendered_g(grams) for pan in board.pans])
    return float(weights @ grams + pans @ rendered) / 100


def columns(kitchen: Kitchen) -> tuple[str, ...]:
    component, *_ = kitchen.brief.components
    return WITHOUT_WATER if component.is_mix and not component.finished else COLUMNS


def total(sums: Tally, name: str) -> float:
    """What the tally finds."""
    if name == "basis_energy_kcal":
        return sums.batch.energy_kcal
    macro = next((of for of, its in SLICE_COLUMNS.items() if its == name), None)
    return float(sums.batch.values[name] or 0.0) if macro is None else float(getattr(sums.macro, macro))


def slack(value: float) -> float:
    return 1e-9 * max(1e3, abs(value))


@settings(deadline=None)
@given(SEEDS)
def test_with_one_source_of_fat_every_row_is_exact(seed: int) -> None:
    kitchen = random_kitchen(seed, sources=1)
    sums = kitchen.tally
    for name in columns(kitchen):
        for sign in (1.0, -1.0):
            row = sign * counted(kitchen, {name: sign})
            # The tally stops where there is no more water.
            assert max(row, 0.0) == pytest.approx(total(sums, name), abs=slack(total(sums, name))), name


@settings(deadline=None)
@given(SEEDS)
def test_with_several_sources_no_row_is_more_favourable_than_the_dish(seed: int) -> None:
    kitchen = random_kitchen(seed, sources=3)
    sums = kitchen.tally
    for name in columns(kitchen):
        value = total(sums, name)
        at_least, at_most = counted(kitchen, {name: 1.0}), -counted(kitchen, {name: -1.0})
        assert max(at_least, 0.0) <= value + slack(value), name
        assert max(at_most, 0.0) >= value - slack(value), name


@settings(deadline=None)
@given(SEEDS, st.floats(0, 1))
def test_with_several_sources_no_share_is_more_favourable_than_the_dish(seed: int, part: float) -> None:
    kitchen = random_kitchen(seed, sources=3)
    macro = kitchen.tally.macro
    for sign in (1.0, -1.0):
        counts = dict.fromkeys(SLICE_COLUMNS.values(), -sign * part)
        counts[SLICE_COLUMNS["fat"]] += sign
        assert counted(kitchen, counts) <= sign * (macro.fat - part * macro.total) + slack(macro.total)


@settings(deadline=None)
@given(SEEDS)
def test_of_fat_itself_all_sources_hold_the_same(seed: int) -> None:
    kitchen = random_kitchen(seed, sources=3)
    value = total(kitchen.tally, "fat_g")
    assert counted(kitchen, {"fat_g": 1.0}) == pytest.approx(value, abs=slack(value))
    assert counted(kitchen, {"fat_g": -1.0}) == pytest.approx(-value, abs=slack(value))


@settings(deadline=None)
@given(SEEDS)
def test_a_row_of_raw_weights_counts_no_cooking(seed: int) -> None:
    kitchen = random_kitchen(seed, sources=2)
    foods = zip(kitchen.brief.pantry, kitchen.grams, strict=True)
    whole = sum(grams * item.food.value("alcohol_g") / 100 for item, grams in foods)
    assert counted(kitchen, {"alcohol_g": 1.0}, WeightBasis.RAW) == pytest.approx(whole)
    assert kitchen.tally.raw.values["alcohol_g"] == pytest.approx(whole)
    weights, pans = posed(kitchen.board, {"fat_g": 1.0}, WeightBasis.RAW)
    assert not pans.any()
    assert not weights[len(kitchen.grams) :].any(), "drippings were weighed out with the meat"
