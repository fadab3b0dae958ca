"""The region of two amounts: against fractions, by the dish at each vertex, and against random dishes."""

from dataclasses import replace
from math import hypot

import pytest

from solver.catalogue import Catalogue
from solver.components import Component, Drippings, Placed
from solver.deadline import Deadline
from solver.outcome import Checked
from solver.reach import Pantry, asked_for
from solver.reach_frontier import frontier_of
from solver.reach_outcome import Polygon
from solver.reach_polygon import polygon_of
from solver.targets import Target
from tests.solver.by_fractions import dot, hull, vertices
from tests.solver.larder import (
    CHICKEN,
    CURVE,
    ROAST,
    between,
    brief,
    cooking_row,
    into,
    item,
    kitchen,
    macronutrients,
)
from tests.solver.random_briefs import random_brief
from tests.solver.reaching import MUSTS, PER_100G, dish_at, pantry, rows_of, three_foods, value_at
from tests.solver.test_reach_random import SEEDS, random_dishes

PAIRS = [("energy_kcal", "protein_g"), ("protein_g", "fat_g"), ("fat_g", "energy_kcal")]


@pytest.mark.parametrize(("x", "y"), PAIRS)
def test_the_polygon_is_the_hull_of_every_vertex_in_fractions(x: str, y: str) -> None:
    others = [must for must in MUSTS if must[0] not in {x, y}]
    corners = hull([(dot(PER_100G[x], point), dot(PER_100G[y], point)) for point in vertices(rows_of(*others))])
    asked = three_foods(*MUSTS)
    found = polygon_of(pantry(asked), asked_for(asked, x), asked_for(asked, y))
    assert [(each.x, each.y) for each in found.vertices] == [
        pytest.approx((float(a), float(b)), rel=1e-9, abs=1e-9) for a, b in corners
    ]
    assert found.complete
    assert not found.outer
    assert found.checked is Checked.CERTIFICATE
    assert all(each.attained for each in found.vertices)


def test_three_foods_without_further_musts_give_a_zonotope_known_by_hand() -> None:
    # The sum of three segments, of 1 x (728, 1), 2 x (156, 30) and 1 x (258, 10), is a hexagon.
    asked = three_foods(("energy_kcal", 1, None), ("protein_g", 1, None))
    found = polygon_of(pantry(asked), *asked.targets)
    by_hand = [(0, 0), (728, 1), (986, 11), (1298, 71), (570, 70), (312, 60)]
    assert [(each.x, each.y) for each in found.vertices] == [pytest.approx(point, abs=1e-9) for point in by_hand]


@pytest.mark.parametrize("seed", SEEDS)
def test_every_vertex_is_a_dish_that_meets_the_others_and_random_dishes_lie_inside(
    catalogue: Catalogue, seed: int
) -> None:
    asked = random_brief(catalogue, seed)
    x, y = asked_for(asked, "energy_kcal"), asked_for(asked, "protein_g")
    asked = replace(asked, count_missing_as={**asked.count_missing_as, "protein_g": 0.0})
    found = polygon_of(pantry(asked), x, y)
    others = [target for target in asked.targets if target.id not in {x.id, y.id}]
    assert len(found.vertices) > 2
    for each in found.vertices:
        dish = dish_at(asked, each.amounts, Target("x", x.of, lower=0.0), Target("y", y.of, upper=1e7), *others)
        assert (dish.targets[0].value, dish.targets[1].value) == pytest.approx((each.x, each.y), rel=1e-6, abs=1e-5)
        assert all(result.met for result in dish.targets[2:])
    for dish in random_dishes(replace(asked, targets=(*others, x)), seed):
        point = (dish.portion.energy_kcal, dish.portion.values["protein_g"] or 0.0)
        assert _is_inside(found, point)


def _is_inside(polygon: Polygon, point: tuple[float, float]) -> bool:
    corners = [(each.x, each.y) for each in polygon.vertices]
    for (ax, ay), (bx, by) in zip(corners, [*corners[1:], corners[0]], strict=True):
        turn = (bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)
        if turn < -1e-6 * max(1.0, hypot(bx - ax, by - ay)) * max(1.0, hypot(*point)):
            return False
    return True


def test_a_mix_that_loses_fat_leaves_an_outer_polygon_and_served_fat_an_exact_one() -> None:
    mince = macronutrients("mince", protein=18, fat=20)
    for drippings, outer in ((Drippings.DISCARDED, True), (Drippings.SERVED, False)):
        part = Component("patties", "invented patty", drippings, CURVE)
        asked = kitchen(
            into(replace(item(mince), on_hand_g=300.0), part),
            targets=(between("energy_kcal", 1.0, None), between("protein_g", 1.0, None)),
            parts=(part,),
        )
        assert polygon_of(pantry(asked), *asked.targets).outer is outer


def test_pieces_lose_their_part_in_a_straight_line() -> None:
    # A roast keeps 0.6 of its fat: 300 g of 18 % protein and 20 % fat come to 54 g and 36 g.
    mince, row = macronutrients("cut", protein=18, fat=20), cooking_row(0.6, 0.7)
    asked = kitchen(
        into(replace(item(mince), on_hand_g=300.0), Placed("roast", row, row.why)),
        targets=(between("fat_g", 1.0, None), between("protein_g", 1.0, None)),
        parts=(ROAST,),
    )
    found = polygon_of(pantry(asked), *asked.targets)
    assert [(each.x, each.y) for each in found.vertices] == [pytest.approx((0, 0)), pytest.approx((36, 54))]
    assert not found.outer
    assert value_at(asked, found.vertices[1].amounts, asked.targets[0]) == pytest.approx(36)


def test_no_dish_leaves_no_polygon_and_says_why() -> None:
    asked = three_foods(("energy_kcal", 100, None), ("fat_share_percent", 99, None), ("protein_g", 10, None))
    asked = replace(asked, targets=(*asked.targets, between("total_carbohydrate_g", 30.0, None)))
    found = polygon_of(pantry(asked), asked.targets[0], asked.targets[2])
    assert found.vertices == ()
    assert "cannot be met together" in (found.note or "")


def test_a_clock_that_has_run_out_leaves_an_incomplete_polygon() -> None:
    asked = three_foods(*MUSTS)
    late = Pantry(asked, pantry(asked).backend, Deadline.after(0))
    found = polygon_of(late, asked_for(asked, "energy_kcal"), asked_for(asked, "protein_g"))
    assert found.vertices == ()
    assert found.note == "The time ended first."


def test_an_item_without_a_limit_is_named() -> None:
    asked = brief(item(CHICKEN), targets=(between("energy_kcal", 1.0, None), between("protein_g", 1.0, None)))
    found = polygon_of(pantry(asked), *asked.targets)
    assert "Nothing limits chicken" in (found.note or "")


def test_two_ratios_have_no_frontier() -> None:
    asked = three_foods(*MUSTS)
    with pytest.raises(ValueError, match="two ratios"):
        frontier_of(pantry(asked), asked_for(asked, "fat_share_percent"), asked_for(asked, "ketogenic_ratio"))
