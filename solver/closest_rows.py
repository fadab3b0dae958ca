"""A base dish in the programme.

For each use with amount q and base b, in column units,

d = |q - b|, as a part of its normaliser n:    n d + q >= b    and    n d - q >= -b,
c = 1 where it changed:                        b c + q >= b    and    (most - b) c - q >= -b.
"""

import math

import numpy as np

from solver.brief import Brief, Preference
from solver.closest import SAME_G, Near
from solver.layout import Layout
from solver.limits import largest_g, printable
from solver.numerics import PRINTED_STEP_G, ROW_MAGNITUDE, BoolArray, FloatArray
from solver.pantry import Step
from solver.program import Rows
from solver.uses import Use

#: A printed amount this near to the base's is the base's, which need not be a multiple of 0.1 g.
SAME_PRINTED_G = PRINTED_STEP_G - 1e-9

#: Rows of each use.
ROWS_EACH = 4


def near_of(brief: Brief, uses: tuple[Use, ...], unit_g: FloatArray, weighed: BoolArray, *, grid: bool) -> Near | None:
    """The base dish over these uses; None where the brief does not ask to stay close to one."""
    if brief.base is None or Preference.CLOSEST not in brief.prefer:
        return None
    names = [(use.item.name, use.component.name) for use in uses]
    found = [brief.base.by_use.get(name) for name in names]
    grams = np.array([0.0 if amount is None else amount.grams for amount in found])
    limits = [_most_g(brief, use) for use in uses]
    posed = [
        _posed(g, unit, most, is_whole=grid or not is_weighed)
        for g, unit, most, is_weighed in zip(grams, unit_g, limits, weighed, strict=True)
    ]
    return Near(
        posed=np.array(posed),
        grams=grams,
        normaliser_g=np.array([brief.base.normaliser_g(name) for name in names]),
        weight=np.array([brief.base.weight(name) for name in names]),
        words=tuple(None if amount is None else amount.words for amount in found),
    )


def _most_g(brief: Brief, use: Use) -> float:
    return largest_g(brief) if use.is_spoon else printable(use.item, largest_g(brief))[1]


def _posed(grams: float, unit_g: float, most_g: float, *, is_whole: bool) -> float:
    """In column units. A stock of just the base amount was moved inwards by less than 0.1 g; so is the base then."""
    if most_g < grams < most_g + PRINTED_STEP_G:
        grams = most_g
    return math.floor(grams / unit_g + 1e-9) if is_whole else grams / unit_g


def with_base(layout: Layout, rows: Rows, least: FloatArray, most_g: FloatArray) -> tuple[Rows, FloatArray]:
    """Append the rows of the base dish, where there is one. most_g: (uses,), the most grams of each use."""
    near = layout.near
    if near is None:
        return rows, least
    count = len(layout.uses)
    dense, ends = np.zeros((ROWS_EACH * count, layout.width)), np.zeros(ROWS_EACH * count)
    normaliser = near.normaliser_g / layout.unit_g
    most = np.maximum(most_g / layout.unit_g, near.posed)
    for n in range(count):
        away, changed, base = layout.away_columns.start + n, layout.changed_columns.start + n, near.posed[n]
        upward, downward, dropped, raised = range(ROWS_EACH * n, ROWS_EACH * (n + 1))
        dense[upward, [n, away]], ends[upward] = (1.0, normaliser[n]), base
        dense[downward, [n, away]], ends[downward] = (-1.0, normaliser[n]), -base
        dense[dropped, [n, changed]], ends[dropped] = (1.0, base), base
        dense[raised, [n, changed]], ends[raised] = (-1.0, most[n] - base), -base
    scale = np.minimum(1.0, ROW_MAGNITUDE / np.abs(dense).max(axis=1, initial=1e-9))
    return rows.below(Rows.from_dense(dense * scale[:, None])), np.append(least, ends * scale)


def set_away(layout: Layout, x: FloatArray, amounts: FloatArray) -> None:
    """Fill in what the base's columns are for given amounts (uses,), in column units."""
    near = layout.near
    if near is None:
        return
    grams = amounts * layout.unit_g
    off = np.where(near.is_base(grams, SAME_PRINTED_G), 0.0, np.abs(grams - near.grams))
    x[layout.away_columns] = off / near.normaliser_g
    x[layout.changed_columns] = off > 0


def as_in_base(layout: Layout, amounts: FloatArray) -> FloatArray:
    """Printed amounts (uses,), with those that are the base's to within 0.1 g exactly as they are there."""
    near = layout.near
    if near is None:
        return amounts
    is_base = near.is_base(amounts * layout.unit_g, SAME_PRINTED_G) & layout.weighed
    return np.where(is_base, near.grams / layout.unit_g, amounts)


def kept_of_base(layout: Layout, use: int, amount: float) -> Step | None:
    """The base amount as a single step, in its own words, where a printed amount is just that; else None."""
    near = layout.near
    if near is None or layout.uses[use].is_spoon:
        return None
    grams = float(near.grams[use])
    if grams <= 0 or abs(amount * layout.unit_g[use] - grams) > SAME_G:
        return None
    return near.words[use] or Step(round(grams, 6), "g", grams)
