"""With steps: the region of two amounts and a ratio in bands of an amount, against every dish that can be had."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest

from solver.brief import Brief
from solver.deadline import Deadline
from solver.pantry import Step
from solver.reach import Pantry, asked_for
from solver.reach_bands import BANDS
from solver.reach_curve import curve_of
from solver.reach_outcome import Piece
from solver.reach_polygon import polygon_of
from tests.solver.by_fractions import dot, hull
from tests.solver.reaching import MUSTS, ON_HAND, PER_100G, RATIOS, pantry, rows_of, three_foods

SLICE_G = 30


def in_slices(*musts: tuple[str, int | None, int | None]) -> Brief:
    """The three foods, each in whole slices."""
    asked = three_foods(*musts)
    return replace(asked, pantry=tuple(replace(each, step=Step(1, "slice", SLICE_G)) for each in asked.pantry))


def every_dish(*musts: tuple[str, int | None, int | None]) -> Iterator[tuple[Fraction, ...]]:
    """Each choice of slices that meets the musts, in hundreds of grams."""
    counts = (range(100 * most // SLICE_G + 1) for most in ON_HAND)
    for slices in product(*counts):
        dish = tuple(Fraction(SLICE_G * each, 100) for each in slices)
        if all(dot(row, dish) >= end for row, end in rows_of(*musts)):
            yield dish


def test_the_region_with_steps_is_the_hull_of_every_dish_of_whole_slices() -> None:
    x, y = "energy_kcal", "protein_g"
    others = [must for must in MUSTS if must[0] not in {x, y}]
    by_hand = hull([(dot(PER_100G[x], dish), dot(PER_100G[y], dish)) for dish in every_dish(*others)])
    asked = in_slices(*MUSTS)
    found = polygon_of(pantry(asked), asked_for(asked, x), asked_for(asked, y))
    assert [(each.x, each.y) for each in found.vertices] == [
        pytest.approx((float(a), float(b)), abs=1e-6) for a, b in by_hand
    ]
    assert all(each.attained for each in found.vertices)
    assert (found.outer, found.complete) == (True, True)
    assert found.gap_percent == pytest.approx(0, abs=0.1)


@pytest.mark.parametrize("y", ["fat_share_percent", "ketogenic_ratio"])
def test_each_band_has_the_least_and_the_most_ratio_of_the_dishes_in_it(y: str) -> None:
    x = "energy_kcal"
    others = [must for must in MUSTS if must[0] not in {x, y}]
    dishes = [dish for dish in every_dish(*others) if any(dish)]
    top, bottom, factor = RATIOS[y]
    told = [
        (float(dot(PER_100G[x], dish)), float(factor * dot(PER_100G[top], dish) / dot(PER_100G[bottom], dish)))
        for dish in dishes
    ]
    asked = in_slices(*MUSTS)
    found = curve_of(pantry(asked), asked_for(asked, x), asked_for(asked, y))
    assert found.in_bands
    assert found.complete
    assert found.gap == pytest.approx(0, abs=0.01)
    assert 1 < len(found.most) <= BANDS
    for sides, end in ((found.least, min), (found.most, max)):
        for piece in sides:
            inside = [ratio for kcal, ratio in told if piece.start - 1e-6 <= kcal <= piece.stop + 1e-6]
            assert piece.at(piece.start) == pytest.approx(end(inside), rel=1e-6)
        assert len(told) == sum(covered(kcal, sides) for kcal, _ in told)


def covered(kcal: float, sides: tuple[Piece, ...]) -> bool:
    return any(piece.start - 1e-6 <= kcal <= piece.stop + 1e-6 for piece in sides)


def test_bands_without_time_are_incomplete_and_hold_nothing_unproven() -> None:
    asked = in_slices(*MUSTS)
    late = Pantry(asked, pantry(asked).backend, Deadline.after(0))
    found = curve_of(late, asked_for(asked, "energy_kcal"), asked_for(asked, "fat_share_percent"))
    assert (found.least, found.most, found.complete) == ((), (), False)
