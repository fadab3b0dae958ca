"""Whole briefs with rules of the dish: seeded random ones over the real food table, and small ones known by hand."""

from collections import Counter
from dataclasses import replace

import pytest

from solver.backends import open_backend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.outcome import Conflict, LevelProof, Member, MemberKind, Outcome, Plan, Undecided
from solver.pantry import PantryItem, Step
from solver.rules import Group, Rule
from solver.solve import solve
from solver.targets import Per, Target
from tests.solver import larder
from tests.solver.kept import kept
from tests.solver.random_briefs import random_brief
from tests.solver.random_rules import is_kept, random_rules

#: Values of two proofs of the same thing differ by no more, relative to max(1, |value|).
SAME = 1e-6


def group(*names: str) -> Group:
    return Group(frozenset(names))


def solved(brief: Brief, backend: str = "highs") -> Outcome:
    return solve(brief, open_backend(backend))


def plan(brief: Brief) -> Plan:
    outcome = solved(brief)
    assert isinstance(outcome, Plan), outcome
    return outcome


def grams(outcome: Plan) -> dict[str, float]:
    return {quantity.item.name: quantity.grams for quantity in outcome.dish.quantities}


def with_a_rule_or_three(catalogue: Catalogue, seed: int) -> Brief | None:
    """A random brief whose rules its plan without them mostly misses; every fifth by far."""
    brief = random_brief(catalogue, seed, items=10, stepped=seed % 3 == 0)
    before = solved(brief)
    if not isinstance(before, Plan):
        return None
    return random_rules(seed, brief, before.dish.quantities, unlikely=seed % 5 == 4)


def test_backends_agree_on_sixty_random_briefs_with_rules_and_every_plan_keeps_them(catalogue: Catalogue) -> None:
    outcomes = Counter[type]()
    briefs = (with_a_rule_or_three(catalogue, seed) for seed in range(120))
    for brief in [brief for brief in briefs if brief is not None][:60]:
        ours, theirs = solved(brief), solved(brief, "scipy-highs")
        outcomes[type(ours)] += 1
        assert type(ours) is type(theirs), brief.title
        for outcome in (ours, theirs):
            if isinstance(outcome, Plan):
                hold_the_rules(outcome)
        if isinstance(ours, Plan) and isinstance(theirs, Plan):
            agree(ours.proof.levels[0], theirs.proof.levels[0], brief.title)
    assert outcomes.total() == 60
    assert outcomes[Plan] > 25
    assert outcomes[Conflict] > 8


def hold_the_rules(outcome: Plan) -> None:
    """Each verdict is what counting item by item says, and no must is missed."""
    assert len(outcome.dish.rules) == len(outcome.brief.rules)
    missing = outcome.brief.count_missing_as.get("sodium_mg", 0.0)
    for each in outcome.dish.rules:
        assert each.met is is_kept(each.rule, outcome.dish.quantities, missing), outcome.brief.title
        assert each.met or each.rule.priority is not None, outcome.brief.title


def agree(ours: LevelProof, theirs: LevelProof, title: str) -> None:
    """Neither plan is better than what the other has proven to be impossible."""
    for one, other in ((ours, theirs), (theirs, ours)):
        assert other.bound is not None, title
        assert one.value >= other.bound - SAME * max(1.0, abs(one.value)), title


def only(brief: Brief, members: tuple[Member, ...]) -> Brief:
    """The brief with nothing demanded but these members; rules that are none of them become wishes."""
    rules = (each if Member(MemberKind.RULE, each.id) in members else replace(each, priority=1) for each in brief.rules)
    return replace(kept(brief, members), rules=tuple(rules))


def test_a_conflict_that_names_a_rule_is_one_and_without_any_one_member_it_is_none(catalogue: Catalogue) -> None:
    checked = 0
    for seed in range(4, 400, 5):
        brief = with_a_rule_or_three(catalogue, seed)
        outcome = None if brief is None else solved(brief)
        if brief is not None and isinstance(outcome, Conflict):
            assert outcome.irreducible
            assert any(member.kind is MemberKind.RULE for member in outcome.members), "without rules it has a plan"
            assert isinstance(solved(only(brief, outcome.members)), Conflict), brief.title
            for member in outcome.members:
                rest = tuple(other for other in outcome.members if other != member)
                assert not isinstance(solved(only(brief, rest)), Conflict | Undecided), (brief.title, member)
                checked += 1
    assert checked > 40


def eggs(*rules: Rule, targets: tuple[Target, ...] = (larder.between("protein_g", 40.0, None),)) -> Brief:
    """500 g of mince, and eggs as many as one likes."""
    mince = PantryItem("mince", larder.macronutrients("mince", protein=18, fat=20), 500.0, 500.0, 500.0)
    egg = PantryItem("egg", larder.macronutrients("egg", protein=12, fat=10), step=Step(1, "large", 50.0))
    return replace(larder.brief(mince, egg, targets=targets), rules=rules)


BINDER = Rule("binder", group("egg"), to=group("mince"), lower=0.07, upper=0.11)


def test_half_a_kilo_of_mince_takes_one_egg() -> None:
    # 0.07 to 0.11 of 500 g are 35 to 55 g, and an egg weighs 50 g (common practice, no source).
    assert grams(plan(eggs(BINDER)))["egg"] == 50


@pytest.mark.parametrize(("priorities", "kept_rule"), [((1, 2), "few"), ((2, 1), "many")])
def test_of_two_wishes_that_cannot_be_had_together_the_first_is_served(
    priorities: tuple[int, int], kept_rule: str
) -> None:
    few = Rule("few", group("egg"), upper=50.0, priority=priorities[0])
    many = Rule("many", group("egg"), lower=200.0, priority=priorities[1])
    found = plan(eggs(few, many))
    assert {each.rule.id for each in found.dish.rules if each.met} == {kept_rule}
    assert found.dish.missed == ()
    assert [level.level for level in found.proof.levels] == ["wishes of priority 1", "wishes of priority 2", "balanced"]


def test_a_must_goes_before_a_wish_and_a_wish_that_costs_nothing_is_served() -> None:
    wish = Rule("many", group("egg"), lower=200.0, priority=1)
    found = plan(eggs(BINDER, wish))
    assert grams(found)["egg"] == 50
    assert [each.miss for each in found.dish.rules] == [0, 150]
    assert grams(plan(eggs(wish)))["egg"] >= 200


def test_a_rule_at_its_end_decides_and_says_so() -> None:
    tray = Rule("tray", group("mince", "egg"), upper=600.0)
    binding = plan(eggs(tray, targets=(larder.between("protein_g", 101.0, None),)))
    assert grams(binding)["egg"] == 100
    assert [(each.binding, each.value) for each in binding.dish.rules] == [(True, 600)]
    loose = plan(eggs(replace(tray, upper=5000.0), targets=(larder.between("protein_g", 40.0, 95.0),)))
    assert [each.binding for each in loose.dish.rules] == [False]


@pytest.mark.parametrize("upper", [0.11, None])
def test_a_ratio_to_what_is_not_used_holds_only_while_nothing_is_related_to_it(upper: float | None) -> None:
    # Of bread to butter, with no butter on hand.
    butter = PantryItem("butter", larder.BUTTER, on_hand_g=0.0)
    items = (larder.item(larder.BREAD), larder.item(larder.CHICKEN), butter)
    rule = Rule("bread", group("bread"), to=group("butter"), lower=0.07, upper=upper)
    carbohydrate = larder.between("available_carbohydrate_g", 10.0, None)
    wanted = replace(larder.brief(*items, targets=(carbohydrate,)), rules=(rule,))
    if upper is None:
        (result,) = plan(wanted).dish.rules
        assert (result.value, result.met, result.miss) == (None, True, None)
    else:
        outcome = solved(wanted)
        assert isinstance(outcome, Conflict)
        assert Member(MemberKind.RULE, "bread") in outcome.members
        without = plan(replace(wanted, targets=(larder.between("protein_g", 20.0, None),)))
        assert "bread" not in grams(without)
        assert [each.met for each in without.dish.rules] == [True]


def test_a_rule_is_for_the_batch_however_many_portions_there_are() -> None:
    tray = Rule("tray", group("butter", "chicken", "bread"), lower=900.0, upper=900.0)
    energy = Target("energy_kcal", "energy_kcal", Per.BATCH, lower=100.0)
    asked = replace(larder.brief(targets=(energy,), portions=7), rules=(tray,))
    assert sum(grams(plan(asked)).values()) == pytest.approx(900, abs=1e-6)
