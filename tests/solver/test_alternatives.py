"""Other good plans, against every subset of small pantries."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from itertools import chain, combinations

import numpy as np
import pytest

from solver.alternative_pools import grams_of, least_to_count_g
from solver.alternative_posed import MORE_POOLS
from solver.alternatives import MOST_LOSS, MOST_LOSS_PART, WISH_LOSS, Alternatives, Ended, alternatives
from solver.backends import open_backend
from solver.brief import Brief, Preference
from solver.catalogue import Catalogue
from solver.choices import Choice
from solver.components import Drippings
from solver.deadline import Deadline
from solver.outcome import Plan
from solver.pantry import PantryItem, Step
from solver.rules import Group, Rule
from solver.solve import solve
from solver.targets import Target
from solver.verify import dish_of
from tests.solver import larder
from tests.solver.recomputed import is_met
from tests.solver.test_cooked_briefs import TALLOW, THIRTY, fat, mince, patties, share
from tests.solver.worths import planned

TARGETS = (larder.between("energy_kcal", 480.0, 520.0), larder.between("protein_g", 20.0, 30.0))


def others(plan: Plan, n: int = 5, seconds: float = 60.0) -> Alternatives:
    return alternatives(plan, n, open_backend("highs"), Deadline.after(seconds))


def random_brief(seed: int) -> Brief:
    """Six invented foods, some with steps, at prices that are near to each other."""
    rng = np.random.default_rng(seed)
    names = ("A", "B", "C", "D", "E", "F")
    items = [
        replace(
            larder.item(larder.macronutrients(name, protein=p, fat=f, carbohydrate=c)),
            price_per_g=float(rng.uniform(0.9, 1.1)) * (4 * p + 9 * f + 4 * c) / 1000,
            step=Step(1, "piece", 7.0) if rng.random() < 0.3 else None,
            on_hand_g=float(rng.choice([60.0, 200.0])),
        )
        for name, (p, f, c) in zip(names, rng.integers(1, 30, (6, 3)).astype(float).tolist(), strict=True)
    ]
    prefer = Preference.CHEAPEST if seed % 2 else Preference.BALANCED
    return replace(larder.brief(*items, targets=TARGETS), prefer=(prefer,))


def subsets(names: list[str]) -> Iterator[frozenset[str]]:
    return map(frozenset, chain.from_iterable(combinations(names, size) for size in range(1, len(names) + 1)))


def best_of_just(plan: Plan, names: frozenset[str]) -> Plan | None:
    """The best plan of just these items, each used to an amount that counts, solved like any brief."""
    items = tuple(
        replace(item, at_least_g=least_to_count_g(item, plan.dish, 1e4)) if item.name in names else item
        for item in plan.brief.pantry
    )
    out = frozenset(item.name for item in items) - names
    found = solve(replace(plan.brief, pantry=items, leave_out=out), open_backend("highs"))
    return found if isinstance(found, Plan) else None


def allowed_loss(plan: Plan) -> float:
    return MOST_LOSS.get(plan.brief.prefer[0], MOST_LOSS_PART * plan.proof.levels[0].value)


def by_brute_force(plan: Plan) -> dict[frozenset[str], int]:
    """Every set of other items that makes a plan within the loss, to how many items differ."""
    own = frozenset(grams_of(plan.dish))
    most = plan.proof.levels[0].value + allowed_loss(plan)
    found = {}
    for names in subsets([item.name for item in plan.brief.pantry]):
        if names != own and len(names) <= len(own) + MORE_POOLS:
            other = best_of_just(plan, names)
            if other is not None and other.proof.levels[0].value <= most + 1e-6:
                found[names] = len(names ^ own)
    return found


@pytest.mark.parametrize("seed", range(8))
def test_the_alternatives_are_those_of_every_subset_the_most_different_first(seed: int) -> None:
    plan = planned(random_brief(seed))
    expected, found = by_brute_force(plan), others(plan)
    sets = [frozenset(grams_of(one.dish)) for one in found.found]
    own = frozenset(grams_of(plan.dish))
    assert len(set(sets)) == len(sets) == min(5, len(expected))
    assert set(sets) <= set(expected)
    assert found.ended is (Ended.ENOUGH if len(expected) >= 5 else Ended.NO_MORE)
    distances = [len(names ^ own) for names in sets]
    assert distances == sorted(distances, reverse=True)
    assert distances[:1] == sorted(expected.values(), reverse=True)[:1]


@pytest.mark.parametrize("seed", range(8))
def test_each_alternative_meets_the_musts_within_the_loss_by_its_own_numbers(seed: int) -> None:
    plan = planned(random_brief(seed))
    for one in others(plan).found:
        assert all(is_met(replace(plan, dish=one.dish), target) for target in TARGETS)
        assert one.loss <= allowed_loss(plan) + 1e-6
        if plan.brief.prefer == (Preference.CHEAPEST,):
            assert one.dish.cost is not None
            assert plan.dish.cost is not None
            assert one.loss == pytest.approx(one.dish.cost - plan.dish.cost, abs=1e-9)
        here, there = grams_of(one.dish), grams_of(plan.dish)
        assert one.differs_by == tuple(sorted(set(here) ^ set(there)))
        apart = sum(abs(here.get(name, 0.0) - there.get(name, 0.0)) for name in {*here, *there})
        assert one.mass_share == pytest.approx(apart / (sum(here.values()) + sum(there.values())))
        assert all(quantity.item in plan.brief.pantry for quantity in one.dish.quantities)


def test_identical_items_under_two_names_give_no_alternative() -> None:
    plan = planned(larder.brief(PantryItem("one", larder.BUTTER), PantryItem("other", larder.BUTTER)))
    assert others(plan) == Alternatives((), Ended.NO_MORE, "balanced", MOST_LOSS[Preference.BALANCED])


def test_items_of_one_composition_under_two_ids_give_no_alternative() -> None:
    twin = replace(larder.BUTTER, id="invented:twin", name="twin")
    assert not others(planned(larder.brief(*larder.pantry(larder.BUTTER, twin)))).found


def test_a_really_different_fat_is_an_alternative_to_both_twins() -> None:
    oil = larder.macronutrients("oil", fat=100)
    plan = planned(larder.brief(*larder.pantry(larder.BUTTER, oil), PantryItem("twin", larder.BUTTER)))
    found = others(plan).found
    assert found
    for one in found:
        same = {"butter", "twin"}
        pooled = [{"butter" if name in same else name for name in grams_of(dish)} for dish in (one.dish, plan.dish)]
        assert pooled[0] != pooled[1]


def test_a_trace_of_a_new_item_is_no_alternative() -> None:
    salt = replace(larder.item(larder.macronutrients("salt")), on_hand_g=None)
    plan = planned(larder.brief(larder.item(larder.BUTTER), salt))
    mass = sum(grams_of(plan.dish).values())
    for one in others(plan).found:
        assert grams_of(one.dish).get("salt", mass) >= 0.05 * mass - 0.1


def test_the_choices_of_the_brief_are_kept() -> None:
    choice = Choice("never both", frozenset({"A", "B", "C"}), upper=1)
    plan = planned(replace(random_brief(1), choices=(choice,)))
    found = others(plan).found
    assert found
    for one in found:
        assert len({"A", "B", "C"} & set(grams_of(one.dish))) <= 1
        assert [each.choice for each in one.dish.choices] == [choice]


def test_fewest_ingredients_may_take_one_more() -> None:
    plan = planned(replace(random_brief(2), prefer=(Preference.FEWEST_INGREDIENTS,)))
    found = others(plan).found
    assert found
    assert all(len(grams_of(one.dish)) <= len(grams_of(plan.dish)) + 1 for one in found)


def test_the_rules_of_the_brief_are_kept() -> None:
    rule = Rule("some of A", Group(frozenset({"A"})), lower=20.0, upper=40.0)
    plan = planned(replace(random_brief(4), rules=(rule,)))
    found = others(plan).found
    assert found
    assert all(20.0 <= grams_of(one.dish)["A"] <= 40.0 for one in found)


def test_what_has_to_be_used_up_first_is_used_up_nearly_as_far() -> None:
    brief = random_brief(6)
    first, *rest = brief.pantry
    dated = replace(first, use_by=date(2026, 11, 27), on_hand_g=60.0)
    plan = planned(replace(brief, pantry=(dated, *rest), prefer=(Preference.USE_UP_FIRST,)))
    found = others(plan)
    assert found.found
    assert found.most_loss == pytest.approx(0.05 * grams_of(plan.dish)["A"] / 100)
    for one in found.found:
        assert grams_of(one.dish)["A"] >= 0.95 * grams_of(plan.dish)["A"] - 1e-3


def test_a_wish_is_missed_no_further() -> None:
    brief = random_brief(4)
    wish = replace(larder.between("fat_g", None, 1.0), priority=1)
    plan = planned(replace(brief, targets=(*TARGETS, wish)))
    assert plan.proof.levels[0].value > 0.1
    miss = plan.dish.targets[-1].miss
    assert miss is not None
    for one in others(plan).found:
        other = one.dish.targets[-1].miss
        assert other is not None
        assert other <= miss + WISH_LOSS * 1.001


def test_beside_a_wish_that_is_missed_another_plan_misses_it_as_much() -> None:
    """31 g of protein are one more than the musts allow, with oil as with suet."""
    lean, oil, suet = (
        larder.item(larder.macronutrients(name, protein=protein, fat=fat))
        for name, protein, fat in (("lean", 25, 5), ("oil", 0, 100), ("suet", 0, 90))
    )
    wish = replace(larder.between("protein_g", 31.0, None), id="more protein", priority=1)
    plan = planned(larder.brief(lean, oil, suet, targets=(*TARGETS, wish)))
    (other,) = others(plan, n=1).found
    assert plan.dish.targets[-1].miss == pytest.approx(1.0, abs=0.05)
    assert other.dish.targets[-1].miss == pytest.approx(plan.dish.targets[-1].miss, abs=0.05)


@pytest.mark.parametrize("backend", ["scipy-highs", "pulp-cbc"])
def test_another_solver_finds_as_many_as_different(backend: str) -> None:
    plan = planned(random_brief(0))
    expected = others(plan, n=2)
    found = alternatives(plan, 2, open_backend(backend), Deadline.after(60.0))
    assert len(found.found[0].differs_by) == len(expected.found[0].differs_by)
    assert found.ended is expected.ended


def test_where_there_are_fewer_it_finds_them_all_and_says_so() -> None:
    oil = larder.macronutrients("oil", fat=100)
    items = (larder.item(larder.BUTTER), larder.item(oil))
    found = others(planned(larder.brief(*items, targets=(larder.between("energy_kcal", 400.0, 600.0),))))
    assert found.ended is Ended.NO_MORE
    assert 0 < len(found.found) <= 2


def test_without_time_there_are_none_and_it_says_so() -> None:
    assert others(planned(random_brief(1)), seconds=0.0) == replace(
        others(planned(random_brief(1)), n=0), ended=Ended.LATE
    )


@pytest.mark.parametrize(
    ("drippings", "fat_share"),
    [
        (Drippings.DISCARDED, share(74, 76)),
        (Drippings.SPOONED_BACK, share(82, 84)),
        (Drippings.SERVED, share(84, 86)),
        (Drippings.DISCARDED, share(60, 64)),
    ],
)
def test_cooked_briefs_have_alternatives_that_hold_on_the_plate(
    catalogue: Catalogue, drippings: Drippings, fat_share: Target
) -> None:
    component = patties(drippings)
    pantry = (
        mince(catalogue, THIRTY, 900.0, component),
        fat(catalogue, TALLOW, component, larder.TABLE),
        larder.into(PantryItem("butter", catalogue.food("sr28:01001"), 250.0), larder.TABLE),
        larder.into(PantryItem("oil", catalogue.food("sr28:04053"), 250.0), larder.TABLE),
    )
    targets = (fat_share, larder.between("energy_kcal", 300.0, 1200.0))
    asked = larder.kitchen(*pantry, targets=targets, parts=(component, larder.TABLE))
    plan = planned(replace(asked, portions=4))
    found = others(plan, n=3).found
    assert found
    for one in found:
        spoons = {cooked.component.name: cooked.spoons for cooked in one.dish.cooked}
        again = dish_of(one.dish.quantities, plan.brief, frozenset(), spoons)
        assert not again.missed
        assert again.portion == one.dish.portion
        assert "mince" in grams_of(one.dish)
        assert one.loss <= MOST_LOSS[Preference.BALANCED] + 1e-6
