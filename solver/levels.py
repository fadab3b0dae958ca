"""What is sought, level by level: the wishes by priority, then the preferences in the brief's order.

Each level is one objective over the same programme; the chain solves it on the optimal face of those before.
"""

from dataclasses import dataclass

import numpy as np

from solver.brief import Preference
from solver.formulate import Formulation
from solver.layout import Layout
from solver.numerics import FloatArray

#: Half-bands of the largest deviation that nobody tastes: proof of `balanced` stops here for stepped briefs.
BALANCED_GAP = 0.1

#: A tenth of a hundredth of the currency, where proof of `cheapest` stops for stepped briefs.
CHEAPEST_GAP = 0.001

#: Part of a target that proof of a wish's miss may leave open for stepped briefs.
WISH_GAP = 1e-4


@dataclass(frozen=True, slots=True, eq=False)
class Level:
    """name: as in the answer's proof. cost: (columns,). absolute_gap: where a proof may stop (integer only)."""

    name: str
    cost: FloatArray
    absolute_gap: float


def levels(formulation: Formulation) -> tuple[Level, ...]:
    """The levels of a brief, at least one."""
    brief, layout = formulation.brief, formulation.layout
    priorities = sorted({target.priority for target in brief.targets if target.priority is not None})
    wishes = tuple(_wish(layout, priority) for priority in priorities)
    return wishes + tuple(_preference(layout, preference) for preference in brief.prefer)


def _wish(layout: Layout, priority: int) -> Level:
    cost = np.zeros(layout.width)
    cost[layout.miss_columns] = [float(side.target.priority == priority) for side in layout.sides]
    return Level(f"wishes of priority {priority}", cost, WISH_GAP)


def _preference(layout: Layout, preference: Preference) -> Level:
    cost = np.zeros(layout.width)
    if preference is Preference.BALANCED:
        cost[layout.deviation_column] = 1.0
        return Level(preference.value, cost, BALANCED_GAP)
    prices = [0.0 if item.price_per_g is None else item.price_per_g for item in layout.items]
    cost[layout.item_columns] = np.array(prices) * layout.unit_g
    return Level(preference.value, cost, CHEAPEST_GAP)


def least_miss(formulation: Formulation) -> Level:
    """The level of a conflict: the least sum of normalised misses of the musts."""
    layout = formulation.layout
    cost = np.zeros(layout.width)
    cost[layout.miss_columns] = [float(side.target.priority is None) for side in layout.sides]
    return Level("least miss", cost, WISH_GAP)


def completed(formulation: Formulation, amounts: FloatArray, freed: frozenset[int]) -> FloatArray:
    """All columns for given item amounts: switches on where used, misses and deviation as small as they can be.

    amounts: (items,), in column units. freed: centres that do not count.
    """
    layout = formulation.layout
    x = np.zeros(layout.width)
    x[layout.item_columns] = amounts
    x[layout.switch_columns] = amounts[layout.switched] > 0
    grams100 = amounts * layout.unit_g / 100.0
    shortfall = [max(0.0, side.least - float(side.weights @ grams100)) / side.normaliser for side in layout.sides]
    x[layout.miss_columns] = shortfall
    deviations = [
        abs(float(middle.weights @ grams100) - middle.middle) / middle.half
        for number, middle in enumerate(layout.centres)
        if number not in freed
    ]
    x[layout.deviation_column] = max(deviations, default=0.0)
    return x
