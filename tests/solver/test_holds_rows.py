"""The worst case of rows against every vertex of a tolerance."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from solver.brief import Brief
from solver.components import Placed
from solver.formulate import formulate
from solver.holds import Holds
from solver.missing import count
from tests.solver.holding import HOLDS, MINCE, TALLOW, vertices
from tests.solver.larder import (
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
)

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
