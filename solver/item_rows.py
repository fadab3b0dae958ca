"""Rows of items: none or at least so much of one, and the stock of one that may go into several components."""

import math

import numpy as np

from solver.layout import Layout
from solver.limits import StockLimits
from solver.numerics import PRINTED_STEP_G, ROW_MAGNITUDE, FloatArray
from solver.pan_rows import pan_rows
from solver.pantry import PantryItem
from solver.program import Rows


def switch_rows(layout: Layout, most_g: FloatArray) -> Rows:
    """For each switched item x, summed over its uses, with switch b:  most b - x >= 0  and  x - least_when_used b >= 0.

    most_g: (uses,), the most grams of each use.
    """
    rows = np.zeros((2 * len(layout.switched), layout.width))
    for place, item in enumerate(layout.switched):
        uses = list(layout.board.by_item[item])
        unit, switch = layout.unit_g[uses[0]], layout.switch_columns.start + place
        most, least = most_g[uses[0]] / unit, least_when_used_g(layout.items[item]) / unit
        most_scale, least_scale = (min(1.0, ROW_MAGNITUDE / max(amount, 1e-9)) for amount in (most, least))
        rows[2 * place, uses], rows[2 * place, switch] = -most_scale, most * most_scale
        rows[2 * place + 1, uses], rows[2 * place + 1, switch] = least_scale, -least * least_scale
    return Rows.from_dense(rows)


def choice_rows(layout: Layout) -> tuple[Rows, FloatArray]:
    """The rows of the choices over the on/off columns. Items that take no part are not used."""
    column = {layout.items[item].name: layout.switch_columns.start + n for n, item in enumerate(layout.switched)}
    posed = [row for choice in layout.choices for row in choice.rows()]
    dense = np.zeros((len(posed), layout.width))
    for place, row in enumerate(posed):
        for name, weight in row.weights.items():
            if name in column:
                dense[place, column[name]] = weight
    return Rows.from_dense(dense), np.array([row.least for row in posed])


def with_stock(layout: Layout, rows: Rows, least: FloatArray, stock: StockLimits) -> tuple[Rows, FloatArray]:
    """Append the stock of shared items: the most of each, then the least."""
    if not layout.shared:
        return rows, least
    dense = np.zeros((len(layout.shared), layout.width))
    for place, item in enumerate(layout.shared):
        uses = list(layout.board.by_item[item])
        dense[place, uses] = layout.unit_g[uses] / 100
    lower, upper = (bound[list(layout.shared)] / 100 for bound in (stock.least_g, stock.most_g))
    scale = np.minimum(1.0, ROW_MAGNITUDE / np.maximum(np.abs(dense).max(axis=1), 1e-9))
    scaled = dense * scale[:, None]
    stacked = rows.below(Rows.from_dense(-scaled)).below(Rows.from_dense(scaled))
    return stacked, np.concatenate((least, -upper * scale, lower * scale))


def with_pans(layout: Layout, rows: Rows, least: FloatArray, most_g: FloatArray) -> tuple[Rows, FloatArray]:
    """Append the rows of the pans."""
    if not layout.board.pans:
        return rows, least
    added = pan_rows(layout, most_g)
    scale = np.minimum(1.0, ROW_MAGNITUDE / np.abs(added.matrix).max(axis=1, initial=1e-9))
    return rows.below(Rows.from_dense(added.matrix * scale[:, None])), np.append(least, added.least * scale)


def least_when_used_g(item: PantryItem) -> float:
    """The least of an item when used, grams, moved up to an amount that can be printed; at least one of those."""
    step = PRINTED_STEP_G if item.step is None else item.step.grams
    return max(math.ceil((item.least_when_used_g or 0.0) / step - 1e-9), 1) * step
