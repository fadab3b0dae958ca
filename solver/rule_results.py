"""What printed amounts come to by a rule, item by item; another path than the rows that are optimised."""

from collections.abc import Sequence
from math import fsum

from solver.brief import Brief
from solver.choices import Choice
from solver.numerics import VERIFICATION
from solver.outcome import ChoiceResult, Quantity, RuleResult
from solver.rules import By, Group, Rule, counted_g


def rule_result(rule: Rule, quantities: Sequence[Quantity], brief: Brief, is_binding: bool) -> RuleResult:  # noqa: FBT001
    """One rule, recomputed. A ratio to nothing is undefined, and met: there is nothing to keep a ratio to."""
    missing = brief.count_missing_as.get("sodium_mg", 0.0)
    amount = _grams(rule.of, rule.by, quantities, missing)
    if rule.to is None:
        return _judged(rule, amount, amount, 1.0, is_binding)
    whole = _grams(rule.to, By.RAW_MASS, quantities, missing)
    if whole <= 0:
        met = amount <= VERIFICATION or rule.upper is None
        return RuleResult(rule, None, "there is nothing of the second group", met, binding=False, miss=None)
    return _judged(rule, amount / whole, amount, whole, is_binding)


def choice_result(choice: Choice, quantities: Sequence[Quantity]) -> ChoiceResult:
    """One choice, by the items that are used."""
    used = {each.item.name for each in quantities}
    return ChoiceResult(choice, tuple(sorted(used & choice.names)), choice.holds(used))


def _grams(group: Group, by: By, quantities: Sequence[Quantity], missing: float) -> float:
    return fsum(
        each.grams * counted_g(each.item.food, by, missing)
        for each in quantities
        if group.holds(each.item.name, each.placed.component)
    )


def _judged(rule: Rule, value: float, amount: float, whole: float, is_binding: bool) -> RuleResult:  # noqa: FBT001
    """Met to the tolerance of the rows, which are in grams of the first group."""
    under = 0.0 if rule.lower is None else rule.lower * whole - amount
    over = 0.0 if rule.upper is None else amount - rule.upper * whole
    off = max(under, over, 0.0)
    met = off <= VERIFICATION * max(1.0, amount)
    return RuleResult(rule, value, None, met, binding=met and is_binding, miss=0.0 if met else off / whole)
