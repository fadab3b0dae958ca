"""What is in a dish for its taste stays that: no macro is mended with pepper, and salt is not doubled unasked.

A seasoning may become at most twice what it was, or 1 g for each portion, where nobody asks for more of it (common
practice, no source; the numbers are our choice). Salt is free where a target or a rule is about it.
"""

from collections.abc import Sequence
from dataclasses import replace

from solver.brief import Brief
from solver.closest import Base
from solver.pantry import PantryItem, is_in_already
from solver.rework_said import Said, Says
from solver.roles import Role, role_of
from solver.rules import By

#: The most of a seasoning, as a part of what there was, and of what was hardly there, g for each portion.
MOST_TIMES, MOST_NEW_G = 2.0, 1.0

_SPICES = "Spices and Herbs"
_SODIUM = "sodium_mg"


def with_seasonings_kept(brief: Brief, base: Base, said: Sequence[Said]) -> Brief:
    """The brief with a most amount for each seasoning that nobody asks for more of."""
    asked = {name for each in said if each.says in {Says.MORE, Says.ABOUT} for name in each.items}
    asked |= {name for each in said for name in each.instead}
    bounded = [rule for rule in brief.rules if rule.lower is not None and rule.by is not By.SALT]
    asked |= {name for rule in bounded for name in rule.of.items}
    free = frozenset(asked) | (_salts(brief) if _is_about_salt(brief) else frozenset())
    pantry = tuple(
        _kept(item, base, brief.portions) if _is_seasoning(item) and item.name not in free else item
        for item in brief.pantry
    )
    return replace(brief, pantry=pantry)


def _kept(item: PantryItem, base: Base, portions: int) -> PantryItem:
    most = max(
        MOST_TIMES * base.grams(item.name), MOST_NEW_G * portions, item.at_least_g, item.least_when_used_g or 0.0
    )
    limits = [limit for limit in (item.on_hand_g, item.at_most_g) if limit is not None]
    step = 0.0 if item.step is None else item.step.grams
    return item if limits and min(limits) <= most else replace(item, at_most_g=max(most, step))


def _is_seasoning(item: PantryItem) -> bool:
    salts = role_of(item.food) is Role.SALT
    return (item.food.group == _SPICES or salts) and not is_in_already(item)


def _salts(brief: Brief) -> frozenset[str]:
    return frozenset(item.name for item in brief.pantry if role_of(item.food) is Role.SALT)


def _is_about_salt(brief: Brief) -> bool:
    targets = any(target.of == _SODIUM for target in brief.targets)
    return targets or any(rule.by is By.SALT for rule in brief.rules)
