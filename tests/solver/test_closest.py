"""`closest to` a base dish as a preference of any brief: columns, printing, worth, alternatives and what is refused."""

from dataclasses import replace

import pytest

from solver.alternatives import MOST_LOSS, alternatives
from solver.backends import open_backend
from solver.brief import Brief, Preference
from solver.closest import Base, BaseAmount, distance
from solver.deadline import Deadline
from solver.errors import UnusableBrief
from solver.outcome import Plan
from solver.pantry import PantryItem, Step
from solver.rework_base import grams_by_use
from solver.solve import solve
from solver.worth import worth
from tests.solver.larder import BREAD, BUTTER, CHICKEN, between, brief, item, posed

DISH = "the dish"
BASE = Base((BaseAmount("butter", DISH, 50.0), BaseAmount("chicken", DISH, 120.0), BaseAmount("bread", DISH, 60.0)))


def close(*, energy: tuple[float, float], base: Base | None = BASE, pantry: tuple[PantryItem, ...] = ()) -> Brief:
    items = pantry or (item(BUTTER), item(CHICKEN), item(BREAD))
    asked = brief(*items, targets=(between("energy_kcal", *energy),))
    return replace(asked, base=base, prefer=(Preference.CLOSEST,))


def plan_of(asked: Brief) -> Plan:
    outcome = solve(asked, open_backend("highs"))
    assert isinstance(outcome, Plan), outcome
    return outcome


def codes(asked: Brief) -> list[tuple[str, str]]:
    with pytest.raises(UnusableBrief) as refused:
        solve(asked, open_backend("highs"))
    return [(problem.pointer, problem.code) for problem in refused.value.problems]


def test_columns_are_added_only_where_something_asks_for_them() -> None:
    asked = close(energy=(900, 1000))
    with_base, without = posed(asked), posed(replace(asked, prefer=(Preference.CHEAPEST,)))
    assert with_base.layout.width == without.layout.width + 2 * 3
    assert with_base.program.rows.height == without.program.rows.height + 4 * 3
    assert without.layout.near is None


def test_the_level_counts_what_the_documented_distance_counts() -> None:
    plan = plan_of(close(energy=(900, 1000)))
    found = distance(BASE, grams_by_use(plan.dish))
    assert plan.proof.levels[0].value == pytest.approx(found.total, abs=1e-9)
    # 50 g butter, 120 g chicken, 60 g bread are 364 + 187.2 + 154.8 = 706 kcal; 194 more are 26.65 g of butter.
    assert found.total == pytest.approx(1 + 194 / 7.28 / 50, abs=0.003)


def test_steps_stay_whole_and_the_words_of_the_base_are_kept() -> None:
    spoonful = replace(item(BUTTER), step=Step(1, "tbsp", 14.2))
    words = Step(2, "cubes", 28.4)
    base = Base((BaseAmount("butter", DISH, 28.4, words), *BASE.amounts[1:]))
    pantry = (spoonful, item(CHICKEN), item(BREAD))
    kept = plan_of(close(energy=(500, 600), base=base, pantry=pantry)).dish.quantities[0]
    assert (kept.grams, kept.steps, kept.item.step) == (28.4, 1, words)
    only_butter = (spoonful, replace(item(CHICKEN), at_most_g=120.0), replace(item(BREAD), at_most_g=60.0))
    moved = plan_of(close(energy=(700, 800), base=base, pantry=only_butter)).dish.quantities[0]
    # 548.8 kcal lack 151.2: 20.8 g of butter are two spoons more.
    assert (moved.item.name, moved.steps) == ("butter", 4)
    assert moved.grams == pytest.approx(56.8)


def test_worth_and_alternatives_know_it() -> None:
    plan = plan_of(close(energy=(900, 1000)))
    (end,) = [each for each in worth(plan, open_backend("highs"), Deadline.after(5)) if each.name == "energy_kcal"]
    # A kcal more room saves 1 / 7.28 g of butter, as a part of 50 g.
    assert end.more == pytest.approx(-1 / 7.28 / 50, abs=1e-5)
    assert MOST_LOSS[Preference.CLOSEST] == 1.0
    others = alternatives(plan, 1, open_backend("highs"), Deadline.after(5))
    assert others.most_loss == 1.0


@pytest.mark.parametrize(
    ("base", "expected"),
    [
        (None, [("/prefer", "no_base")]),
        (Base((BaseAmount("butter", DISH, 0.0),)), [("/base", "empty_base")]),
        (Base((BaseAmount("eel", DISH, 5.0),)), [("/base/0", "base_goes_nowhere")]),
        (Base((BaseAmount("butter", "the pot", 5.0),)), [("/base/0", "base_goes_nowhere")]),
        (Base((*BASE.amounts, BASE.amounts[0])), [("/base/3", "repeated_base")]),
        (Base((*BASE.amounts[1:], BaseAmount("butter", DISH, -1.0))), [("/base/2", "not_an_amount")]),
        (Base((*BASE.amounts[1:], BaseAmount("butter", DISH, float("nan")))), [("/base/2", "not_an_amount")]),
    ],
)
def test_a_base_dish_that_cannot_be_is_refused(base: Base | None, expected: list[tuple[str, str]]) -> None:
    assert codes(close(energy=(900, 1000), base=base)) == expected


def test_an_amount_between_steps_is_refused() -> None:
    stepped = (replace(item(BUTTER), step=Step(1, "tbsp", 14.2)), item(CHICKEN), item(BREAD))
    assert codes(close(energy=(900, 1000), pantry=stepped)) == [("/base/0", "base_not_in_steps")]
