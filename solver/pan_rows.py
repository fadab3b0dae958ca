"""Rows of the pans: that rendered fat is at least each line, what a spoon finds, and, where needed, that it is no more.

Without the last, a programme may pretend that more fat rendered than does, which pays where fat or energy has an upper
bound. One selector for each line makes the greatest of them exact:  line_k(q) - D >= -M_k (1 - z_k),  sum z_k >= 1.
"""

from dataclasses import dataclass

import numpy as np

from solver.layout import Layout
from solver.numerics import FloatArray
from solver.pans import Pan


@dataclass(frozen=True, slots=True, eq=False)
class DenseRows:
    """matrix @ x >= least."""

    matrix: FloatArray
    least: FloatArray


def pan_rows(layout: Layout, most_g: FloatArray) -> DenseRows:
    """The rows of all pans. most_g: (uses,), the most grams of each use."""
    rows: list[tuple[FloatArray, float]] = []
    for place, number in enumerate(layout.pan_numbers):
        pan, column = layout.board.pans[number], layout.pan_columns.start + place
        rows += [(_line(layout, pan, line, column), 0.0) for line in pan.rising]
    rows += [(_spoonable(layout, number), 0.0) for number, pan in enumerate(layout.board.pans) if pan.spoon is not None]
    rows += _exact_rows(layout, most_g)
    if not rows:
        return DenseRows(np.empty((0, layout.width)), np.empty(0))
    return DenseRows(np.array([row for row, _ in rows]), np.array([least for _, least in rows]))


def most_rendered100(pan: Pan, most_g: FloatArray) -> float:
    """The most that can render in a pan, in units of 100 g."""
    if pan.settled is not None:
        return pan.settled.rendered_g / 100
    slopes = pan.lines.max(axis=0, initial=0.0) if len(pan.lines) else pan.own
    return float(np.maximum(slopes, 0.0) @ most_g[pan.members]) / 100


def _line(layout: Layout, pan: Pan, line: FloatArray, column: int) -> FloatArray:
    """D less a line over the members."""
    row = np.zeros(layout.width)
    row[pan.members] = -line * layout.unit_g[pan.members] / 100
    row[column] = 1.0
    return row


def _spoonable(layout: Layout, number: int) -> FloatArray:
    """What a spoon finds, less what is spooned back."""
    pan, row = layout.board.pans[number], np.zeros(layout.width)
    assert pan.spoon is not None  # noqa: S101  the caller has looked
    row[pan.spoon] = -layout.unit_g[pan.spoon] / 100
    if pan.has_column:
        row[layout.pan_columns.start + layout.pan_numbers.index(number)] = pan.spoonable
    else:
        row[pan.members] = pan.spoonable * pan.own * layout.unit_g[pan.members] / 100
    return row


def _exact_rows(layout: Layout, most_g: FloatArray) -> list[tuple[FloatArray, float]]:
    rows: list[tuple[FloatArray, float]] = []
    first = layout.selector_columns.start
    for number in layout.exact:
        pan = layout.board.pans[number]
        column = layout.pan_columns.start + layout.pan_numbers.index(number)
        for selector, line in enumerate(pan.lines, first):
            row = -_line(layout, pan, line, column)
            # The furthest that any other line can be above this one, for the most of every member.
            above = np.maximum(pan.lines - line, 0.0) @ most_g[pan.members] / 100
            row[selector] = -float(above.max())
            rows.append((row, row[selector]))
        one = np.zeros(layout.width)
        one[first : first + len(pan.lines)] = 1.0
        rows.append((one, 1.0))
        first += len(pan.lines)
    return rows
