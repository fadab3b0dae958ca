"""The worst case of rows against every vertex, and plans against sampled compositions."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from solver.backends import open_backend
from solver.brief import Brief
from solver.components import Placed
from solver.foods import Food
from solver.formulate import formulate
from solver.holds import Holds, Tolerance
from solver.holds_ends import ends
from solver.missing import count
from solver.nutrients import COLUMN
from solver.outcome import Conflict, Dish, Plan
from solver.solve import solve
from solver.verify import dish_of
from tests.solver.larder import (
    BREAD,
    BUTTER,
    CHICKEN,
    PATTIES,
    ROAST,
    TABLE,
    between,
    brief,
    cooking_row,
    into,
    item,
    kitchen,
    macronutrients,
)

HOLDS = [
    Holds(Tolerance.EU),
    Holds(Tolerance.PERCENT, {"fat_g": 10, "protein_g": 5, "total_carbohydrate_g": 8, "available_carbohydrate_g": 20}),
]
MOVING = ("protein_g", "fat_g", "total_carbohydrate_g", "available_carbohydrate_g")
GRAMS = (60.0, 140.0, 80.0)
TARGETS = (
    between("energy_kcal", 400.0, 900.0),
    between("fat_share_percent", 55.0, 80.0),
    between("protein_share_percent", 10.0, 40.0),
    between("ketogenic_ratio", 0.5, 2.0),
    between("available_carbohydrate_g", None, 60.0),
    between("protein_g", 30.0, 80.0),
    between("fat_g", 20.0, 90.0),
)
MINCE = macronutrients("mince", protein=18, fat=22)
TALLOW = macronutrients("tallow", fat=99)


def with_values(of: Food, values: tuple[float, ...]) -> Food:
    row = of.per_100g.copy()
    row[[COLUMN[name] for name in MOVING]] = values
    return replace(of, per_100g=row)


def vertices(of: Food, holds: Holds) -> list[Food]:
    """Every corner of a food's box."""
    least, most = ends(of, holds)
    places = [COLUMN[name] for name in MOVING]
    return [with_values(of, corner) for corner in product(*((least[place], most[place]) for place in places))]


def lefts(asked: Brief, grams: tuple[float, ...]) -> dict[tuple[str, bool], float]:
    """What each end comes to for grams of the items, in the order of the brief: the least of its rows."""
    formulation = formulate(asked, count(asked))
    by_name = dict(zip((each.name for each in asked.pantry), grams, strict=True))
    grams100 = np.array([by_name[use.item.name] / 100 for use in formulation.layout.uses])
    rendered = np.array([pan.rendered_g(grams100 * 100) / 100 for pan in formulation.layout.board.pans])
    sides = formulation.layout.sides
    found: dict[tuple[str, bool], float] = {}
    for side in sides:
        left = side.left(grams100, rendered) - side.least
        found[side.target.id, side.is_lower] = min(found.get((side.target.id, side.is_lower), np.inf), left)
    return found


def worst_of_vertices(asked: Brief, holds: Holds, grams: tuple[float, ...]) -> dict[tuple[str, bool], float]:
    """A row is a sum over items, so each item's worst vertex is found by itself: 2^4 for each, 2^12 for the dish."""
    stated = lefts(asked, grams)
    worst = dict(stated)
    for place in range(len(asked.pantry)):
        falls = dict.fromkeys(stated, 0.0)
        for corner in vertices(asked.pantry[place].food, holds):
            moved = list(asked.pantry)
            moved[place] = replace(moved[place], food=corner)
            for key, left in lefts(replace(asked, pantry=tuple(moved)), grams).items():
                falls[key] = max(falls[key], stated[key] - left)
        worst = {key: value - falls[key] for key, value in worst.items()}
    return worst


@pytest.mark.parametrize("holds", HOLDS)
def test_the_worst_case_of_a_row_is_that_of_its_worst_vertex(holds: Holds) -> None:
    asked = brief(targets=TARGETS)
    worst = worst_of_vertices(asked, holds, GRAMS)
    assert lefts(replace(asked, holds=holds), GRAMS) == pytest.approx(worst, abs=1e-9)


@pytest.mark.parametrize("holds", HOLDS)
def test_all_vertices_of_a_small_dish_together_are_no_worse(holds: Holds) -> None:
    asked = brief(item(BUTTER), item(CHICKEN), targets=TARGETS)
    held = lefts(replace(asked, holds=holds), GRAMS[:2])
    found = dict.fromkeys(held, np.inf)
    for pair in product(vertices(BUTTER, holds), vertices(CHICKEN, holds)):
        moved = tuple(replace(each, food=corner) for each, corner in zip(asked.pantry, pair, strict=True))
        for key, left in lefts(replace(asked, pantry=moved), GRAMS[:2]).items():
            found[key] = min(found[key], left)
    assert held == pytest.approx(found, abs=1e-9)


def test_pieces_are_at_their_worst_vertex_as_eaten() -> None:
    placed = Placed(ROAST.name, cooking_row(0.7, 0.75))
    parts = (ROAST, TABLE)
    asked = kitchen(into(item(CHICKEN), placed), into(item(BUTTER), TABLE), targets=TARGETS, parts=parts)
    worst = worst_of_vertices(asked, HOLDS[0], (200.0, 40.0))
    assert lefts(replace(asked, holds=HOLDS[0]), (200.0, 40.0)) == pytest.approx(worst, abs=1e-9)


def kept_ends(asked: Brief) -> Iterator[Brief]:
    """The brief with the roast keeping the least and the most of its fat that its row leaves open."""
    for kept in (0.6, 0.8):
        (roast, *others) = asked.pantry
        yield replace(asked, pantry=(replace(roast, placed=(Placed(ROAST.name, cooking_row(kept, 0.75)),)), *others))


def test_pieces_are_at_their_worst_with_what_the_cooking_table_leaves_open() -> None:
    placed = Placed(ROAST.name, cooking_row(0.7, 0.75))
    parts, grams = (ROAST, TABLE), (200.0, 40.0)
    asked = kitchen(into(item(MINCE), placed), into(item(BUTTER), TABLE), targets=TARGETS, parts=parts)
    holds = replace(HOLDS[0], cooking=True)
    at_ends = [worst_of_vertices(end, HOLDS[0], grams) for end in kept_ends(asked)]
    worst = {key: min(end[key] for end in at_ends) for key in at_ends[0]}
    assert lefts(replace(asked, holds=holds), grams) == pytest.approx(worst, abs=1e-9)


def test_a_mix_keeps_its_half_interval_less_at_its_worst() -> None:
    """By the curve: 0.01 g per g raw, and half as much again where it is a guess; of 330 g that is 4.95 g of fat."""
    asked = kitchen(into(item(MINCE), PATTIES), into(item(TALLOW), PATTIES), targets=TARGETS, parts=(PATTIES,))
    stated = lefts(replace(asked, holds=HOLDS[0]), (300.0, 30.0))
    opened = lefts(replace(asked, holds=replace(HOLDS[0], cooking=True)), (300.0, 30.0))
    assert stated["fat_g", True] - opened["fat_g", True] == pytest.approx(4.95)
    assert stated["energy_kcal", False] - opened["energy_kcal", False] == pytest.approx(9 * 4.95)


def test_a_plan_of_a_mix_that_holds_for_cooking_too_says_so_at_its_worst() -> None:
    asked = replace(cooked(), holds=replace(HOLDS[0], cooking=True, scale=0.5))
    plan, less = planned(asked), planned(replace(asked, holds=replace(HOLDS[0], scale=0.5)))
    (energy, same) = (each.dish.targets[0] for each in (plan, less))
    assert energy.worst is not None
    assert same.worst is not None
    assert energy.met
    assert dish_of(plan.dish.quantities, asked, frozenset(), {}).targets[0].worst == energy.worst
    without = dish_of(plan.dish.quantities, replace(asked, holds=less.brief.holds), frozenset(), {}).targets[0].worst
    assert without is not None
    assert energy.worst.lowest < without.lowest


def test_a_row_of_a_mix_is_never_above_what_a_vertex_comes_to() -> None:
    asked = kitchen(into(item(MINCE), PATTIES), into(item(TALLOW), PATTIES), targets=TARGETS, parts=(PATTIES,))
    held = lefts(replace(asked, holds=HOLDS[0]), (300.0, 30.0))
    for pair in product(vertices(MINCE, HOLDS[0]), vertices(TALLOW, HOLDS[0])):
        moved = tuple(replace(each, food=corner) for each, corner in zip(asked.pantry, pair, strict=True))
        for key, left in lefts(replace(asked, pantry=moved), (300.0, 30.0)).items():
            assert held[key] <= left + 1e-9


def test_what_is_stated_is_held_as_stated_by_a_wish() -> None:
    wish = replace(between("protein_g", 30.0, None), priority=1)
    asked = brief(targets=(between("energy_kcal", 400.0, 900.0), wish))
    with_it, without = lefts(replace(asked, holds=HOLDS[0]), GRAMS), lefts(asked, GRAMS)
    assert with_it["protein_g", True] == without["protein_g", True]
    assert with_it["energy_kcal", True] < without["energy_kcal", True]


@pytest.mark.parametrize("most_off", [1, 2])
def test_a_budget_takes_the_largest_deviations_off_whatever_they_are(most_off: int) -> None:
    """Bertsimas and Sim's form against every choice of so many items."""
    asked = brief(targets=TARGETS)
    stated = lefts(asked, GRAMS)
    alone = []
    for place in range(len(asked.pantry)):
        falls = dict.fromkeys(stated, 0.0)
        for corner in vertices(asked.pantry[place].food, HOLDS[0]):
            moved = list(asked.pantry)
            moved[place] = replace(moved[place], food=corner)
            for key, left in lefts(replace(asked, pantry=tuple(moved)), GRAMS).items():
                falls[key] = max(falls[key], stated[key] - left)
        alone.append(falls)
    least = {key: stated[key] - sum(sorted((each[key] for each in alone), reverse=True)[:most_off]) for key in stated}
    held = lefts(replace(asked, holds=replace(HOLDS[0], most_off=most_off)), GRAMS)
    assert held == pytest.approx(least, abs=1e-9)


def test_a_budget_asks_for_less_than_all_and_its_plan_holds_for_every_choice() -> None:
    narrow = (between("energy_kcal", 560.0, 660.0), *MUSTS[1:])
    of_one = replace(HOLDS[0], most_off=1)
    assert isinstance(solve(replace(brief(targets=narrow), holds=HOLDS[0]), open_backend("highs")), Conflict)
    asked = replace(brief(targets=narrow), holds=of_one)
    dish = planned(asked).dish
    for place, quantity in enumerate(dish.quantities):
        for corner in vertices(quantity.item.food, HOLDS[0]):
            moved = list(dish.quantities)
            moved[place] = replace(quantity, item=replace(quantity.item, food=corner))
            assert not dish_of(moved, replace(asked, holds=None), frozenset(), {}).missed


MUSTS = (
    between("energy_kcal", 500.0, 700.0),
    between("fat_share_percent", 60.0, 90.0),
    between("protein_g", 25.0, None),
    between("available_carbohydrate_g", None, 20.0),
)


def sampled(dish: Dish, asked: Brief, holds: Holds, many: int) -> Iterator[Dish]:
    """The printed amounts with compositions from all over the box, half of them at its vertices."""
    rng = np.random.default_rng(7)
    places = [COLUMN[name] for name in MOVING]
    for number in range(many):
        moved = []
        for quantity in dish.quantities:
            least, most = ends(quantity.item.food, holds)
            part = rng.random(len(places)) if number % 2 else rng.integers(0, 2, len(places))
            values = tuple(least[places] + part * (most - least)[places])
            moved.append(replace(quantity, item=replace(quantity.item, food=with_values(quantity.item.food, values))))
        yield dish_of(moved, replace(asked, holds=None), frozenset(), {})


def planned(asked: Brief) -> Plan:
    outcome = solve(asked, open_backend("highs"))
    assert isinstance(outcome, Plan)
    return outcome


@pytest.mark.parametrize("holds", HOLDS)
def test_ten_thousand_compositions_break_no_target(holds: Holds) -> None:
    asked = replace(brief(targets=MUSTS), holds=holds)
    dish = planned(asked).dish
    worst = {each.target.id: each.worst for each in dish.targets}
    for moved in sampled(dish, asked, holds, 10_000):
        for each in moved.targets:
            end = worst[each.target.id]
            assert each.met
            assert each.value is not None
            assert end is not None
            assert end.highest is not None
            assert end.lowest - 1e-9 <= each.value <= end.highest + 1e-9


def cooked() -> Brief:
    parts = (PATTIES, TABLE)
    pantry = (into(item(MINCE), PATTIES), into(item(BUTTER), TABLE), into(item(BREAD), TABLE))
    return kitchen(*pantry, targets=(between("energy_kcal", 400.0, 900.0), *MUSTS[1:]), parts=parts)


def test_a_thousand_compositions_of_a_mix_break_no_target() -> None:
    asked = replace(cooked(), holds=HOLDS[0])
    for moved in sampled(planned(asked).dish, asked, HOLDS[0], 1000):
        assert not moved.missed


def test_a_plan_that_holds_as_stated_breaks_at_its_worst() -> None:
    """Else the tests above would not show anything."""
    narrow = (between("energy_kcal", 500.0, 700.0), between("protein_g", 25.0, 26.0))
    dish = planned(brief(targets=narrow)).dish
    assert any(moved.missed for moved in sampled(dish, brief(targets=narrow), HOLDS[0], 100))


@pytest.mark.parametrize("referee", ["scipy-highs", "pulp-cbc"])
def test_other_backends_agree_that_it_holds_and_that_it_does_not(referee: str) -> None:
    narrow = (between("energy_kcal", 570.0, 630.0), *MUSTS[1:])
    for targets, expected in ((MUSTS, Plan), (narrow, Conflict)):
        asked = replace(brief(targets=targets), holds=HOLDS[0])
        assert isinstance(solve(asked, open_backend("highs")), expected)
        assert isinstance(solve(asked, open_backend(referee)), expected)
