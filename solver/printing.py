"""From an optimum to amounts that a kitchen can read off a scale, and that still meet every must.

Steps are snapped to whole numbers; everything else is rounded to 0.1 g. Where rounding would break a must, the bands
are narrowed by the worst that the rounding of the items in use can do, and the levels are solved again inside: then no
rounding can break them. Where the narrowed bands have no plan, the amounts are put on the grid of what can
be printed, which is exact, and slower. The bound of each level stays that of the bands as asked.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from solver.backends.base import Backend, Status
from solver.certificate import Bounds
from solver.chain import NO_MISS, Chain
from solver.closest_rows import as_in_base
from solver.deadline import Deadline
from solver.formulate import Formulation, formulate
from solver.levels import levels
from solver.meets import NOISE, meets, meets_musts, musts
from solver.missing import count
from solver.numerics import FEASIBILITY, PRINTED_STEP_G, BoolArray, FloatArray
from solver.solved import ChainEnd, Solved

#: Rounds of narrowing: a re-solve may use other items, whose rounding then counts too.
ROUNDS = 6


@dataclass(frozen=True, slots=True, eq=False)
class Printed:
    """amounts: (uses,), in the units of the formulation it was asked for; None when none were found.

    freed: centres that do not count. status: OPTIMAL with amounts; INFEASIBLE where the grid proves that none exist.
    """

    amounts: FloatArray | None
    freed: frozenset[int]
    status: Status = Status.OPTIMAL


def print_amounts(
    chain: Chain, end: ChainEnd, formulation: Formulation, backend: Backend, deadline: Deadline
) -> Printed:
    """Find printable amounts near the end of a chain. `end` holds at least one solved level.

    Wishes that the end meets are kept like musts where that is possible at all.
    """
    assert end.x is not None  # noqa: S101  the chain has ended with a point
    amounts = rounded(formulation, end.x)
    for sides in dict.fromkeys((met_sides(formulation, end.x), musts(formulation))):
        if meets(formulation, amounts, sides):
            return Printed(amounts, end.freed)
        for integer, held in _attempts(formulation, end.x):
            found = _narrowed(chain, formulation, end.solved, _Attempt(integer, held, end.x, sides), deadline)
            if found is not None:
                return found
    return _on_grid(formulation, backend, deadline)


@dataclass(frozen=True, slots=True, eq=False)
class _Attempt:
    """integer: which columns stay whole; held: bounds of the columns; x: where the items in use are first read.

    sides: numbers of the sides that rounding may not break.
    """

    integer: BoolArray
    held: tuple[FloatArray, FloatArray]
    x: FloatArray
    sides: frozenset[int]


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
    chain: Chain, formulation: Formulation, solved: Sequence[Solved], attempt: _Attempt, deadline: Deadline
) -> Printed | None:
    in_use = _rounding_items(formulation, attempt.x)
    for _ in range(ROUNDS):
        row_lower = formulation.program.row_lower + rounding_margin(formulation, in_use, attempt.sides)
        bounds = Bounds(row_lower, formulation.program.row_upper, *attempt.held)
        end = _solved_again(chain, bounds, attempt.integer, solved, deadline)
        if end.x is None:
            return None
        amounts = rounded(formulation, end.x)
        if meets(formulation, amounts, attempt.sides):
            return Printed(amounts, end.freed)
        in_use = in_use | _rounding_items(formulation, end.x)
    return None


def _solved_again(
    chain: Chain, bounds: Bounds, integer: BoolArray, solved: Sequence[Solved], deadline: Deadline
) -> ChainEnd:
    """The levels inside other bounds; those that were not sought by themselves come to no more than they were let."""
    held = [(each.level, each.most) for each in solved if each.most is not None]
    if held:
        chain.restart(bounds, integer)
        for level, most in held:
            chain.hold_below(level, most)
        end = chain.run([each.level for each in solved if each.most is None], deadline)
        if end.x is not None:
            return end
    chain.restart(bounds, integer)
    return chain.run([each.level for each in solved], deadline)


def _on_grid(formulation: Formulation, backend: Backend, deadline: Deadline) -> Printed:
    brief, exact, mixtures = formulation.brief, formulation.exact, formulation.mixtures
    grid = formulate(brief, count(brief), grid=True, exact=exact, mixtures=mixtures)
    chain = Chain(backend, grid)
    try:
        end = chain.run(levels(grid), deadline)
    finally:
        chain.close()
    if end.x is None:
        return Printed(None, end.freed, end.status)
    found = np.round(end.x[grid.layout.use_columns]) * grid.layout.unit_g / formulation.layout.unit_g
    amounts = rounded(formulation, found)
    # An integer solver keeps its rows to a tolerance only; what it lets slip is not an answer.
    return (
        Printed(amounts, end.freed) if meets_musts(formulation, amounts) else Printed(None, end.freed, Status.STOPPED)
    )


def rounded(formulation: Formulation, x: FloatArray) -> FloatArray:
    """Amounts of the uses as they are printed, (uses,), in column units: whole steps, or multiples of 0.1 g."""
    layout, program = formulation.layout, formulation.program
    uses = layout.use_columns
    grain = np.where(layout.weighed, PRINTED_STEP_G / layout.unit_g, 1.0)
    amounts = np.round(x[uses] / grain) * grain
    return as_in_base(layout, np.clip(amounts, program.column_lower[uses], program.column_upper[uses]))


def met_sides(formulation: Formulation, x: FloatArray) -> frozenset[int]:
    """Numbers of the sides of musts, and of the wishes that a point meets. x: (columns,)."""
    missed = np.nonzero(x[formulation.layout.miss_columns] > NO_MISS)[0]
    return frozenset(range(len(formulation.layout.sides))) - {int(number) for number in missed}


def rounding_margin(formulation: Formulation, in_use: BoolArray, sides: frozenset[int]) -> FloatArray:
    """The most that rounding the uses in use can take from the row of each of the sides, (rows,); else 0.

    Stock of shared items and what a spoon finds must hold as well.
    """
    layout, rows = formulation.layout, formulation.program.rows
    half = np.where(in_use, PRINTED_STEP_G / 2 / layout.unit_g, 0.0)
    moved = np.zeros(layout.width)
    moved[layout.use_columns] = half
    moved[layout.pan_columns] = [
        float(pan.steepest() @ (half * layout.unit_g)[pan.members]) / 100 for pan in layout.board.pans if pan.has_column
    ]
    worst = rows.magnitudes_times(moved)
    margin = np.zeros(rows.height)
    for number in sides:
        margin[number] = worst[number] + 2 * FEASIBILITY
    for held in (layout.most_rows, layout.least_rows, layout.spoon_rows):
        margin[held] = np.where(worst[held] > 0, worst[held] + 2 * FEASIBILITY, 0.0)
    return margin


def with_spoons_found(formulation: Formulation, amounts: FloatArray) -> FloatArray:
    """The same amounts with no more spooned back than a spoon finds. amounts: (uses,), in column units."""
    layout, found = formulation.layout, amounts.copy()
    for pan, rendered in zip(layout.board.pans, layout.rendered100(amounts), strict=True):
        if pan.spoon is not None:
            most = np.floor(100 * pan.spoonable * rendered / layout.unit_g[pan.spoon] + NOISE)
            found[pan.spoon] = min(found[pan.spoon], most)
    return found


def binding_targets(formulation: Formulation, amounts: FloatArray) -> frozenset[str]:
    """Ids of targets at an end of their band, as near as printing the items in use allows.

    That is twice the margin: the bands were narrowed by it, and rounding may move an amount as far again.
    """
    layout = formulation.layout
    in_use = np.asarray((amounts > 0) & layout.weighed, dtype=np.bool_)
    margin = rounding_margin(formulation, in_use, frozenset(range(len(layout.sides))))
    grams100, rendered100 = amounts * layout.unit_g / 100.0, layout.rendered100(amounts)
    return frozenset(
        side.target.id
        for number, side in enumerate(layout.sides)
        if abs(side.left(grams100, rendered100) - side.least) * layout.row_scale[number] <= 2 * margin[number]
    )


def _rounding_items(formulation: Formulation, x: FloatArray) -> BoolArray:
    """Weighed uses whose amount is not already one that can be printed."""
    amounts = x[formulation.layout.use_columns]
    moved = np.abs(rounded(formulation, x) - amounts) > NOISE
    return np.asarray(moved & formulation.layout.weighed, dtype=np.bool_)
