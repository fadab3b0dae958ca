"""What is sought, level by level: the wishes by priority, then the preferences in the brief's order.

Each level is one objective over the same programme; the chain solves it on the optimal face of those before.
"""

from dataclasses import dataclass

import numpy as np

from solver.as_eaten import PLACE
from solver.brief import Preference
from solver.closest_rows import set_away
from solver.components import Drippings
from solver.formulate import Formulation
from solver.layout import Layout
from solver.numerics import FloatArray
from solver.pantry import PantryItem

#: Half-bands of the largest deviation that nobody tastes: proof of `balanced` stops here for stepped briefs.
BALANCED_GAP = 0.1

#: A tenth of a hundredth of the currency, where proof of `cheapest` stops for stepped briefs.
CHEAPEST_GAP = 0.001

#: Added fat, in units of 100 g, where proof of the least of it stops for stepped briefs: a hundredth of a gram.
ADDED_FAT_GAP = 1e-4

#: What the level before counts beside added fat in units of 100 g.
PART_OF_BEFORE = 1e-3

#: From so much fat on, g in 100 g, a food is added for its fat: butter, oil, lard (our choice).
ADDED_FAT_G = 75.0

#: Units of 100 g, where proof of using up stops for stepped briefs: a gram.
USE_UP_GAP = 0.01

#: A count has nothing between whole numbers, so proof of one stops short of the next.
WHOLE_GAP = 0.9

#: Part of an amount, where proof of the least change of a dish stops.
CLOSEST_GAP = 1e-4

#: Part of a target that proof of a wish's miss may leave open for stepped briefs.
WISH_GAP = 1e-4


@dataclass(frozen=True, slots=True, eq=False)
class Level:
    """name: as in the answer's proof. cost: (columns,). absolute_gap: where a proof may stop (integer only).

    breaks_ties: whether the levels before it may give up as much as their own gap for it, where that is not nothing.
    yields: whether it gives its own gap to the level after it in any case, so that neither is sought by itself (integer
    only): of plans that nobody can tell apart by it, the best by the next.
    """

    name: str
    cost: FloatArray
    absolute_gap: float
    breaks_ties: bool = False
    yields: bool = False


def levels(formulation: Formulation) -> tuple[Level, ...]:
    """The levels of a brief, at least one."""
    brief, layout = formulation.brief, formulation.layout
    priorities = sorted({side.target.priority for side in layout.sides if side.target.priority is not None})
    wishes = tuple(_wish(layout, priority) for priority in priorities)
    preferred = tuple(level for preference in brief.prefer for level in _preference(layout, preference))
    # Where nothing that is dated takes part, there is nothing to use up, and a plan is still wanted.
    preferred = preferred or _preference(layout, Preference.BALANCED)
    return wishes + preferred + _least_added_fat(layout, preferred[-1])


def _wish(layout: Layout, priority: int) -> Level:
    cost = np.zeros(layout.width)
    cost[layout.miss_columns] = [float(side.target.priority == priority) for side in layout.sides]
    return Level(f"wishes of priority {priority}", cost, WISH_GAP)


def _preference(layout: Layout, preference: Preference) -> tuple[Level, ...]:
    if preference is Preference.USE_UP_FIRST:
        return _use_up(layout)
    cost = np.zeros(layout.width)
    if preference is Preference.BALANCED:
        cost[layout.deviation_column] = 1.0
        return (Level(preference.value, cost, BALANCED_GAP, yields=True),)
    if preference is Preference.CLOSEST and layout.near is not None:
        cost[layout.away_columns] = cost[layout.changed_columns] = layout.near.weight
        return (Level(preference.value, cost, CLOSEST_GAP),)
    if preference is Preference.FEWEST_INGREDIENTS:
        cost[layout.switch_columns] = 1.0
        return (Level(preference.value, cost, WHOLE_GAP),)
    if preference is Preference.FEWEST_PURCHASES:
        return _fewest_purchases(layout)
    prices = [0.0 if use.item.price_per_g is None else use.item.price_per_g for use in layout.uses]
    cost[layout.use_columns] = np.array(prices) * layout.unit_g
    return (Level(preference.value, cost, CHEAPEST_GAP),)


def _fewest_purchases(layout: Layout) -> tuple[Level, ...]:
    """How many items have to be bought; no level where none of those that take part would have to be."""
    cost = np.zeros(layout.width)
    cost[layout.switch_columns] = [float(layout.items[number].to_buy) for number in layout.switched]
    return (Level(Preference.FEWEST_PURCHASES.value, cost, WHOLE_GAP),) if cost.any() else ()


def _use_up(layout: Layout) -> tuple[Level, ...]:
    """One level for each day, or place in the order, the first first: the most of what is due then, units of 100 g.

    A brief has days or an order, not both.
    """
    due = [when for use in layout.uses if (when := _due(use.item)) is not None]
    costs = []
    for when in sorted(set(due)):
        cost = np.zeros(layout.width)
        now = np.array([_due(use.item) == when for use in layout.uses])
        cost[layout.use_columns] = np.where(now, -layout.unit_g / 100, 0.0)
        costs.append(Level(f"{Preference.USE_UP_FIRST.value}: {when[1]}", cost, USE_UP_GAP))
    return tuple(costs)


def _due(item: PantryItem) -> tuple[int, str] | None:
    """When an item is to be used up, as a number that sorts and in words; None for what need not be."""
    if item.use_by is not None:
        return item.use_by.toordinal(), item.use_by.isoformat()
    return None if item.use_up_order is None else (item.use_up_order, str(item.use_up_order))


def _least_added_fat(layout: Layout, before: Level) -> tuple[Level, ...]:
    """Of plans that are as good, the one that needs the least butter, oil or tallow, where a pan may lose fat.

    Else tallow could go into a mix, run out of it and be spooned back, and butter could be bought while drippings are
    poured away: no target minds either, and every cook does. What the level before is worth counts a thousandth, so
    that of its gap no more is given up than saves fat.
    """
    cost = np.zeros(layout.width)
    if any(pan.component.drippings is not Drippings.SERVED for pan in layout.board.pans):
        fat = np.nan_to_num(layout.board.raw[:, PLACE["fat_g"]])
        cost[layout.use_columns] = np.where(fat >= ADDED_FAT_G, fat * layout.unit_g / 1e4, 0.0)
    if not cost.any():
        return ()
    return (Level("least added fat", cost + PART_OF_BEFORE * before.cost, ADDED_FAT_GAP, breaks_ties=True),)


def least_miss(formulation: Formulation) -> Level:
    """The level of a conflict: the least sum of normalised misses of the musts."""
    layout = formulation.layout
    cost = np.zeros(layout.width)
    cost[layout.miss_columns] = [float(side.target.priority is None) for side in layout.sides]
    return Level("least miss", cost, WISH_GAP)


def completed(formulation: Formulation, amounts: FloatArray, freed: frozenset[int]) -> FloatArray:
    """All columns for given amounts: switches on where used, pans as the curves have them, misses as small as can be.

    amounts: (uses,), in column units. freed: centres that do not count. Selectors cost nothing and stay 0.
    """
    layout = formulation.layout
    x = np.zeros(layout.width)
    x[layout.use_columns] = amounts
    x[layout.switch_columns] = [amounts[list(layout.board.by_item[item])].sum() > 0 for item in layout.switched]
    grams100, rendered100 = amounts * layout.unit_g / 100.0, layout.rendered100(amounts)
    x[layout.pan_columns] = rendered100[list(layout.pan_numbers)]
    shortfall = [max(0.0, side.least - side.left(grams100, rendered100)) / side.normaliser for side in layout.sides]
    x[layout.miss_columns] = shortfall
    deviations = [
        middle.off(grams100, rendered100) for number, middle in enumerate(layout.centres) if number not in freed
    ]
    x[layout.deviation_column] = max(deviations, default=0.0)
    set_away(layout, x, amounts)
    return x
