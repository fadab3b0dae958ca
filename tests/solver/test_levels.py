from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.brief import Preference
from solver.formulate import Formulation
from solver.levels import BALANCED_GAP, CHEAPEST_GAP, Level, completed, least_miss, levels
from solver.numerics import FloatArray
from solver.pantry import Step
from solver.targets import Target
from tests.solver.larder import BREAD, BUTTER, CHICKEN, between, brief, item, pantry, posed

SHARE, PROTEIN = between("fat_share_percent", 70.0, 80.0), between("protein_g", 30.0, None)
ENERGY = between("energy_kcal", 400.0, 600.0)


def wish(target: Target, priority: int) -> Target:
    return replace(target, priority=priority)


def posed_with(*targets: Target, prefer: tuple[Preference, ...] = (Preference.BALANCED,)) -> Formulation:
    return posed(replace(brief(*pantry(BUTTER, CHICKEN, BREAD), targets=targets), prefer=prefer))


def costs_of_misses(formulation: Formulation, level: Level) -> dict[tuple[str, bool], float]:
    """By target and whether it is the lower side; nothing else may cost."""
    layout = formulation.layout
    elsewhere = level.cost.copy()
    elsewhere[layout.miss_columns] = 0
    assert not elsewhere.any()
    costs = level.cost[layout.miss_columns]
    return {
        (side.target.id, side.is_lower): float(cost) for side, cost in zip(layout.sides, costs, strict=True) if cost
    }


def test_without_wishes_the_only_level_is_the_preference() -> None:
    assert [level.name for level in levels(posed_with(ENERGY, SHARE))] == ["balanced"]


def test_wishes_come_first_by_priority_then_the_preferences_in_their_order() -> None:
    prefer = (Preference.CHEAPEST, Preference.BALANCED)
    found = levels(posed_with(wish(SHARE, 3), wish(PROTEIN, 1), ENERGY, prefer=prefer))
    assert [level.name for level in found] == [
        "wishes of priority 1",
        "wishes of priority 3",
        "cheapest",
        "balanced",
    ]


def test_wishes_of_one_priority_share_a_level_and_all_their_sides_cost_alike() -> None:
    formulation = posed_with(wish(SHARE, 2), wish(PROTEIN, 2), ENERGY)
    first = levels(formulation)[0]
    assert costs_of_misses(formulation, first) == {
        ("fat_share_percent", True): 1,
        ("fat_share_percent", False): 1,
        ("protein_g", True): 1,
    }


def test_a_wish_costs_nothing_at_the_level_of_another_priority() -> None:
    formulation = posed_with(wish(SHARE, 2), wish(PROTEIN, 1), ENERGY)
    assert costs_of_misses(formulation, levels(formulation)[0]) == {("protein_g", True): 1}


def test_balanced_costs_the_largest_deviation() -> None:
    formulation = posed_with(ENERGY)
    (balanced,) = levels(formulation)
    assert np.flatnonzero(balanced.cost).tolist() == [formulation.layout.deviation_column]
    assert balanced.cost.sum() == 1
    assert balanced.absolute_gap == BALANCED_GAP


def test_cheapest_costs_the_price_of_each_column_unit() -> None:
    butter = replace(item(BUTTER), price_per_g=0.01)
    egg = replace(item(CHICKEN), price_per_g=0.006, step=Step(1, "piece", 50.0))
    formulation = posed(replace(brief(butter, egg), prefer=(Preference.CHEAPEST,)))
    (cheapest,) = levels(formulation)
    np.testing.assert_allclose(cheapest.cost[formulation.layout.use_columns], [1.0, 0.3])  # 100 g; a piece
    assert not cheapest.cost[formulation.layout.use_columns.stop :].any()
    assert cheapest.absolute_gap == CHEAPEST_GAP


def test_a_conflict_seeks_the_least_miss_of_the_musts_alone() -> None:
    formulation = posed_with(ENERGY, wish(PROTEIN, 1))
    found = costs_of_misses(formulation, least_miss(formulation))
    assert found == {("energy_kcal", True): 1, ("energy_kcal", False): 1}


amounts_100g = st.lists(st.floats(0, 10), min_size=3, max_size=3).map(np.array)


def with_everything() -> Formulation:
    items = (item(BUTTER), replace(item(CHICKEN), least_when_used_g=50.0), item(BREAD))
    return posed(brief(*items, targets=(ENERGY, SHARE, wish(PROTEIN, 1), between("ketogenic_ratio", 0.5, 1.5))))


def surplus(formulation: Formulation, x: FloatArray) -> FloatArray:
    """How far each row of a side or centre is above what it must be, before it was scaled."""
    rows = slice(0, len(formulation.layout.row_scale))
    program = formulation.program
    return (program.rows.times(x)[rows] - program.row_lower[rows]) / formulation.layout.row_scale


@given(amounts_100g)
def test_completed_columns_hold_every_row(amounts: FloatArray) -> None:
    formulation = with_everything()
    x = completed(formulation, amounts, frozenset())
    np.testing.assert_array_equal(x[formulation.layout.use_columns], amounts)
    assert (surplus(formulation, x) >= -1e-6).all()


@given(amounts_100g)
def test_no_miss_and_no_deviation_could_be_smaller(amounts: FloatArray) -> None:
    formulation = with_everything()
    layout = formulation.layout
    x = completed(formulation, amounts, frozenset())
    for number, column in enumerate(range(*layout.miss_columns.indices(layout.width))):
        assert x[column] == 0 or surplus(formulation, x)[number] == pytest.approx(0, abs=1e-6)
    of_centres = surplus(formulation, x)[len(layout.sides) :]
    assert x[layout.deviation_column] == 0 or of_centres.min() == pytest.approx(0, abs=1e-6)


def test_switches_are_on_where_the_item_is_used() -> None:
    formulation = with_everything()
    switch = formulation.layout.switch_columns
    assert [one.name for one in formulation.layout.items] == ["bread", "butter", "chicken"]
    assert completed(formulation, np.array([1.0, 1.0, 0.0]), frozenset())[switch].tolist() == [0]
    assert completed(formulation, np.array([0.0, 0.0, 0.6]), frozenset())[switch].tolist() == [1]


def test_misses_are_counted_in_their_normaliser_and_steps_in_grams() -> None:
    butter = replace(item(BUTTER), step=Step(1, "pat", 10.0))
    formulation = posed(brief(butter, targets=(between("fat_g", 40.0, 50.0),)))
    # Three pats are 24 g fat: 16 g of 40 missed at the lower side, and 21 g from the middle in half-bands of 5.
    x = completed(formulation, np.array([3.0]), frozenset())
    assert x[formulation.layout.miss_columns].tolist() == pytest.approx([16 / 40, 0])
    assert x[formulation.layout.deviation_column] == pytest.approx(21 / 5)


def test_a_freed_centre_does_not_count_for_the_deviation() -> None:
    formulation = posed(brief(*pantry(BUTTER), targets=(between("fat_g", 40.0, 50.0), between("protein_g", 0.0, 1.0))))
    amounts = np.array([1.0])  # 80 g fat is 7 half-bands from the middle, 1 g protein one
    assert completed(formulation, amounts, frozenset())[formulation.layout.deviation_column] == pytest.approx(7)
    assert completed(formulation, amounts, frozenset({0}))[formulation.layout.deviation_column] == pytest.approx(1)
    assert completed(formulation, amounts, frozenset({0, 1}))[formulation.layout.deviation_column] == 0
