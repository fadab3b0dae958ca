"""Everything that leads out of a conflict, together."""

from dataclasses import replace

from reference_data import reference_folder
from solver.backends import open_backend
from solver.catalogue import Catalogue
from solver.cooking_table import load_cooking_table
from solver.deadline import Deadline
from solver.outcome import Conflict, Plan
from solver.pantry import PantryItem
from solver.practical import Eligible, Practical, load_practical, practical_foods
from solver.solve import solve
from solver.targets import Target
from solver.ways_out import WaysOut, ways_out
from tests.solver import larder
from tests.solver.random_cooked_briefs import Larder, random_cooked_brief

OIL = Practical(larder.macronutrients("oil", fat=100), "oil")


def found(*items: PantryItem, targets: tuple[Target, ...]) -> WaysOut:
    highs = open_backend("highs")
    outcome = solve(larder.brief(*items, targets=targets), highs)
    assert isinstance(outcome, Conflict)
    return ways_out(outcome, Eligible((OIL,), lambda _: True), highs, Deadline.after(10))


def test_a_dish_that_is_too_lean_may_ask_for_less_fat_or_take_oil() -> None:
    asked = (larder.between("protein_g", 30.0, None), larder.between("fat_share_percent", 60.0, None))
    ways = found(larder.item(larder.CHICKEN), targets=asked)
    assert [change.member.name for change in ways.changes] == ["fat_share_percent"]
    assert [addition.food.name for addition in ways.additions] == ["oil"]
    assert ways.together is None
    assert ways.no_food_helps is None


def test_where_no_food_can_help_that_is_said_and_none_is_sought() -> None:
    asked = (
        larder.between("energy_kcal", None, 450.0),
        larder.between("protein_g", 35.0, None),
        larder.between("fat_share_percent", 80.0, None),
    )
    ways = found(*larder.pantry(larder.CHICKEN, larder.BUTTER), targets=asked)
    assert ways.no_food_helps is not None
    assert ways.additions == ()
    assert ways.changes


def test_where_no_single_change_is_enough_those_of_the_nearest_plan_are_given_together() -> None:
    mash = larder.macronutrients("mash", carbohydrate=20)
    short = (PantryItem("chicken", larder.CHICKEN, on_hand_g=100.0), PantryItem("mash", mash, on_hand_g=100.0))
    asked = (larder.between("protein_g", 60.0, None), larder.between("total_carbohydrate_g", 60.0, None))
    ways = found(*short, targets=asked)
    assert ways.changes == ()
    assert ways.together is not None
    assert len(ways.together.moves) == 2


def test_every_way_out_of_a_cooked_conflict_holds_on_another_backend(catalogue: Catalogue) -> None:
    stock = Larder(catalogue, load_cooking_table(reference_folder() / "cooking"))
    foods = practical_foods(catalogue, load_practical(reference_folder() / "additions.csv"))
    eligible, highs, confirmed = Eligible(foods, lambda _: True), open_backend("highs"), 0
    for seed in (7, 15, 35, 71, 103, 131, 159):
        outcome = solve(random_cooked_brief(stock, seed, stepped=seed % 8 == 3), highs)
        assert isinstance(outcome, Conflict), seed
        ways = ways_out(outcome, eligible, highs, Deadline.after(20))
        together = () if ways.together is None else (ways.together,)
        for way in (*ways.changes, *ways.additions, *together):
            again = solve(replace(way.plan.brief, time_limit_s=20.0), open_backend("scipy-highs"))
            assert isinstance(again, Plan), seed
            confirmed += 1
    assert confirmed > 15
