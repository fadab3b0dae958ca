"""Rules about salt, and items whose sodium nobody states: unknown is never none."""

from dataclasses import replace

import pytest

from solver.backends import open_backend
from solver.brief import Brief
from solver.errors import UnusableBrief
from solver.outcome import LeftOut, Plan
from solver.pantry import PantryItem
from solver.rules import By, Group, Rule
from solver.solve import solve
from tests.solver import larder

SALTED = larder.food("salted", **{**larder.NOTHING, "protein_g": 20, "fat_g": 10, "sodium_mg": 400})
UNSALTED = larder.food("unsalted", **{**larder.NOTHING, "protein_g": 20, "fat_g": 10, "sodium_mg": 0})
UNKNOWN = larder.food("unknown", **{**larder.NOTHING, "protein_g": 20, "fat_g": 10})


def group(*names: str, component: str | None = None) -> Group:
    return Group(frozenset(names), component)


def plan(brief: Brief) -> Plan:
    outcome = solve(brief, open_backend("highs"))
    assert isinstance(outcome, Plan), outcome
    return outcome


def grams(outcome: Plan) -> dict[str, float]:
    return {quantity.item.name: quantity.grams for quantity in outcome.dish.quantities}


def salt_of(*names: str, component: str | None = None) -> Rule:
    """0.4 to 0.5 % salt of a mix."""
    mix = group(*names, component=component)
    return Rule("salt", mix, By.SALT, mix, lower=0.004, upper=0.005)


def pantry(*names: str) -> tuple[PantryItem, ...]:
    foods = {"salted": SALTED, "unsalted": UNSALTED, "unknown": UNKNOWN}
    return tuple(larder.item(foods[name]) for name in names)


def test_an_item_whose_salt_nobody_knows_takes_no_part_where_a_rule_counts_it() -> None:
    every = ("salted", "unsalted", "unknown")
    found = plan(replace(larder.brief(*pantry(*every)), rules=(salt_of(*every),)))
    assert found.left_out == (LeftOut("unknown", ("sodium_mg",)),)
    assert grams(found).keys() == {"salted", "unsalted"}
    # 1 % of the salted: 0.4 to 0.5 % of both are 40 to 50 parts in 100.
    assert 0.4 <= grams(found)["salted"] / sum(grams(found).values()) <= 0.5


def test_it_takes_part_where_the_brief_says_how_to_count_it() -> None:
    every = ("unsalted", "unknown")
    asked = replace(larder.brief(*pantry(*every)), rules=(salt_of(*every),), count_missing_as={"sodium_mg": 400.0})
    found = plan(asked)
    assert found.left_out == ()
    assert 0.4 <= grams(found)["unknown"] / sum(grams(found).values()) <= 0.5
    assert [each.met for each in found.dish.rules] == [True]


def test_rules_of_weight_and_rules_about_others_leave_nothing_out() -> None:
    by_weight = Rule("weight", group("unknown"), upper=10.0)
    of_others = salt_of("salted", "unsalted")
    found = plan(replace(larder.brief(*pantry("salted", "unsalted", "unknown")), rules=(by_weight, of_others)))
    assert found.left_out == ()
    as_second = replace(of_others, to=group("salted", "unknown"))
    assert plan(replace(larder.brief(*pantry("salted", "unsalted", "unknown")), rules=(as_second,))).left_out == ()


def in_the_pan(*rules: Rule, beside: PantryItem) -> Brief:
    """Salted and unsalted in a pan, and something of unknown salt."""
    pan = replace(larder.TABLE, name="pan")
    items = [larder.into(each, pan) for each in pantry("salted", "unsalted")]
    asked = larder.kitchen(*items, beside, targets=(larder.ENERGY,), parts=(pan, larder.TABLE))
    return replace(asked, rules=rules)


def test_a_rule_about_a_component_leaves_nothing_out_that_goes_elsewhere_only() -> None:
    every = salt_of("salted", "unsalted", "unknown", component="pan")
    beside = larder.into(larder.item(UNKNOWN), larder.TABLE)
    assert plan(in_the_pan(every, beside=beside)).left_out == ()
    either = replace(beside, placed=(*beside.placed, replace(beside.placed[0], component="pan")))
    assert plan(in_the_pan(every, beside=either)).left_out == (LeftOut("unknown", ("sodium_mg",)),)


def test_an_item_of_unknown_salt_that_must_be_used_is_refused_where_a_rule_counts_it() -> None:
    must = replace(larder.item(UNKNOWN), at_least_g=10.0)
    asked = replace(larder.brief(must, *pantry("salted")), rules=(salt_of("unknown", "salted"),))
    with pytest.raises(UnusableBrief) as refused:
        solve(asked, open_backend("highs"))
    (problem,) = refused.value.problems
    assert (problem.pointer, problem.code) == ("/pantry/0/at_least", "needed_value_missing")
    assert "sodium_mg" in problem.detail
    assert "rules" in problem.detail
