"""The range of each target: against fractions, against bisection, against brute force, and against random dishes."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest

from solver.brief import Brief
from solver.deadline import Deadline
from solver.outcome import Checked, Dish, ProofStatus, Quantity
from solver.pantry import Step
from solver.reach import asked_for, range_of, reachable
from solver.rules import Group, Rule
from solver.targets import Target
from tests.solver.by_fractions import dot, vertices
from tests.solver.larder import (
    BREAD,
    BUTTER,
    CHICKEN,
    PATTIES,
    TABLE,
    between,
    brief,
    into,
    item,
    kitchen,
    macronutrients,
)
from tests.solver.reaching import (
    MUSTS,
    PER_100G,
    RATIOS,
    dish_at,
    pantry,
    reach_of,
    rows_of,
    three_foods,
    value_at,
)


@pytest.mark.parametrize("of", [of for of, _, _ in MUSTS])
def test_ranges_are_those_of_every_vertex_in_fractions(of: str) -> None:
    # A sum, and a ratio where its denominator is above nothing, has its extremes at vertices.
    corners = vertices(rows_of(*(must for must in MUSTS if must[0] != of)))
    if of in RATIOS:
        top, bottom, factor = RATIOS[of]
        values = [factor * dot(PER_100G[top], x) / dot(PER_100G[bottom], x) for x in corners]
    else:
        values = [dot(PER_100G[of], x) for x in corners]
    found = reach_of(three_foods(*MUSTS), of)
    assert found.least.value == pytest.approx(float(min(values)), rel=1e-10)
    assert found.most.value == pytest.approx(float(max(values)), rel=1e-10)
    for end in (found.least, found.most):
        assert (end.status, end.checked) == (ProofStatus.OPTIMAL, Checked.CERTIFICATE)
        assert end.gap == pytest.approx(0, abs=1e-8)
    assert not found.outer


def test_two_foods_give_the_share_in_closed_form() -> None:
    # 30 to 60 g of butter and 100 to 200 g of chicken: most fat for most butter and least chicken, and the reverse.
    butter = replace(item(BUTTER), at_least_g=30.0, at_most_g=60.0)
    chicken = replace(item(CHICKEN), at_least_g=100.0, at_most_g=200.0)
    found = reach_of(brief(butter, chicken, targets=(between("fat_share_percent", 90.0, None),)), "fat_share_percent")
    assert found.most.value == pytest.approx(float(Fraction(100 * (6 * 72 + 36), 6 * Fraction(728, 10) + 156)))
    assert found.least.value == pytest.approx(float(Fraction(100 * (3 * 72 + 72), 3 * Fraction(728, 10) + 312)))


def test_every_end_is_a_dish_that_counts_to_it() -> None:
    asked = three_foods(*MUSTS)
    for found in reachable(asked, pantry(asked).backend, Deadline.after(10)):
        others = tuple(target for target in asked.targets if target is not found.target)
        for end in (found.least, found.most):
            assert value_at(asked, end.amounts, found.target) == pytest.approx(end.value, rel=1e-7)
            assert all(result.met for result in dish_at(asked, end.amounts, *others).targets)


def test_a_wish_holds_nothing_back_and_has_a_range_itself() -> None:
    wish = replace(between("protein_g", 70.0, None), priority=1)
    asked = three_foods(("energy_kcal", 400, 900))
    with_wish = replace(asked, targets=(*asked.targets, wish))
    least = reach_of(with_wish, "energy_kcal").least
    assert (least.value, least.note) == (0, "This is an empty plate.")
    assert reach_of(with_wish, "protein_g").most.value == pytest.approx(70 + 330 / 728), "butter for the rest"


def test_a_quantity_that_is_no_target_is_counted_under_all_musts() -> None:
    asked = three_foods(("energy_kcal", 400, 728))
    found = range_of(pantry(asked), asked_for(asked, "fat_g"))
    assert found.target == Target("fat_g", "fat_g")
    assert found.most.value == pytest.approx(80)


def test_a_target_in_the_batch_and_one_in_a_portion_differ_by_the_portions() -> None:
    asked = replace(three_foods(("energy_kcal", 100, None)), portions=4)
    batch = range_of(pantry(asked), Target("a", "protein_g", per=asked.targets[0].per.BATCH))
    assert batch.most.value == pytest.approx(71)
    assert range_of(pantry(asked), Target("b", "protein_g")).most.value == pytest.approx(71 / 4)


def test_what_nothing_limits_has_no_end_and_says_what() -> None:
    asked = brief(item(BUTTER), replace(item(CHICKEN), on_hand_g=200.0), targets=(between("protein_g", 20.0, None),))
    found = range_of(pantry(asked), asked_for(asked, "energy_kcal"))
    assert found.most.value is None
    assert found.most.note is not None
    assert "Nothing limits butter; with 10 kg" in found.most.note
    assert found.least.value == pytest.approx(20 / 30 * 156)


def test_a_ratio_that_nothing_divides_grows_without_end() -> None:
    fat = macronutrients("lard", fat=100)
    asked = brief(replace(item(fat), on_hand_g=50.0), item(CHICKEN), targets=(between("energy_kcal", 100.0, 450.0),))
    found = range_of(pantry(asked), asked_for(asked, "ketogenic_ratio"))
    assert found.most.value is None
    assert found.most.note == "It grows without end: a dish can have nothing to divide by."
    assert found.least.value == pytest.approx(4 / 30)


def test_a_ratio_of_nothing_is_undefined() -> None:
    asked = brief(replace(item(macronutrients("lard", fat=100)), on_hand_g=50.0))
    found = range_of(pantry(asked), asked_for(asked, "ketogenic_ratio"))
    assert (found.least.value, found.most.value) == (None, None)
    assert "undefined" in (found.most.note or "")


def test_musts_that_exclude_each_other_leave_no_range_of_a_third() -> None:
    asked = three_foods(("energy_kcal", 3000, None), ("protein_g", 10, None), ("fat_g", None, 90))
    assert reach_of(asked, "energy_kcal").most.value == pytest.approx(1298)
    for end in (reach_of(asked, "protein_g").least, reach_of(asked, "protein_g").most):
        assert end.value is None
        assert "cannot be met together" in (end.note or "")


def test_an_item_that_must_be_used_and_has_no_value_is_named() -> None:
    asked = brief(replace(item(BUTTER), at_least_g=10.0), item(CHICKEN))
    found = range_of(pantry(asked), asked_for(asked, "sodium_mg"))
    assert found.most.value is None
    assert found.most.note == "butter must be used, but has no value for sodium_mg."


def test_no_time_is_told_from_no_dish() -> None:
    asked = three_foods(*MUSTS)
    (first, *_) = reachable(asked, pantry(asked).backend, Deadline.after(0))
    assert first.most.value is None
    assert first.most.note == "The time ended first."
    assert first.most.status is ProofStatus.BEST_FOUND


def test_protein_with_a_lower_end_is_the_protein_that_counts() -> None:
    # 20 g of gelatine of 90 % protein, 100 g of chicken: collagen counts for a fifth at most, so 30 / 0.8 g counts.
    gelatine = replace(item(macronutrients("gelatine", protein=90)), on_hand_g=20.0)
    asked = brief(
        gelatine,
        replace(item(CHICKEN), on_hand_g=100.0),
        targets=(between("energy_kcal", 10.0, None), between("protein_g", 45.0, None)),
    )
    found = reach_of(asked, "protein_g")
    assert found.most.value == pytest.approx(30 / 0.8)
    assert found.least.value == pytest.approx(0, abs=1e-9), "gelatine alone counts for nothing"
    upper = replace(asked, targets=(asked.targets[0], between("protein_g", None, 45.0)))
    assert reach_of(upper, "protein_g").most.value == pytest.approx(48)


def test_steps_are_brute_forced_within_the_stated_gap() -> None:
    steps = {"butter": 14.0, "chicken": 35.0, "bread": 28.0}
    items = [
        replace(item(of), step=Step(1, "spoon", steps[of.name]), on_hand_g=6 * steps[of.name] + 1)
        for of in (BUTTER, CHICKEN, BREAD)
    ]
    asked = brief(*items, targets=(between("energy_kcal", 400.0, 700.0), between("fat_share_percent", 50.0, 60.0)))
    for number, target in enumerate(asked.targets):
        other = asked.targets[1 - number]
        values = []
        for counts in product(range(7), repeat=3):
            used = [Quantity(of, n * steps[of.name], n) for of, n in zip(items, counts, strict=True) if n]
            dish = dish_at(asked, used, other, target)
            if dish.targets[0].met and (value := dish.targets[1].value) is not None:
                values.append(value)
        found = range_of(pantry(asked), target)
        for end, best in ((found.least, min(values)), (found.most, max(values))):
            assert end.value is not None
            assert end.gap is not None
            assert abs(end.value - best) <= end.gap + 1e-6
            assert end.gap < 0.3
            assert end.checked is Checked.CLAIM


@pytest.mark.parametrize("upper", [None, 520.0])
def test_the_fat_share_of_patties_agrees_with_brute_force_over_grams(upper: float | None) -> None:
    mince, tallow = macronutrients("mince", protein=18, fat=20), macronutrients("tallow", fat=100)
    bread = macronutrients("crumb", protein=8, fat=3, carbohydrate=55)
    asked = kitchen(
        into(replace(item(mince), on_hand_g=300.0), PATTIES),
        into(replace(item(tallow), on_hand_g=60.0), PATTIES, TABLE),
        into(replace(item(bread), on_hand_g=60.0), PATTIES),
        targets=(between("energy_kcal", 350.0, upper), between("fat_share_percent", 90.0, None)),
        parts=(PATTIES, TABLE),
    )
    energy, share = asked.targets
    found = range_of(pantry(asked), share)
    assert found.least.value is not None
    assert found.most.value is not None
    values = [dish.targets[1].value or 0.0 for dish in _patties(asked, energy, share)]
    assert len(values) > 200
    assert found.least.value - 1e-6 <= min(values) <= found.least.value + 1.5
    assert found.most.value - 1.5 <= max(values) <= found.most.value + 1e-6
    for end in (found.least, found.most):
        assert value_at(asked, end.amounts, share) == pytest.approx(end.value, abs=1e-4)
        assert dish_at(asked, end.amounts, energy).targets[0].met


def _patties(asked: Brief, energy: Target, share: Target) -> Iterator[Dish]:
    mince, tallow, crumb = asked.pantry
    for grams in product(range(0, 301, 20), range(0, 61, 15), range(0, 61, 15), range(0, 61, 15)):
        used = zip((mince, tallow, tallow, crumb), grams, (0, 0, 1, 0), strict=True)
        if grams[1] + grams[2] <= 60 and any(grams):
            dish = dish_at(asked, [Quantity(of, g, None, of.placed[n]) for of, g, n in used if g], energy, share)
            if dish.targets[0].met:
                yield dish


def test_a_rule_of_the_dish_holds_in_every_range() -> None:
    rule = Rule("bread", Group(frozenset({"bread"})), to=Group(frozenset({"chicken"})), upper=0.1)
    asked = replace(three_foods(("energy_kcal", 1, None)), rules=(rule,))
    # All of the butter and the chicken, and bread for a tenth of the chicken.
    assert reach_of(asked, "energy_kcal").most.value == pytest.approx(728 + 312 + 0.2 * 258)


@pytest.mark.parametrize("of", [of for of, _, _ in MUSTS])
@pytest.mark.parametrize("backend", ["scipy-highs", "pulp-cbc"])
def test_the_referees_find_the_same_ranges(backend: str, of: str) -> None:
    asked = three_foods(*MUSTS)
    target = next(target for target in asked.targets if target.of == of)
    ours, theirs = (range_of(pantry(asked, name), target) for name in ("highs", backend))
    assert theirs.least.value == pytest.approx(ours.least.value, rel=1e-6)
    assert theirs.most.value == pytest.approx(ours.most.value, rel=1e-6)
