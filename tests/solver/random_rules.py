"""Seeded random rules around a dish: what each says of it counted by hand, and bands that it misses or that bite."""

from collections.abc import Sequence
from dataclasses import replace
from math import isnan

import numpy as np

from solver.brief import Brief
from solver.outcome import Quantity
from solver.rules import By, Group, Rule


def weighed(group: Group, quantities: Sequence[Quantity]) -> float:
    """Raw grams of a group, item by item."""
    return sum(
        each.grams
        for each in quantities
        if each.item.name in group.items and (group.component is None or each.placed.component == group.component)
    )


def salted(group: Group, quantities: Sequence[Quantity], missing_mg: float = 0.0) -> float:
    """Grams of salt of a group, item by item: 2.5 times the sodium, which foods state in mg per 100 g."""
    total = 0.0
    for each in quantities:
        sodium_mg = each.item.food.value("sodium_mg")
        counted_mg = missing_mg if isnan(sodium_mg) else sodium_mg
        total += 2.5 * counted_mg / 1000 * weighed(group, [each]) / 100
    return total


def counted(rule: Rule, quantities: Sequence[Quantity], missing_mg: float = 0.0) -> tuple[float, float]:
    """What the first group comes to, and the raw weight that it is related to; 1 where there is none."""
    amount = weighed(rule.of, quantities)
    if rule.by is By.SALT:
        amount = salted(rule.of, quantities, missing_mg)
    return amount, 1.0 if rule.to is None else weighed(rule.to, quantities)


def is_kept(rule: Rule, quantities: Sequence[Quantity], missing_mg: float = 0.0) -> bool:
    """Whether amounts are inside the rule's band; a ratio to nothing is, where there is nothing of the first group."""
    amount, whole = counted(rule, quantities, missing_mg)
    slack = 1e-6 * max(1.0, amount)
    low = -np.inf if rule.lower is None else rule.lower * whole
    high = np.inf if rule.upper is None else rule.upper * whole
    return bool(low - slack <= amount <= high + slack)


def random_rules(seed: int, brief: Brief, quantities: Sequence[Quantity], *, unlikely: bool = False) -> Brief:
    """The brief with one to three rules that a dish just misses; unlikely ones it misses by far."""
    rng = np.random.default_rng(seed)
    used = sorted({quantity.item.name for quantity in quantities})
    others = sorted({item.name for item in brief.pantry} - set(used))
    rules = []
    for number in range(int(rng.integers(1, 4))):
        some = Group(frozenset(str(name) for name in rng.choice(used, max(1, len(used) // 3), replace=False)))
        to = Group(frozenset([*used, *others])) if rng.random() < 0.5 else Group(frozenset(used) - some.items)
        by = By.SALT if rng.random() < 0.3 else By.RAW_MASS
        rule = Rule(f"rule {number}", some, by, to if to.items and rng.random() < 0.7 else None)
        rules.append(_banded(rng, rule, quantities, unlikely=unlikely))
    return replace(brief, rules=tuple(rules))


def _banded(rng: np.random.Generator, rule: Rule, quantities: Sequence[Quantity], *, unlikely: bool) -> Rule:
    amount, whole = counted(rule, quantities)
    value = max(amount / whole, 0.001) if whole > 0 else 0.5
    shift = float(rng.uniform(3, 8)) if unlikely else float(rng.uniform(1.02, 1.1))
    value = value * shift if rng.random() < 0.5 else value / shift
    low, high = 0.99 * value, 1.01 * value
    priority = 1 if rng.random() < 0.2 else None
    lower, upper = ((low, high), (low, None), (None, high))[rng.integers(3)]
    return replace(rule, lower=lower, upper=upper, priority=priority)
