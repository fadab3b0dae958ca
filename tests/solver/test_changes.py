"""The smallest change of one target or stock: known by hand, confirmed elsewhere, and no smaller one will do."""

from dataclasses import replace

import pytest

from solver.backends import open_backend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.changes import Change, Moved, smallest_changes
from solver.deadline import Deadline
from solver.nearest_stock import Stock
from solver.outcome import Conflict, MemberKind, Plan
from solver.pantry import PantryItem, Step
from solver.rules import Group, Rule
from solver.solve import solve
from tests.solver import larder
from tests.solver.random_briefs import random_brief


def changes(brief: Brief) -> tuple[Change, ...]:
    highs = open_backend("highs")
    outcome = solve(brief, highs)
    assert isinstance(outcome, Conflict)
    return smallest_changes(outcome, highs, Deadline.after(20))


def found(brief: Brief) -> dict[tuple[str | None, Moved], float]:
    return {(change.member.name, change.moved): change.to for change in changes(brief)}


def test_the_three_changes_of_too_rich_a_brief_are_those_of_arithmetic() -> None:
    # 35 g protein are 140 kcal: (450 - 140) / 450 = 68.89 %, 140 / 0.2 = 700 kcal, or 450 * 0.2 / 4 = 22.5 g.
    asked = (
        larder.between("energy_kcal", 445.0, 450.0),
        larder.between("fat_share_percent", 80.0, None),
        larder.between("protein_g", 35.0, None),
    )
    ways = {change.member.name: change for change in changes(larder.brief(*larder.pantry(*larder.PURE), targets=asked))}
    assert {name: change.limit for name, change in ways.items()} == {
        "fat_share_percent": pytest.approx(100 * 310 / 450),
        "protein_g": pytest.approx(22.5),
        "energy_kcal": pytest.approx(700.0),
    }
    assert ways["fat_share_percent"].to == 68.8
    assert ways["protein_g"].to == 22.5
    # At 700 kcal the plan is a single point between the tenths of a gram.
    assert ways["energy_kcal"].to == 701.0


def test_the_smallest_part_comes_first() -> None:
    # As above: 11.2 of 80 %, 12.5 of 35 g, 251 of 701 kcal.
    asked = (
        larder.between("energy_kcal", 445.0, 450.0),
        larder.between("fat_share_percent", 80.0, None),
        larder.between("protein_g", 35.0, None),
    )
    ways = changes(larder.brief(*larder.pantry(*larder.PURE), targets=asked))
    assert [way.member.name for way in ways] == ["fat_share_percent", "protein_g", "energy_kcal"]
    assert [way.size for way in ways] == [pytest.approx(size) for size in (11.2 / 80, 12.5 / 35, 251 / 701)]


def test_more_of_the_one_short_stock_is_a_way_out() -> None:
    chicken = PantryItem("chicken", larder.CHICKEN, on_hand_g=50.0)
    butter = PantryItem("butter", larder.BUTTER, on_hand_g=1000.0)
    asked = (larder.between("protein_g", 30.0, None), larder.between("fat_g", None, 10.0))
    # 30 g protein with at most 10 g fat: 0.3 c + 0.01 b = 30 and 0.04 c + 0.8 b = 10 give 99.75 g of chicken.
    assert found(larder.brief(chicken, butter, targets=asked))["chicken", Moved.ON_HAND] == 100.0


def test_a_limit_that_the_brief_sets_moves_and_the_stock_stays() -> None:
    chicken = PantryItem("chicken", larder.CHICKEN, on_hand_g=900.0, at_most_g=50.0)
    asked = (larder.between("protein_g", 30.0, None),)
    assert found(larder.brief(chicken, targets=asked))["chicken", Moved.AT_MOST] == 100.0


def test_less_of_what_must_be_used_is_a_way_out() -> None:
    chicken = PantryItem("chicken", larder.CHICKEN, at_least_g=200.0)
    asked = (larder.between("protein_g", 10.0, 20.0),)
    assert found(larder.brief(chicken, targets=asked)) == {
        ("chicken", Moved.AT_LEAST): 66.0,  # 66.67 g hold 20 g
        ("protein_g", Moved.AT_MOST): 60.0,
    }


def test_what_is_in_already_is_a_fact_and_is_not_changed() -> None:
    chicken = PantryItem("chicken", larder.CHICKEN, at_least_g=200.0, at_most_g=200.0, step=Step(1, "piece", 200.0))
    asked = (larder.between("protein_g", 10.0, 20.0),)
    assert found(larder.brief(chicken, targets=asked)) == {("protein_g", Moved.AT_MOST): 60.0}


def test_steps_are_kept_and_the_target_moves_to_what_they_give() -> None:
    # An egg of 50 g holds 6 g: 6 or 12 g can be had, 8 to 10 g cannot.
    egg = PantryItem("egg", larder.macronutrients("egg", protein=12, fat=10), step=Step(1, "large", 50.0))
    asked = (larder.between("protein_g", 8.0, 10.0),)
    assert found(larder.brief(egg, targets=asked)) == {
        ("protein_g", Moved.AT_LEAST): 6.0,
        ("protein_g", Moved.AT_MOST): 12.0,
    }


def test_a_band_narrower_than_a_scale_can_show_is_widened_a_little() -> None:
    brief = larder.brief(*larder.pantry(larder.PURE[0]), targets=(larder.between("protein_g", 10.04, 10.06),))
    assert found(brief) == {("protein_g", Moved.AT_LEAST): 10.0, ("protein_g", Moved.AT_MOST): 10.1}


def test_an_aim_that_moves_is_written_as_a_band() -> None:
    aim = replace(larder.between("protein_g", 114.0, 116.0), aim=115.0, within=1.0)
    asked = (larder.between("energy_kcal", 445.0, 450.0), aim)
    way = next(way for way in changes(larder.brief(*larder.pantry(*larder.PURE), targets=asked)) if way.unit == "g")
    moved = next(target for target in way.plan.brief.targets if target.of == "protein_g")
    assert (moved.lower, moved.upper, moved.aim, moved.within) == (112.5, 116.0, None, None)


def test_a_rule_of_the_dish_moves_like_a_target() -> None:
    # 30 g protein and at most 20 g fat: 0.3 c + 0.01 b = 30 and 0.04 c + 0.8 b = 20, so b : c is 0.2017.
    rule = Rule("butter to chicken", Group(frozenset({"butter"})), to=Group(frozenset({"chicken"})), lower=0.5)
    asked = (larder.between("protein_g", 30.0, None), larder.between("fat_g", None, 20.0))
    brief = replace(larder.brief(*larder.pantry(larder.BUTTER, larder.CHICKEN), targets=asked), rules=(rule,))
    way = next(way for way in changes(brief) if way.member.kind is MemberKind.RULE)
    butter = (20 - 0.04 * 100) / (0.8 - 0.04 / 30)
    assert way.limit == pytest.approx(butter / ((30 - 0.01 * butter) / 0.3))
    assert (way.unit, way.moved, way.to) == ("g/g", Moved.AT_LEAST, 0.201)


def test_without_time_nothing_is_claimed() -> None:
    highs = open_backend("highs")
    asked = (larder.between("energy_kcal", 445.0, 450.0), larder.between("protein_g", 115.0, None))
    outcome = solve(larder.brief(*larder.pantry(*larder.PURE), targets=asked), highs)
    assert isinstance(outcome, Conflict)
    assert smallest_changes(outcome, highs, Deadline.after(0)) == ()


def test_every_change_of_a_random_conflict_holds_on_another_backend_and_none_smaller_does(catalogue: Catalogue) -> None:
    highs, scipy, checked = open_backend("highs"), open_backend("scipy-highs"), 0
    for seed in range(3, 200, 4):
        brief = random_brief(catalogue, seed)
        outcome = solve(brief, highs)
        if not isinstance(outcome, Conflict):
            continue
        for way in smallest_changes(outcome, highs, Deadline.after(20)):
            assert isinstance(solve(way.plan.brief, scipy), Plan), (seed, way.member)
            assert not isinstance(solve(_nearer(brief, way), scipy), Plan), (seed, way.member)
            checked += 1
    assert checked > 20


def _nearer(brief: Brief, way: Change) -> Brief:
    """The brief with the change stopped a thousandth of its way before its limit."""
    to = way.limit + (way.asked - way.limit) * 1e-3
    item = next((item for item in brief.pantry if item.name == way.member.name), None)
    if item is not None:
        stock = {Moved.ON_HAND: Stock.ON_HAND, Moved.AT_MOST: Stock.AT_MOST, Moved.AT_LEAST: Stock.AT_LEAST}[way.moved]
        return stock.changed(brief, item, to)
    target = next(target for target in brief.targets if target.id == way.member.name)
    lower, upper = (to, target.upper) if way.moved is Moved.AT_LEAST else (target.lower, to)
    moved = replace(target, lower=lower, upper=upper)
    return replace(brief, targets=tuple(moved if each.id == moved.id else each for each in brief.targets))
