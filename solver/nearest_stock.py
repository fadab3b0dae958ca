"""How much of one item has to be there, or how much less of it may be demanded, for a plan to exist."""

from dataclasses import replace
from enum import Enum

import numpy as np

from solver.backends.base import Backend, Limits, Status
from solver.brief import Brief
from solver.deadline import Deadline
from solver.nearest_end import exactly_posed
from solver.pantry import PantryItem


class Stock(Enum):
    """Which limit of an item is looked at."""

    ON_HAND = "on hand"
    AT_MOST = "at most"
    AT_LEAST = "at least"

    def of(self, item: PantryItem) -> float | None:
        """Where the limit is, g for the batch; None when open."""
        return {Stock.ON_HAND: item.on_hand_g, Stock.AT_MOST: item.at_most_g, Stock.AT_LEAST: item.at_least_g}[self]

    def changed(self, brief: Brief, item: PantryItem, grams: float | None) -> Brief:
        """The brief with the limit moved there; open for None."""
        if self is Stock.ON_HAND:
            changed = replace(item, on_hand_g=grams)
        elif self is Stock.AT_MOST:
            changed = replace(item, at_most_g=grams)
        else:
            changed = replace(item, at_least_g=grams or 0.0)
        return replace(brief, pantry=tuple(changed if each.name == item.name else each for each in brief.pantry))


def nearest_stock(brief: Brief, item: PantryItem, stock: Stock, backend: Backend, deadline: Deadline) -> float | None:
    """The least of an item on hand, or the most of it demanded, g for the batch, with which a plan exists.

    Printing apart. None where no amount helps, or the clock ends first.
    """
    formulation = exactly_posed(stock.changed(brief, item, None))
    layout = formulation.layout
    of_item = np.array([use.number is not None and use.item.name == item.name for use in layout.uses])
    if not of_item.any():
        return None
    sign = -1.0 if stock is Stock.AT_LEAST else 1.0
    cost = np.zeros(layout.width)
    cost[layout.use_columns] = np.where(of_item, sign * layout.unit_g / 100, 0.0)
    session = backend.open(formulation.program)
    try:
        session.set_cost(cost)
        raw = session.solve(Limits(deadline))
    finally:
        session.close()
    if raw.x is None or raw.status is not Status.OPTIMAL:
        return None
    return max(0.0, 100 * sign * float(cost @ raw.x))
