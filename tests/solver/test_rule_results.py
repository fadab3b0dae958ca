from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.brief import Brief
from solver.components import Placed
from solver.foods import Food
from solver.outcome import Quantity, RuleResult
from solver.pantry import PantryItem
from solver.rule_results import rule_result
from solver.rules import By, Group, Rule
from solver.verify import dish_of
from tests.solver.larder import BUTTER, NOTHING, brief, food
from tests.solver.random_rules import counted, is_kept

MINCE = food("mince", **{**NOTHING, "protein_g": 18, "fat_g": 20, "sodium_mg": 66})
BACON = food("bacon", **{**NOTHING, "protein_g": 12, "fat_g": 40, "sodium_mg": 700})
SALT = food("salt", **{**NOTHING, "sodium_mg": 38758})
EGG = food("egg", **{**NOTHING, "protein_g": 12, "fat_g": 10, "sodium_mg": 142})
STOCK = food("stock", **NOTHING)

BINDER = Rule("binder", Group(frozenset({"egg"})), to=Group(frozenset({"mince"})), lower=0.07, upper=0.11)
MIX = Group(frozenset({"mince", "bacon", "salt", "stock"}))
SALTED = Rule("salted", MIX, By.SALT, MIX, lower=0.01, upper=0.015)


def of(kind: Food, grams: float, component: str = "the dish") -> Quantity:
    return Quantity(PantryItem(kind.name, kind), grams, None, Placed(component))


def result(rule: Rule, *quantities: Quantity, asked: Brief | None = None, is_binding: bool = False) -> RuleResult:
    return rule_result(rule, quantities, asked or brief(), is_binding)


@pytest.mark.parametrize(("egg_g", "met", "miss"), [(50, True, 0), (30, False, 0.01), (80, False, 0.05)])
def test_an_egg_to_half_a_kilo_of_mince_is_held_against_its_band(egg_g: float, *, met: bool, miss: float) -> None:
    # One 50 g egg to 450 to 700 g mince (common practice, no source).
    found = result(BINDER, of(EGG, egg_g), of(MINCE, 500))
    assert found.value == pytest.approx(egg_g / 500)
    assert found.met is met
    assert found.miss == pytest.approx(miss, abs=1e-12)
    assert found.reason is None


def test_salt_is_counted_from_all_sources() -> None:
    # 600 g at 66 mg, 200 g at 700 mg sodium per 100 g and 8 g salt: 2.5 x (0.396 + 1.4 + 3.10064) = 12.2416 g of 808 g.
    found = result(SALTED, of(MINCE, 600), of(BACON, 200), of(SALT, 8))
    assert found.value == pytest.approx(12.2416 / 808)
    assert not found.met
    assert found.miss == pytest.approx(12.2416 / 808 - 0.015)


def test_unknown_salt_counts_as_the_brief_says() -> None:
    asked = replace(brief(), count_missing_as={"sodium_mg": 400.0})
    assert result(SALTED, of(STOCK, 100), asked=asked).value == pytest.approx(0.01)


def test_an_amount_is_in_grams_for_the_batch() -> None:
    tray = Rule("tray", Group(frozenset({"mince", "egg"})), upper=900.0)
    found = result(tray, of(MINCE, 860), of(EGG, 50), of(BUTTER, 300))
    assert (found.value, found.met, found.miss) == (910, False, 10)


def test_only_what_is_in_the_component_counts() -> None:
    tray = Rule("tray", Group(frozenset({"butter"}), "loaf"), lower=10.0, upper=40.0)
    found = result(tray, of(BUTTER, 30, "loaf"), of(BUTTER, 60, "sauce"))
    assert (found.value, found.met) == (30, True)


@pytest.mark.parametrize(
    ("lower", "upper", "egg_g", "met"),
    [(0.07, 0.11, 0, True), (0.07, 0.11, 50, False), (0.07, None, 50, True), (None, 0.11, 50, False)],
)
def test_a_ratio_to_nothing_is_undefined_and_met_only_where_no_egg_is_too_much(
    lower: float | None, upper: float | None, egg_g: float, *, met: bool
) -> None:
    quantities = [of(EGG, egg_g)] if egg_g else []
    found = result(replace(BINDER, lower=lower, upper=upper), *quantities, is_binding=True)
    assert found.value is None
    assert found.reason == "there is nothing of the second group"
    assert found.met is met
    assert found.miss is None
    assert not found.binding


def test_nothing_of_the_first_group_is_a_ratio_of_nothing() -> None:
    found = result(BINDER, of(MINCE, 500))
    assert (found.value, found.met, found.miss) == (0, False, 0.07)


def test_a_rule_binds_only_where_it_is_met() -> None:
    assert result(BINDER, of(EGG, 35), of(MINCE, 500), is_binding=True).binding
    assert not result(BINDER, of(EGG, 30), of(MINCE, 500), is_binding=True).binding
    assert not result(BINDER, of(EGG, 50), of(MINCE, 500), is_binding=False).binding


def test_float_noise_at_an_end_is_no_miss() -> None:
    most = replace(BINDER, upper=0.1)
    found = result(most, of(EGG, 50 + 1e-7), of(MINCE, 500))
    assert (found.met, found.miss) == (True, 0)
    assert not result(most, of(EGG, 50 + 1e-3), of(MINCE, 500)).met
    least = result(replace(BINDER, lower=0.1), of(EGG, 50 - 1e-7), of(MINCE, 500))
    assert (least.met, least.miss) == (True, 0)


def test_a_dish_lists_its_rules_and_misses_the_musts_among_them() -> None:
    wish = replace(BINDER, id="wish", priority=1)
    tray = Rule("tray", Group(frozenset({"mince"})), upper=900.0)
    dish = dish_of([of(MINCE, 500)], brief_with(BINDER, wish, tray), frozenset({"tray"}))
    assert [(each.rule.id, each.met, each.binding) for each in dish.rules] == [
        ("binder", False, False),
        ("wish", False, False),
        ("tray", True, True),
    ]
    assert dish.missed == ("energy_kcal", "binder"), "the wish is not among them"


def brief_with(*rules: Rule) -> Brief:
    return replace(brief(PantryItem("mince", MINCE), PantryItem("egg", EGG)), rules=rules)


grams = st.integers(0, 9000).map(lambda tenths: tenths / 10)
groups = st.frozensets(st.sampled_from(["mince", "bacon", "salt", "egg"]), min_size=1).map(Group)
ends = st.none() | st.floats(0.001, 3)


rules = st.builds(
    Rule, st.just("rule"), groups, st.sampled_from([By.RAW_MASS, By.SALT]), st.none() | groups, ends, ends
)


@given(rules, st.lists(grams, min_size=4, max_size=4))
def test_value_and_verdict_are_those_of_counting_by_hand(rule: Rule, amounts: Sequence[float]) -> None:
    used = [of(kind, grams) for kind, grams in zip((MINCE, BACON, SALT, EGG), amounts, strict=True)]
    found = result(rule, *used)
    amount, whole = counted(rule, used)
    assert found.met is is_kept(rule, used)
    if whole == 0:
        assert found.value is None
    else:
        assert found.value == pytest.approx(amount / whole, rel=1e-12)
