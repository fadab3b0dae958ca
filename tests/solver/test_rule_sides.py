from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.bands import Side
from solver.board import Board, board_of
from solver.brief import Brief
from solver.components import Drippings
from solver.missing import count
from solver.numerics import FloatArray
from solver.outcome import Quantity
from solver.rule_sides import rule_sides
from solver.rules import By, Group, Rule
from tests.solver.larder import ENERGY, PATTIES, TABLE, into, item, kitchen, macronutrients
from tests.solver.random_kitchens import Kitchen, random_kitchen
from tests.solver.random_rules import counted


def inn(portions: int = 1, **changes: float) -> Brief:
    """Mince and egg in patties whose drippings come back, and butter that may go into them or to the table."""
    part = replace(PATTIES, drippings=Drippings.SPOONED_BACK)
    mince = into(item(macronutrients("mince", protein=18, fat=20)), part)
    egg = into(item(macronutrients("egg", protein=12, fat=10)), part)
    butter = into(item(macronutrients("butter", fat=80)), part, TABLE)
    asked = kitchen(mince, egg, butter, targets=(ENERGY,), parts=(part, TABLE), portions=portions)
    return replace(asked, count_missing_as=changes)


def board(asked: Brief) -> Board:
    return board_of(asked, count(asked))


def by_use(asked: Brief, side: Side) -> dict[tuple[str, str], float]:
    """Weights per gram, by item and component; drippings by the name of their component."""
    uses = board(asked).uses
    return {
        ("drippings" if use.is_spoon else use.item.name, use.component.name): weight / 100
        for use, weight in zip(uses, side.weights, strict=True)
    }


def rule(of: str, to: str | None = None, **fields: object) -> Rule:
    related = None if to is None else Group(frozenset(to.split()))
    return replace(Rule("rule", Group(frozenset(of.split())), to=related), **fields)  # type: ignore[arg-type]


def test_a_binder_is_weighed_against_its_mince() -> None:
    # (u - lower v) @ q >= 0 and (upper v - u) @ q >= 0, per gram of each.
    lower, upper = rule_sides(rule("egg", "mince", lower=0.07, upper=0.11), board(inn()), inn())
    others = {("butter", "patties"): 0.0, ("butter", TABLE.name): 0.0, ("drippings", "patties"): 0.0}
    assert by_use(inn(), lower) == pytest.approx({("mince", "patties"): -0.07, ("egg", "patties"): 1.0, **others})
    assert by_use(inn(), upper) == pytest.approx({("mince", "patties"): 0.11, ("egg", "patties"): -1.0, **others})
    assert (lower.least, upper.least) == (0, 0)
    assert (lower.is_lower, upper.is_lower) == (True, False)


def test_an_amount_for_the_batch_is_compared_with_the_ends_themselves() -> None:
    lower, upper = rule_sides(rule("egg butter", lower=50.0, upper=90.0), board(inn(4)), inn(4))
    assert (lower.least, upper.least) == (50, -90)
    weights = by_use(inn(), lower)
    assert weights["butter", "patties"] == weights["butter", TABLE.name] == weights["egg", "patties"] == 1
    assert weights["mince", "patties"] == 0


def test_an_open_end_has_no_row() -> None:
    asked = inn()
    assert [side.is_lower for side in rule_sides(rule("egg", lower=1.0), board(asked), asked)] == [True]
    assert [side.is_lower for side in rule_sides(rule("egg", upper=1.0), board(asked), asked)] == [False]


def test_of_an_item_in_two_components_only_what_goes_into_the_one_is_counted() -> None:
    group = Group(frozenset({"butter"}), TABLE.name)
    (side,) = rule_sides(Rule("rule", group, upper=20.0), board(inn()), inn())
    weights = by_use(inn(), side)
    assert weights["butter", TABLE.name] == -1
    assert weights["butter", "patties"] == 0


def test_what_is_in_both_groups_counts_in_both() -> None:
    (side,) = rule_sides(rule("egg", "egg mince butter", upper=0.8), board(inn()), inn())
    weights = by_use(inn(), side)
    assert weights["egg", "patties"] == pytest.approx(0.8 - 1)
    assert weights["butter", TABLE.name] == pytest.approx(0.8)


def test_drippings_that_are_spooned_back_are_no_ingredient_and_pans_weigh_nothing() -> None:
    # A pantry may call an item what the solver calls them.
    group = Group(frozenset({"mince", "egg", "butter", "drippings of patties"}))
    (side,) = rule_sides(Rule("all", group, lower=1.0), board(inn()), inn())
    assert by_use(inn(), side)["drippings", "patties"] == 0
    assert not side.pans.any()


def test_unknown_sodium_is_counted_in_salt_as_the_brief_says() -> None:
    asked = inn(sodium_mg=400.0)
    (side,) = rule_sides(rule("mince", "mince egg butter", by=By.SALT, lower=0.01), board(asked), asked)
    assert by_use(asked, side)["mince", "patties"] == pytest.approx(0.01 - 0.01)
    assert by_use(asked, side)["egg", "patties"] == pytest.approx(-0.01)


def test_a_miss_of_one_is_as_much_as_the_end_of_a_hundred_grams_of_the_second_group_for_each_portion() -> None:
    lower, upper = rule_sides(rule("egg", "mince", lower=0.07, upper=0.11), board(inn(4)), inn(4))
    assert (lower.normaliser, upper.normaliser) == pytest.approx((28, 44))
    (amount,) = rule_sides(rule("egg", lower=50.0), board(inn(4)), inn(4))
    assert amount.normaliser == 50
    (none,) = rule_sides(rule("egg", upper=0.0), board(inn(4)), inn(4))
    assert none.normaliser == 0.01


def amounts_of(dish: Kitchen) -> tuple[list[Quantity], Board, FloatArray]:
    pairs = zip(dish.brief.pantry, dish.grams, strict=True)
    used = [Quantity(each, grams, None, each.placed[0]) for each, grams in pairs]
    return used, dish.board, dish.amounts_g(dish.board)


@given(st.integers(0, 10_000), st.data())
def test_a_row_leaves_over_what_counting_item_by_item_leaves_over(seed: int, data: st.DataObject) -> None:
    dish = random_kitchen(seed, sources=2)
    quantities, uses, grams = amounts_of(dish)
    names = st.frozensets(st.sampled_from([each.name for each in dish.brief.pantry]), min_size=1)
    components = st.sampled_from([None, *(part.name for part in dish.brief.components)])
    groups = st.builds(Group, names, components)
    end = data.draw(st.floats(0.001, 900))
    wanted = Rule(
        "rule",
        data.draw(groups),
        data.draw(st.sampled_from([By.RAW_MASS, By.SALT])),
        data.draw(st.none() | groups),
        end,
        end,
    )
    amount, whole = counted(wanted, quantities)
    lower, upper = rule_sides(wanted, uses, dish.brief)
    pans = np.ones(len(uses.pans))
    tolerance = 1e-9 * (1 + amount + end * whole)
    assert lower.left(grams / 100, pans) - lower.least == pytest.approx(amount - end * whole, abs=tolerance)
    assert upper.left(grams / 100, pans) - upper.least == pytest.approx(end * whole - amount, abs=tolerance)
