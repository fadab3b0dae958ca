"""How little and how much: limits of items in amounts that can be printed, and from them the bounds of all columns."""

import math
from dataclasses import dataclass

import numpy as np

from solver.brief import Brief
from solver.layout import Layout
from solver.numerics import LARGEST_PORTION_G, PRINTED_STEP_G, FloatArray
from solver.pan_rows import most_rendered100
from solver.pantry import PantryItem


@dataclass(frozen=True, slots=True, eq=False)
class StockLimits:
    """least_g, most_g: (items,), of each item in all components together."""

    least_g: FloatArray
    most_g: FloatArray

    def most_of_uses(self, layout: Layout, largest: float) -> FloatArray:
        """The most grams of each use, (uses,); `largest` for spoons."""
        if layout.board.is_one_each:
            return self.most_g
        return np.array([largest if use.number is None else self.most_g[use.number] for use in layout.uses])


def largest_g(brief: Brief) -> float:
    """Most grams of an item that the brief leaves without a limit."""
    return LARGEST_PORTION_G * brief.portions


def stock_limits(brief: Brief, layout: Layout) -> StockLimits:
    """The limits of the items, moved inwards to amounts that can be printed."""
    largest = largest_g(brief)
    step = np.array([PRINTED_STEP_G if item.step is None else item.step.grams for item in layout.items])
    least = np.array([item.at_least_g for item in layout.items])
    # None becomes NaN, which `fmin` passes over.
    on_hand = np.array([item.on_hand_g for item in layout.items], dtype=np.float64)
    at_most = np.array([item.at_most_g for item in layout.items], dtype=np.float64)
    most = np.fmin(np.fmin(on_hand, at_most), largest)
    # As `printable` has it of one item.
    return StockLimits(np.ceil(least / step - 1e-9) * step, np.floor(most / step + 1e-9) * step)


def column_bounds(layout: Layout, stock: StockLimits, most_g: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Bounds of all columns: uses inside what can be printed, switches, misses of wishes open, of musts shut.

    most_g: (uses,), how much of each use the pans are prepared for.
    """
    lower, upper = np.zeros(layout.width), np.ones(layout.width)
    _bound_uses(layout, stock, lower, upper)
    _bound_pans(layout, most_g, lower, upper)
    open_miss = [np.inf if side.target.priority is not None else 0.0 for side in layout.sides]
    upper[layout.miss_columns] = open_miss
    upper[layout.deviation_column] = np.inf
    upper[layout.away_columns] = np.inf
    return lower, upper


def _bound_uses(layout: Layout, stock: StockLimits, lower: FloatArray, upper: FloatArray) -> None:
    """All but the spoons, which come last."""
    if layout.board.is_one_each:
        numbers, alone = np.arange(layout.board.items), np.ones(layout.board.items, dtype=np.bool_)
    else:
        uses_of_item = np.array([len(uses) for uses in layout.board.by_item], dtype=np.intp)
        numbers = np.repeat(np.arange(layout.board.items), uses_of_item)
        alone = (uses_of_item == 1)[numbers]
    unit_g, counted = layout.unit_g[: len(numbers)], slice(0, len(numbers))
    # Where an item has several uses, a row says the least of their sum.
    lower[counted] = np.where(alone, stock.least_g[numbers] / unit_g, 0.0)
    upper[counted] = stock.most_g[numbers] / unit_g


def _bound_pans(layout: Layout, most_g: FloatArray, lower: FloatArray, upper: FloatArray) -> None:
    for column, number in enumerate(layout.pan_numbers, layout.pan_columns.start):
        pan = layout.board.pans[number]
        lower[column] = 0.0 if pan.settled is None else pan.settled.rendered_g / 100
        upper[column] = most_rendered100(pan, most_g)
    for pan in layout.board.pans:
        if pan.spoon is not None:
            found_g = 100 * pan.spoonable * most_rendered100(pan, most_g)
            found = math.floor(found_g / layout.unit_g[pan.spoon] + 1e-9)
            most = pan.component.most_teaspoons
            upper[pan.spoon] = found if most is None else min(found, most)
            lower[pan.spoon] = pan.component.least_teaspoons  # more than a spoon finds is refused by its row
            upper[pan.spoon] = max(upper[pan.spoon], lower[pan.spoon])


def printable(item: PantryItem, largest: float) -> tuple[float, float]:
    """The least and most of an item in grams, moved inwards to amounts that can be printed."""
    step = PRINTED_STEP_G if item.step is None else item.step.grams
    most = min(most for most in (item.on_hand_g, item.at_most_g, largest) if most is not None)
    # A billionth of a step is noise of a conversion, not an amount.
    return math.ceil(item.at_least_g / step - 1e-9) * step, math.floor(most / step + 1e-9) * step
