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
from solver.chain import NO_MISS, Chain, ChainEnd
from solver.closest_rows import as_in_base
from solver.deadline import Deadline
from solver.formulate import Formulation, formulate
from solver.layout import Layout
from solver.levels import Level, levels
from solver.missing import count
from solver.numerics import FEASIBILITY, PRINTED_STEP_G, VERIFICATION, BoolArray, FloatArray

#: Rounds of narrowing: a re-solve may use other items, whose rounding then counts too.
ROUNDS = 6

#: An amount this near to a printable one is that one.
NOISE = 1e-9


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
    amounts, wanted = rounded(formulation, end.x), [each.level for each in end.solved]
    for sides in dict.fromkeys((met_sides(formulation, end.x), musts(formulation))):
        if meets(formulation, amounts, sides):
            return Printed(amounts, end.freed)
        for integer, held in _attempts(formulation, end.x):
            found = _narrowed(chain, formulation, wanted, _Attempt(integer, held, end.x, sides), deadline)
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
    chain: Chain, formulation: Formulation, wanted: Sequence[Level], attempt: _Attempt, deadline: Deadline
) -> Printed | None:
    in_use = _rounding_items(formulation, attempt.x)
    for _ in range(ROUNDS):
        row_lower = formulation.program.row_lower + rounding_margin(formulation, in_use, attempt.sides)
        chain.restart(Bounds(row_lower, formulation.program.row_upper, *attempt.held), attempt.integer)
        end = chain.run(wanted, deadline)
        if end.x is None:
            return None
        amounts = rounded(formulation, end.x)
        if meets(formulation, amounts, attempt.sides):
            return Printed(amounts, end.freed)
        in_use = in_use | _rounding_items(formulation, end.x)
    return None


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


def musts(formulation: Formulation) -> frozenset[int]:
    """Numbers of the sides of musts."""
    sides = formulation.layout.sides
    return frozenset(number for number, side in enumerate(sides) if side.target.priority is None)


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


def meets_musts(formulation: Formulation, amounts: FloatArray) -> bool:
    """Whether amounts (uses,) are inside every must, stock, pan and least amount, to half of `verify`'s tolerance."""
    return meets(formulation, amounts, musts(formulation))


def meets(formulation: Formulation, amounts: FloatArray, sides: frozenset[int]) -> bool:
    """The same of these sides in place of the musts."""
    layout = formulation.layout
    grams100, rendered100 = amounts * layout.unit_g / 100.0, layout.rendered100(amounts)
    return (
        all(
            side.left(grams100, rendered100) >= side.least - VERIFICATION / 2 * max(1.0, abs(side.least))
            for number, side in enumerate(layout.sides)
            if number in sides
        )
        and _spoons_hold(layout, grams100, rendered100)
        and all(_stock_holds(layout, number, grams100) for number in {*layout.switched, *layout.shared})
        and _choices_hold(layout, amounts)
    )


def with_spoons_found(formulation: Formulation, amounts: FloatArray) -> FloatArray:
    """The same amounts with no more spooned back than a spoon finds. amounts: (uses,), in column units."""
    layout, found = formulation.layout, amounts.copy()
    for pan, rendered in zip(layout.board.pans, layout.rendered100(amounts), strict=True):
        if pan.spoon is not None:
            most = np.floor(100 * pan.spoonable * rendered / layout.unit_g[pan.spoon] + NOISE)
            found[pan.spoon] = min(found[pan.spoon], most)
    return found


def _spoons_hold(layout: Layout, grams100: FloatArray, rendered100: FloatArray) -> bool:
    return all(
        pan.spoon is None or grams100[pan.spoon] <= pan.spoonable * rendered + NOISE
        for pan, rendered in zip(layout.board.pans, rendered100, strict=True)
    )


def _choices_hold(layout: Layout, amounts: FloatArray) -> bool:
    if not layout.choices:
        return True
    used = {use.item.name for use, amount in zip(layout.uses, amounts, strict=True) if amount > 0 and not use.is_spoon}
    return all(choice.holds(used) for choice in layout.choices)


def _stock_holds(layout: Layout, number: int, grams100: FloatArray) -> bool:
    item, grams = layout.items[number], 100 * float(grams100[list(layout.board.by_item[number])].sum())
    most = min((most for most in (item.on_hand_g, item.at_most_g) if most is not None), default=np.inf)
    if not item.at_least_g - NOISE <= grams <= most + NOISE:
        return False
    return grams <= NOISE or grams >= (item.least_when_used_g or 0.0) - NOISE


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
