"""The changes that only together resolve a conflict."""

from solver.backends import open_backend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.changes import Moved, smallest_changes
from solver.deadline import Deadline
from solver.outcome import Conflict, Plan
from solver.pantry import PantryItem
from solver.rules import Group, Rule
from solver.solve import solve
from solver.together import Together, changes_together
from tests.solver import larder
from tests.solver.random_briefs import random_brief


def conflict_of(brief: Brief) -> Conflict:
    outcome = solve(brief, open_backend("highs"))
    assert isinstance(outcome, Conflict)
    return outcome


def together(brief: Brief) -> Together:
    found = changes_together(conflict_of(brief), open_backend("highs"), Deadline.after(10))
    assert found is not None
    return found


def test_two_conflicts_side_by_side_take_two_changes() -> None:
    # 100 g of chicken hold 30 g protein and 100 g of mash 20 g carbohydrate; of each nothing more is there.
    mash = larder.macronutrients("mash", carbohydrate=20)
    short = (PantryItem("chicken", larder.CHICKEN, on_hand_g=100.0), PantryItem("mash", mash, on_hand_g=100.0))
    asked = (larder.between("protein_g", 60.0, None), larder.between("total_carbohydrate_g", 60.0, None))
    brief = larder.brief(*short, targets=asked)
    assert smallest_changes(conflict_of(brief), open_backend("highs"), Deadline.after(10)) == ()
    found = together(brief)
    moves = {move.member.name: (move.moved, move.asked, move.to) for move in found.moves}
    assert moves == {
        "protein_g": (Moved.AT_LEAST, 60.0, 30.0),
        "total_carbohydrate_g": (Moved.AT_LEAST, 60.0, 20.0),
    }


def test_a_rule_that_the_nearest_plan_breaks_moves_too() -> None:
    chicken = PantryItem("chicken", larder.CHICKEN, on_hand_g=50.0)
    rule = Rule("much chicken", Group(frozenset({"chicken"})), lower=100.0)
    asked = (larder.between("fat_g", 1.0, None),)
    found = together(Brief("invented", 1, (chicken,), asked, rules=(rule,), time_limit_s=10.0))
    assert [(move.member.name, move.to) for move in found.moves] == [("much chicken", 50.0)]


def test_nearly_every_random_conflict_has_a_way_out_and_it_holds_on_another_backend(catalogue: Catalogue) -> None:
    highs, scipy, conflicts, led_out = open_backend("highs"), open_backend("scipy-highs"), 0, 0
    for seed in range(3, 200, 4):
        for stepped in (False, True):
            outcome = solve(random_brief(catalogue, seed, stepped=stepped), highs)
            if isinstance(outcome, Conflict):
                conflicts += 1
                found = changes_together(outcome, highs, Deadline.after(10))
                if found is not None:
                    led_out += 1
                    assert isinstance(solve(found.plan.brief, scipy), Plan), seed
    assert conflicts > 30
    assert led_out >= 0.95 * conflicts


def test_without_time_nothing_is_claimed() -> None:
    asked = (larder.between("energy_kcal", 445.0, 450.0), larder.between("protein_g", 115.0, None))
    found = conflict_of(larder.brief(*larder.pantry(*larder.PURE), targets=asked))
    assert changes_together(found, open_backend("highs"), Deadline.after(0)) is None
