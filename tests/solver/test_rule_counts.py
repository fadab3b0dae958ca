"""What a rule counts besides raw mass and salt: pieces, weight as eaten, a share of the energy; and what it cannot."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.backends import open_backend
from solver.brief import Brief
from solver.components import Drippings
from solver.errors import UnusableBrief
from solver.outcome import Conflict, Member, MemberKind, Plan, Quantity
from solver.pantry import PantryItem, Step
from solver.rule_results import rule_result
from solver.rule_sides import rule_sides, rule_whole
from solver.rules import By, Group, Rule
from solver.solve import solve
from solver.usable_rule_counts import count_problems
from tests.solver.larder import PATTIES, TABLE, between, brief, into, item, kitchen, macronutrients
from tests.solver.random_kitchens import random_kitchen

MINCE = PantryItem("mince", macronutrients("mince", protein=18, fat=20), 500.0, 500.0, 500.0)
EGG = PantryItem("egg", macronutrients("egg", protein=12, fat=10), step=Step(1, "large", 50.0))


def of(*names: str) -> Group:
    return Group(frozenset(names))


def eggs(*rules: Rule, egg: PantryItem = EGG) -> Brief:
    """500 g of mince, and eggs as many as one likes."""
    return replace(brief(MINCE, egg, targets=(between("protein_g", 91.0, None),)), rules=rules)


def plan(asked: Brief) -> Plan:
    outcome = solve(asked, open_backend("highs"))
    assert isinstance(outcome, Plan), outcome
    return outcome


def codes(asked: Brief) -> set[tuple[str, str]]:
    with pytest.raises(UnusableBrief) as refused:
        solve(asked, open_backend("highs"))
    return {(problem.pointer, problem.code) for problem in refused.value.problems}


def test_pieces_are_counted_in_the_units_of_a_step() -> None:
    three = Rule("eggs", of("egg"), By.PIECES, lower=3.0, upper=3.0)
    found = plan(eggs(three))
    assert [each.grams for each in found.dish.quantities if each.item.name == "egg"] == [150]
    assert [(each.value, each.met) for each in found.dish.rules] == [(3, True)]
    pairs = replace(EGG, step=Step(2, "large", 100.0))
    four = replace(three, lower=3.0, upper=5.0)
    assert [each.value for each in plan(eggs(four, egg=pairs)).dish.rules] == [4]


def test_a_share_of_the_energy_is_of_the_macro_energy_of_the_dish() -> None:
    # 500 g of mince: 90 g protein and 100 g fat, 1260 kcal. An egg of 50 g: 6 g and 5 g, 69 kcal. Two are
    # 138 of 1398 kcal, 9.87 %; three are 207 of 1467, 14.11 % (4 and 9 kcal per gram).
    share = Rule("share", of("egg"), By.ENERGY_SHARE, lower=9.0, upper=10.0)
    (result,) = plan(eggs(share)).dish.rules
    assert result.value == pytest.approx(100 * 138 / 1398)
    assert result.rule.unit == "%"


def test_a_share_that_no_whole_egg_makes_is_a_conflict_that_names_the_rule() -> None:
    outcome = solve(eggs(Rule("share", of("egg"), By.ENERGY_SHARE, lower=10.0, upper=14.0)), open_backend("highs"))
    assert isinstance(outcome, Conflict)
    assert Member(MemberKind.RULE, "share") in outcome.members


def test_what_is_eaten_as_it_is_weighs_as_eaten_what_it_weighs_raw() -> None:
    most = Rule("plate", of("mince", "egg"), By.AS_EATEN_MASS, lower=640.0, upper=660.0)
    assert [each.value for each in plan(eggs(most)).dish.rules] == [650]


def test_pieces_of_what_has_no_step_or_a_weight_for_one_are_refused() -> None:
    count = Rule("count", of("egg", "mince"), By.PIECES, upper=3.0)
    assert codes(eggs(count)) == {("/rules/0/of", "no_pieces")}
    spoons = replace(EGG, step=Step(1, "tsp", 5.0))
    assert codes(eggs(replace(count, of=of("egg")), egg=spoons)) == {("/rules/0/of", "no_pieces")}


@pytest.mark.parametrize("by", [By.PIECES, By.ENERGY_SHARE])
def test_pieces_and_shares_have_no_second_group(by: By) -> None:
    assert ("/rules/0/to", "no_second_group") in codes(eggs(Rule("rule", of("egg"), by, of("mince"), 1.0)))


def test_more_than_all_of_the_energy_is_refused() -> None:
    assert codes(eggs(Rule("rule", of("egg"), By.ENERGY_SHARE, upper=101.0))) == {("/rules/0/at_most", "beyond_100")}


def patties(rule: Rule, drippings: Drippings = Drippings.DISCARDED) -> Brief:
    """Mince and egg in patties, butter at the table."""
    part = replace(PATTIES, drippings=drippings)
    mince, egg = (into(item(macronutrients(name, protein=16, fat=20)), part) for name in ("mince", "egg"))
    butter = into(item(macronutrients("butter", fat=80)), TABLE)
    asked = kitchen(mince, egg, butter, targets=(between("protein_g", 40.0, None),), parts=(part, TABLE))
    return replace(asked, rules=(rule,))


def test_what_a_mix_weighs_as_eaten_is_no_number_to_plan_by() -> None:
    most = Rule("rule", of("mince"), By.AS_EATEN_MASS, upper=200.0)
    assert codes(patties(most)) == {("/rules/0/of", "eaten_weight_of_mix")}


def test_a_share_of_a_part_of_a_pan_is_refused_and_of_all_of_it_is_not() -> None:
    share = Rule("rule", of("mince"), By.ENERGY_SHARE, lower=50.0)
    assert codes(patties(share)) == {("/rules/0/of", "part_of_a_pan")}
    for named in (of("mince", "egg"), of("butter")):
        (result,) = plan(patties(replace(share, of=named, lower=20.0))).dish.rules
        assert result.met
        assert result.value is not None
        assert result.value >= 20 - 1e-6
    assert plan(patties(share, Drippings.SERVED)).dish.rules[0].met


@given(st.integers(0, 10_000), st.sampled_from([By.AS_EATEN_MASS, By.ENERGY_SHARE]), st.floats(1.0, 99.0), st.data())
def test_a_row_leaves_over_what_the_dish_leaves_over(seed: int, by: By, end: float, data: st.DataObject) -> None:
    # Where drippings of several sources differ, the row may say less than the dish has, never more.
    dish = random_kitchen(seed, sources=2)
    names = sorted(item.name for item in dish.brief.pantry)
    pick = data.draw(st.sampled_from([names, names[:-1], names[-1:], names[:1]]))
    rule = Rule("rule", of(*pick), by, None, end, end)
    if list(count_problems(rule, dish.brief, "")):
        return
    quantities = [
        Quantity(each, g, None, each.placed[0]) for each, g in zip(dish.brief.pantry, dish.grams, strict=True)
    ]
    spoons = {dish.brief.components[0].name: dish.spoons}
    result = rule_result(rule, quantities, dish.brief, is_binding=False, spoons=spoons)
    board = dish.board
    grams100 = dish.amounts_g(board) / 100
    rendered100 = np.array([pan.rendered_g(100 * grams100) / 100 for pan in board.pans])
    assert result.value is not None
    for side, sign in zip(rule_sides(rule, board, dish.brief), (1.0, -1.0), strict=True):
        whole = rule_whole(rule, sign, board, grams100, rendered100)
        over = side.left(grams100, rendered100) - side.least
        true = sign * (result.value - end) * whole
        if side.guarded:
            assert over <= true + 1e-6 * (1 + abs(true))
        else:
            assert over == pytest.approx(true, abs=1e-6 * (1 + whole))
