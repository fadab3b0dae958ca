"""Dishes in dishes, in any order and to any depth, and never in a circle."""

import pytest

from service.translate.reference import Reference
from tests.service.dishes_of_briefs import AIOLI, MAYONNAISE, OIL, SPICES, WATER, dish, foods, from_dish, read, table


def test_dishes_may_come_in_any_order(reference: Reference) -> None:
    forward, backward = foods(reference, MAYONNAISE, AIOLI), foods(reference, AIOLI, MAYONNAISE)
    assert {name: food.id for name, food in forward.items()} == {name: food.id for name, food in backward.items()}
    assert list(backward) == ["aioli", "mayonnaise"]


def test_a_chain_of_two_hundred_dishes_is_made_whatever_its_order(reference: Reference) -> None:
    chain = [dish("dish 0", WATER, table("salt", "02047", "10 g"))]
    chain += [dish(f"dish {n}", from_dish("base", f"dish {n - 1}", "100 g"), makes="99 g") for n in range(1, 200)]
    last = foods(reference, *chain[::-1])["dish 199"]
    salt = 10 * 38758 / 100 / 510 * 100  # USDA SR28 02047: 38758 mg sodium in 100 g; water 14429 adds 3 mg
    assert last.value("sodium_mg") == pytest.approx((salt + 500 * 3 / 510) * (100 / 99) ** 199, rel=1e-9)


def test_a_circle_is_refused_with_its_path(reference: Reference) -> None:
    aioli = dish("aioli", OIL, from_dish("spices", "spice mix", "5 g"))
    mix = dish("spice mix", *SPICES["ingredients"], from_dish("aioli", "aioli", "1 g"))
    found, problems = read(reference, aioli, mix, dish("dip", from_dish("aioli", "aioli", "10 g")))
    assert [(problem.pointer, problem.code) for problem in problems] == [
        ("/dishes/1/ingredients/2/source/name", "dish_circle")
    ]
    assert "aioli -> spice mix -> aioli" in problems[0].detail
    assert set(found.values()) == {None}


def test_a_dish_in_itself_is_the_smallest_circle(reference: Reference) -> None:
    _, (problem,) = read(reference, dish("aioli", OIL, from_dish("aioli", "aioli", "5 g")))
    assert problem.pointer == "/dishes/0/ingredients/1/source/name"
    assert "aioli -> aioli." in problem.detail


def test_a_long_circle_is_not_written_out(reference: Reference) -> None:
    ring = [dish(f"dish {n}", OIL, from_dish("next", f"dish {(n + 1) % 300}", "5 g")) for n in range(300)]
    _, (problem,) = read(reference, *ring)
    assert problem.code == "dish_circle"
    assert len(problem.detail) < 400
    assert "288 more" in problem.detail


def test_an_unknown_dish_is_met_with_its_neighbours(reference: Reference) -> None:
    _, (problem,) = read(reference, MAYONNAISE, dish("dip", from_dish("base", "mayonaise", "5 g")))
    assert (problem.pointer, problem.code) == ("/dishes/1/ingredients/0/source/name", "unknown_dish")
    assert "mayonnaise" in problem.remedy
