"""The briefs behind an alternative: items that are really used or not at all, and then a brief of just some of them."""

from dataclasses import replace

from solver.alternative_pools import Pools, least_to_count_g
from solver.brief import Brief, Preference
from solver.limits import largest_g
from solver.outcome import Dish, Plan
from solver.verify import dish_of


def sought(plan: Plan, pools: Pools) -> Brief:
    """The brief, each item of which is used to an amount that counts, or not at all."""
    brief, largest = plan.brief, largest_g(plan.brief)
    items = tuple(
        replace(item, least_when_used_g=least_to_count_g(item, plan.dish, largest)) if item.name in pools.of else item
        for item in brief.pantry
    )
    unusable = frozenset(item.name for item in items) - frozenset(pools.of)
    return replace(brief, pantry=items, leave_out=brief.leave_out | unusable)


def only(brief: Brief, names: frozenset[str]) -> Brief:
    """The sought brief, made of all of these items and no others."""
    items = tuple(
        replace(item, at_least_g=item.least_when_used_g or 0.0) if item.name in names else item for item in brief.pantry
    )
    return replace(brief, pantry=items, leave_out=frozenset(item.name for item in items) - names)


def nothing_to_use_up(brief: Brief) -> bool:
    """Whether what spoils first is to be used up and nothing that takes part spoils: no level would say that."""
    used = [item for item in brief.pantry if item.name not in brief.leave_out]
    due = any(item.use_by is not None or item.use_up_order is not None for item in used)
    return Preference.USE_UP_FIRST in brief.prefer and not due


def as_asked(dish: Dish, brief: Brief) -> Dish:
    """The same dish, of the items as asked."""
    asked = {item.name: item for item in brief.pantry}
    quantities = [replace(quantity, item=asked[quantity.item.name]) for quantity in dish.quantities]
    binding = frozenset(each.target.id for each in dish.targets if each.binding)
    binding |= frozenset(each.rule.id for each in dish.rules if each.binding)
    spoons = {each.component.name: each.spoons for each in dish.cooked if each.spoons}
    return dish_of(quantities, brief, binding, spoons)
