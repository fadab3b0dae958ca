"""From an optimum to amounts that a kitchen can read off a scale, and that still meet every must.

Steps are snapped to whole numbers; everything else is rounded to 0.1 g. Where rounding would break a must, the bands
are narrowed by the worst that the rounding of the items in use can do, and the levels are solved again inside: then no
rounding can break them. Where the narrowed bands have no plan, the amounts are put on the grid of what can
be printed, which is exact, and slower. The bound of each level stays that of the bands as asked.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from solver.backends.base import Backend, Status
from solver.certificate import Bounds
from solver.chain import Chain, ChainEnd
from solver.deadline import Deadline
from solver.formulate import Formulation, formulate
from solver.levels import Level, levels
from solver.missing import count
from solver.numerics import FEASIBILITY, PRINTED_STEP_G, VERIFICATION, BoolArray, FloatArray

#: Rounds of narrowing: a re-solve may use other items, whose rounding then counts too.
ROUNDS = 6

#: An amount this near to a printable one is that one.
NOISE = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Printed:
    """amounts: (items,), in the units of the formulation it was asked for; None when none were found.

    freed: centres that do not count. status: OPTIMAL with amounts; INFEASIBLE where the grid proves that none exist.
    """

    amounts: FloatArray | None
    freed: frozenset[int]
    status: Status = Status.OPTIMAL


def print_amounts(
    chain: Chain, end: ChainEnd, formulation: Formulation, backend: Backend, deadline: Deadline
) -> Printed:
    """Find printable amounts near the end of a chain. `end` holds at least one solved level."""
    assert end.x is not None  # noqa: S101  the chain has ended with a point
    amounts = rounded(formulation, end.x)
    if meets_musts(formulation, amounts):
        return Printed(amounts, end.freed)
    wanted = levels(formulation)
    for integer, held in _attempts(formulation, end.x):
        found = _narrowed(chain, formulation, wanted, _Attempt(integer, held, end.x), deadline)
        if found is not None:
            return found
    return _on_grid(formulation, backend, deadline)


@dataclass(frozen=True, slots=True, eq=False)
class _Attempt:
    """integer: which columns stay whole; held: bounds of the columns; x: where the items in use are first read."""

    integer: BoolArray
    held: tuple[FloatArray, FloatArray]
    x: FloatArray


def _attempts(formulation: Formulation, x: FloatArray) -> list[tuple[BoolArray, tuple[FloatArray, FloatArray]]]:
    """First with the whole numbers that were found, then, if there are any, with all of them free again."""
    program = formulation.program
    free = (program.column_lower, program.column_upper)
    if not program.has_integers:
        return [(program.integer, free)]
    whole = np.round(x)
    held = tuple(np.where(program.integer, whole, bound) for bound in free)
    return [(np.zeros_like(program.integer), (held[0], held[1])), (program.integer, free)]


def _narrowed(
    chain: Chain, formulation: Formulation, wanted: Sequence[Level], attempt: _Attempt, deadline: Deadline
) -> Printed | None:
    in_use = _rounding_items(formulation, attempt.x)
    for _ in range(ROUNDS):
        row_lower = formulation.program.row_lower + rounding_margin(formulation, in_use)
        chain.restart(Bounds(row_lower, formulation.program.row_upper, *attempt.held), attempt.integer)
        end = chain.run(wanted, deadline)
        if end.x is None:
            return None
        amounts = rounded(formulation, end.x)
        if meets_musts(formulation, amounts):
            return Printed(amounts, end.freed)
        in_use = in_use | _rounding_items(formulation, end.x)
    return None


def _on_grid(formulation: Formulation, backend: Backend, deadline: Deadline) -> Printed:
    grid = formulate(formulation.brief, count(formulation.brief), grid=True)
    chain = Chain(backend, grid)
    try:
        end = chain.run(levels(grid), deadline)
    finally:
        chain.close()
    if end.x is None:
        return Printed(None, end.freed, end.status)
    found = np.round(end.x[grid.layout.item_columns]) * grid.layout.unit_g / formulation.layout.unit_g
    amounts = rounded(formulation, found)
    # An integer solver keeps its rows to a tolerance only; what it lets slip is not an answer.
    return (
        Printed(amounts, end.freed) if meets_musts(formulation, amounts) else Printed(None, end.freed, Status.STOPPED)
    )


def rounded(formulation: Formulation, x: FloatArray) -> FloatArray:
    """Item amounts as they are printed, (items,), in column units: whole steps, or multiples of 0.1 g."""
    layout, program = formulation.layout, formulation.program
    items = layout.item_columns
    grain = np.where(layout.weighed, PRINTED_STEP_G / layout.unit_g, 1.0)
    amounts = np.round(x[items] / grain) * grain
    return np.clip(amounts, program.column_lower[items], program.column_upper[items])


def rounding_margin(formulation: Formulation, in_use: BoolArray, *, wishes: bool = False) -> FloatArray:
    """The most that rounding the items in use can take from the row of each must (and wish), (rows,); else 0."""
    layout, rows = formulation.layout, formulation.program.rows
    half = np.where(in_use, PRINTED_STEP_G / 2 / layout.unit_g, 0.0)
    worst = replace(rows, value=np.abs(rows.value)).times(np.append(half, np.zeros(layout.width - len(half))))
    margin = np.zeros(rows.height)
    for number, side in enumerate(layout.sides):
        if wishes or side.target.priority is None:
            margin[number] = worst[number] + 2 * FEASIBILITY
    return margin


def meets_musts(formulation: Formulation, amounts: FloatArray) -> bool:
    """Whether item amounts (column units) are inside every must and least amount, to half of `verify`'s tolerance."""
    grams100 = amounts * formulation.layout.unit_g / 100.0
    return all(
        float(side.weights @ grams100) >= side.least - VERIFICATION / 2 * max(1.0, abs(side.least))
        for side in formulation.layout.sides
        if side.target.priority is None
    ) and _switches_hold(formulation, amounts)


def _switches_hold(formulation: Formulation, amounts: FloatArray) -> bool:
    layout = formulation.layout
    return all(
        amounts[n] == 0 or amounts[n] * layout.unit_g[n] >= (layout.items[n].least_when_used_g or 0.0) - NOISE
        for n in layout.switched
    )


def binding_targets(formulation: Formulation, amounts: FloatArray) -> frozenset[str]:
    """Ids of targets at an end of their band, as near as printing the items in use allows.

    That is twice the margin: the bands were narrowed by it, and rounding may move an amount as far again.
    """
    layout = formulation.layout
    in_use = np.asarray((amounts > 0) & layout.weighed, dtype=np.bool_)
    margin = rounding_margin(formulation, in_use, wishes=True)
    grams100 = amounts * layout.unit_g / 100.0
    return frozenset(
        side.target.id
        for number, side in enumerate(layout.sides)
        if abs(float(side.weights @ grams100) - side.least) * layout.row_scale[number] <= 2 * margin[number]
    )


def _rounding_items(formulation: Formulation, x: FloatArray) -> BoolArray:
    """Weighed items whose amount is not already one that can be printed."""
    amounts = x[formulation.layout.item_columns]
    moved = np.abs(rounded(formulation, x) - amounts) > NOISE
    return np.asarray(moved & formulation.layout.weighed, dtype=np.bool_)
