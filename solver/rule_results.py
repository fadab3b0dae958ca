"""What printed amounts come to by a rule, item by item; another path than the rows that are optimised."""

from collections.abc import Mapping, Sequence
from math import fsum

from solver.brief import Brief
from solver.choices import Choice
from solver.cooked import CookedComponent
from solver.energy_eaten import macro_energy_kcal
from solver.numerics import VERIFICATION
from solver.outcome import ChoiceResult, Quantity, RuleResult
from solver.rules import By, Group, Rule, counted_g
from solver.used import Used, in_kitchen


def rule_result(
    rule: Rule,
    quantities: Sequence[Quantity],
    brief: Brief,
    is_binding: bool,  # noqa: FBT001
    spoons: Mapping[str, int] | None = None,
) -> RuleResult:
    """One rule, recomputed. A ratio to nothing is undefined, and met: there is nothing to keep a ratio to.

    spoons: name of a component to teaspoons of its drippings that are spooned back.
    """
    if rule.by is By.ENERGY_SHARE:
        return _share(rule, in_kitchen(quantities, spoons or {}, brief).used, brief, is_binding)
    amount = _amount(rule.of, rule.by, quantities, brief)
    if rule.to is None:
        return _judged(rule, amount, amount, 1.0, is_binding)
    whole = _amount(rule.to, rule.to_by, quantities, brief)
    if whole <= 0:
        met = amount <= VERIFICATION or rule.upper is None
        return RuleResult(rule, None, "there is nothing of the second group", met, binding=False, miss=None)
    return _judged(rule, amount / whole, amount, whole, is_binding)


def choice_result(choice: Choice, quantities: Sequence[Quantity]) -> ChoiceResult:
    """One choice, by the items that are used."""
    used = {each.item.name for each in quantities}
    return ChoiceResult(choice, tuple(sorted(used & choice.names)), choice.holds(used))


def _share(rule: Rule, used: Sequence[Used], brief: Brief, is_binding: bool) -> RuleResult:  # noqa: FBT001
    inside = [each for each in used if _is_of(rule.of, each.quantity)]
    amount, whole = (macro_energy_kcal(each, brief.energy_basis).total for each in (inside, used))
    if whole <= 0:
        return RuleResult(rule, None, "there is no macro energy to share", met=True, binding=False, miss=None)
    return _judged(rule, 100 * amount / whole, amount, whole / 100, is_binding)


def _amount(group: Group, by: By, quantities: Sequence[Quantity], brief: Brief) -> float:
    if by is By.AS_EATEN_MASS:
        return _eaten_g(group, in_kitchen(quantities, {}, brief).cooked)
    inside = [each for each in quantities if _is_of(group, each)]
    if by is By.PIECES:
        return fsum(each.steps * each.item.step.amount for each in inside if each.item.step and each.steps)
    missing = brief.count_missing_as.get("sodium_mg", 0.0)
    return fsum(each.grams * counted_g(each.item.food, by, missing) for each in inside)


def _eaten_g(group: Group, cooked: Sequence[CookedComponent]) -> float:
    """Weight on the plate, drippings apart: each piece by its own yield, and what the scale weighed as a whole."""
    total = 0.0
    for part in cooked:
        inside = [item for item in part.items if group.holds(item.name, part.component.name)]
        if part.component.is_mix or part.component.cooked_g is not None:
            total += part.cooked_g * fsum(item.raw_g for item in inside) / part.raw_g if part.raw_g > 0 else 0.0
        else:
            total += fsum(item.cooked_g for item in inside if item.cooked_g is not None)
    return total


def _is_of(group: Group, quantity: Quantity) -> bool:
    return group.holds(quantity.item.name, quantity.placed.component)


def _judged(rule: Rule, value: float, amount: float, whole: float, is_binding: bool) -> RuleResult:  # noqa: FBT001
    """Met to the tolerance of the rows, which are in grams of the first group."""
    under = 0.0 if rule.lower is None else rule.lower * whole - amount
    over = 0.0 if rule.upper is None else amount - rule.upper * whole
    off = max(under, over, 0.0)
    met = off <= VERIFICATION * max(1.0, amount)
    return RuleResult(rule, value, None, met, binding=met and is_binding, miss=0.0 if met else off / whole)
