"""Limits of items that a plan stands at: stocks, least amounts, steps; by hand and against brute force."""

from dataclasses import replace
from itertools import product
from math import inf

import pytest

from solver.backends import open_backend
from solver.brief import Brief, Preference
from solver.deadline import Deadline
from solver.outcome import Checked, MemberKind
from solver.pantry import PantryItem, Step
from solver.worth import Unsaid, worth
from solver.worth_ends import band_ends
from solver.worth_items import item_ends
from tests.solver.worths import batch, cheapest, planned, priced, said, worths


def test_a_stock_that_is_used_up_is_worth_what_stands_in_for_it_costs_more() -> None:
    # By hand: of 60 g fat the butter, 80 %, brings 40; each gram of it that is missing is 0.8 g of oil, 0.02 a gram.
    butter = replace(priced("butter", 1.0, fat_g=80), on_hand_g=50.0)
    asked = cheapest(butter, priced("oil", 2.0, fat_g=100), targets=(batch("fat_g", 60.0),))
    one = worths(asked)["butter", "on_hand"]
    assert (one.kind, one.by) == (MemberKind.ON_HAND, 1.0)
    assert said(one) == pytest.approx((-0.8 * 0.02 + 0.01, 0.8 * 0.02 - 0.01))


def test_a_stock_that_printing_leaves_less_than_a_tenth_of_a_gram_of_is_used_up() -> None:
    # By hand, as above: of 50.06 g butter 50.0 g are printed.
    butter = replace(priced("butter", 1.0, fat_g=80), on_hand_g=50.06)
    asked = cheapest(butter, priced("oil", 2.0, fat_g=100), targets=(batch("fat_g", 60.0),))
    assert planned(asked).dish.quantities[0].grams == pytest.approx(50.0)
    assert said(worths(asked)["butter", "on_hand"]) == pytest.approx((-0.006, 0.006))


def test_a_least_amount_that_may_not_pass_the_stock_has_no_plan_when_tightened() -> None:
    butter = replace(priced("butter", 1.0, fat_g=80), on_hand_g=80.0, at_least_g=80.0)
    found = worths(cheapest(butter, priced("oil", 2.0, fat_g=100), targets=(batch("fat_g", 10.0),)))
    assert found["butter", "at_least"].less_reason is Unsaid.NO_PLAN
    assert found["butter", "at_least"].more == pytest.approx(-0.01)


def stepped() -> Brief:
    """Three foods in whole pieces, so that brute force sees every dish."""
    sorts = {"roll": (0.30, 40.0, 6, 3, 14), "bar": (0.70, 30.0, 3, 12, 4), "egg": (0.45, 50.0, 5, 7, 5)}
    items = (
        replace(
            priced(name, 100 * price / grams, protein_g=100 * protein / grams, fat_g=100 * fat / grams),
            step=Step(1, "piece", grams),
            on_hand_g=most * grams,
        )
        for name, (price, grams, most, protein, fat) in sorts.items()
    )
    return cheapest(*items, targets=(batch("protein_g", 50.0), batch("fat_g", 20.0, 70.0)))


def by_brute_force(brief: Brief) -> float:
    """The least cost of all whole numbers of pieces; infinite where none meets all targets."""
    counts = [range(int((one.on_hand_g or 0.0) / step_g(one) + 1e-9) + 1) for one in brief.pantry]
    return min((cost for pieces in product(*counts) if (cost := cost_of(brief, pieces)) is not None), default=inf)


def step_g(item: PantryItem) -> float:
    assert item.step is not None
    return item.step.grams


def cost_of(brief: Brief, pieces: tuple[int, ...]) -> float | None:
    grams = [n * step_g(one) for n, one in zip(pieces, brief.pantry, strict=True)]
    for target in brief.targets:
        held = (one.food.value(target.of) or 0.0 for one in brief.pantry)
        total = sum(of * amount / 100 for of, amount in zip(held, grams, strict=True))
        if total < (target.lower or 0.0) - 1e-9 or total > (inf if target.upper is None else target.upper) + 1e-9:
            return None
    return sum((one.price_per_g or 0.0) * amount for one, amount in zip(brief.pantry, grams, strict=True))


def test_stepped_briefs_agree_with_brute_force() -> None:
    asked = stepped()
    plan = planned(asked)
    before, ends = by_brute_force(asked), [*band_ends(plan), *item_ends(plan)]
    found = worth(plan, open_backend("highs"), Deadline.after(30))
    assert ends
    for end, one in zip(ends, found, strict=True):
        assert (one.kind, one.name, one.end, one.checked) == (end.kind, end.name, end.field, Checked.CLAIM)
        for change, brief in ((one.more, end.looser), (one.less, end.tighter)):
            after = inf if brief is None else by_brute_force(brief)
            assert (inf if change is None else change) == pytest.approx(after - before, abs=1e-6)


def test_a_step_of_a_used_up_stock_is_one_unit() -> None:
    # By hand, 50 g protein as cheap as can be: three bars and two eggs hold it for 3.00. With a fourth bar, 48 g,
    # something must still be added; with two bars it takes four eggs, for 3.20.
    one = worths(stepped())["bar", "on_hand"]
    assert (one.by, one.unit) == (1.0, "steps of 1 piece")
    assert said(one) == pytest.approx((0.0, 0.20), abs=1e-6)


def test_a_step_more_of_one_stock_may_save_another_ingredient() -> None:
    # By hand: four bars of 12 g protein need two rolls of 3 g for 54 g; five bars need nothing else.
    asked = stepped()
    roll, bar, _ = asked.pantry
    pantry = (replace(roll, on_hand_g=2 * step_g(roll)), replace(bar, on_hand_g=4 * step_g(bar)))
    targets = (batch("protein_g", 54.0), asked.targets[1])
    found = worths(replace(asked, pantry=pantry, targets=targets, prefer=(Preference.FEWEST_INGREDIENTS,)))
    assert {key: (one.more, one.less_reason) for key, one in found.items()} == {
        ("roll", "on_hand"): (0.0, Unsaid.NO_PLAN),
        ("bar", "on_hand"): (-1.0, Unsaid.NO_PLAN),
        ("protein_g", "at_least"): (0.0, Unsaid.NO_PLAN),
    }
