import math
from dataclasses import replace

import pytest

from solver.brief import Brief
from solver.rules import Group, Rule
from solver.usable import refuse_unusable
from solver.usable_targets import LARGEST_END, LEAST_END
from tests.solver.larder import BREAD, BUTTER, CHICKEN, ENERGY, TABLE, between, brief, into, item, kitchen
from tests.solver.refusals import only_problem, problems

PAN = replace(TABLE, name="pan")
BUTTERED = Rule("buttered", Group(frozenset({"butter"})), to=Group(frozenset({"bread", "chicken"})), lower=0.1)


def with_rules(*rules: Rule) -> Brief:
    """Butter at the table, chicken in the pan, bread in either."""
    items = into(item(BUTTER), TABLE), into(item(CHICKEN), PAN), into(item(BREAD), PAN, TABLE)
    return replace(kitchen(*items, targets=(ENERGY,), parts=(PAN, TABLE)), rules=rules)


def test_rules_that_can_be_used_pass() -> None:
    refuse_unusable(with_rules(BUTTERED, replace(BUTTERED, id="again", to=None, lower=None, upper=0.0)))
    refuse_unusable(with_rules(replace(BUTTERED, lower=0.2, upper=0.2, priority=1)))


def test_a_rule_has_a_band() -> None:
    found = only_problem(with_rules(BUTTERED, replace(BUTTERED, id="bare", lower=None)))
    assert found == ("/rules/1", "no_band", "bare has no band.")


@pytest.mark.parametrize("end", [-1.0, LEAST_END / 2, LARGEST_END * 2, math.nan, math.inf])
@pytest.mark.parametrize("field", ["at_least", "at_most"])
def test_an_end_of_a_rule_is_an_amount(end: float, field: str) -> None:
    lower, upper = (end, None) if field == "at_least" else (None, end)
    pointer, code, _ = only_problem(with_rules(replace(BUTTERED, lower=lower, upper=upper)))
    assert (pointer, code) == (f"/rules/0/{field}", "not_an_amount")


def test_the_ends_of_a_rule_are_not_crossed() -> None:
    found = only_problem(with_rules(replace(BUTTERED, lower=0.3, upper=0.2)))
    assert found == ("/rules/0/at_least", "crossed_band", "buttered: at_least 0.3 is above at_most 0.2.")


def test_a_rule_has_an_id_that_neither_a_target_nor_another_rule_has() -> None:
    of_a_target = only_problem(with_rules(replace(BUTTERED, id=ENERGY.id)))
    assert of_a_target == ("/rules/0/id", "repeated_id", "energy_kcal is the id of a target or of another rule.")
    pointer, code, _ = only_problem(with_rules(BUTTERED, replace(BUTTERED, id="other"), BUTTERED))
    assert (pointer, code) == ("/rules/2/id", "repeated_id")


def test_a_group_of_nothing_is_refused_where_it_stands() -> None:
    nothing = Group(frozenset({"lard"}))
    assert only_problem(with_rules(replace(BUTTERED, of=nothing)))[:2] == ("/rules/0/of", "empty_group")
    assert only_problem(with_rules(replace(BUTTERED, to=nothing)))[:2] == ("/rules/0/to", "empty_group")


def test_a_group_whose_items_do_not_go_into_its_component_is_a_group_of_nothing() -> None:
    in_the_pan = Group(frozenset({"butter"}), "pan")
    assert only_problem(with_rules(replace(BUTTERED, of=in_the_pan)))[:2] == ("/rules/0/of", "empty_group")
    refuse_unusable(with_rules(replace(BUTTERED, of=Group(frozenset({"butter", "chicken"}), "pan"))))


def test_every_problem_of_every_rule_is_found() -> None:
    nothing = Group(frozenset({"lard"}))
    found = problems(
        with_rules(replace(BUTTERED, of=nothing, to=nothing, lower=-1.0, upper=-2.0), replace(BUTTERED, lower=None))
    )
    assert [(problem.pointer, problem.code) for problem in found] == [
        ("/rules/0/of", "empty_group"),
        ("/rules/0/to", "empty_group"),
        ("/rules/0/at_least", "not_an_amount"),
        ("/rules/0/at_most", "not_an_amount"),
        ("/rules/0/at_least", "crossed_band"),
        ("/rules/1/id", "repeated_id"),
        ("/rules/1", "no_band"),
    ]


def test_rules_alone_do_not_make_a_brief_of_nothing_usable() -> None:
    with_none = replace(brief(), targets=(), rules=(replace(BUTTERED, to=None, lower=100.0),))
    assert ("/targets", "empty") in [(problem.pointer, problem.code) for problem in problems(with_none)]


def test_an_amount_that_a_rule_must_reach_is_enough_and_a_ratio_or_a_wish_is_not() -> None:
    amount = Rule("amount", Group(frozenset({"butter", "chicken"})), lower=300.0)
    share = replace(with_rules(amount), targets=(between("fat_share_percent", 70.0, None),))
    refuse_unusable(share)
    for rule in (BUTTERED, replace(amount, priority=1), replace(amount, lower=None, upper=300.0)):
        assert only_problem(replace(share, rules=(rule,)))[:2] == ("/targets", "empty_plate")
