"""What nobody asks for more of stays in proportion: no macro is mended with pepper, nor with a dozen eggs in a patty.

A seasoning may become at most twice what it was, or 1 g for each portion; any other food that is in the dish at most
four times what it was, or 10 g for each portion, or 1 g of what binds (common practice, no source; the numbers are our
choice). So where the meat is left out, the answer is a conflict with what may stand in for it, and no terrine of stock
and gelatine. Salt is free where a target or a rule is about it; what the dish had none of is free but for seasonings.
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

#: The same of any other food.
MOST_TIMES_OF_FOOD, MOST_NEW_OF_FOOD_G = 4.0, 10.0

_SPICES = "Spices and Herbs"
_SODIUM = "sodium_mg"


def with_unasked_kept(brief: Brief, base: Base, said: Sequence[Said]) -> Brief:
    """The brief with a most amount for each item of the dish, and each seasoning, that nobody asks for more of."""
    asked = {name for each in said if each.says in {Says.MORE, Says.ABOUT} for name in each.items}
    asked |= {name for each in said for name in each.instead}
    bounded = [rule for rule in brief.rules if rule.lower is not None and rule.by is not By.SALT]
    asked |= {name for rule in bounded for name in rule.of.items}
    free = frozenset(asked) | (_salts(brief) if _is_about_salt(brief) else frozenset())
    pantry = tuple(
        item if item.name in free or is_in_already(item) else _kept(item, base.grams(item.name), brief.portions)
        for item in brief.pantry
    )
    return replace(brief, pantry=pantry)


def unasked(asked: Brief, posed: Brief) -> frozenset[str]:
    """The names of items whose most amount is so, and not that of the brief as it was asked."""
    most = {item.name: item.at_most_g for item in asked.pantry}
    return frozenset(item.name for item in posed.pantry if item.name in most and item.at_most_g != most[item.name])


def _kept(item: PantryItem, there_g: float, portions: int) -> PantryItem:
    seasons = _is_seasoning(item)
    if there_g <= 0 and not seasons:
        return item
    times = MOST_TIMES if seasons else MOST_TIMES_OF_FOOD
    new_g = MOST_NEW_G if seasons or role_of(item.food) is Role.BINDER else MOST_NEW_OF_FOOD_G
    most = max(times * there_g, new_g * portions, item.at_least_g, item.least_when_used_g or 0.0)
    limits = [limit for limit in (item.on_hand_g, item.at_most_g) if limit is not None]
    step = 0.0 if item.step is None else item.step.grams
    return item if limits and min(limits) <= most else replace(item, at_most_g=max(most, step))


def _is_seasoning(item: PantryItem) -> bool:
    return item.food.group == _SPICES or role_of(item.food) is Role.SALT


def _salts(brief: Brief) -> frozenset[str]:
    return frozenset(item.name for item in brief.pantry if role_of(item.food) is Role.SALT)


def _is_about_salt(brief: Brief) -> bool:
    targets = any(target.of == _SODIUM for target in brief.targets)
    return targets or any(rule.by is By.SALT for rule in brief.rules)
