"""One end of a range: how far an amount or a ratio can go while the musts of a search hold.

A ratio N/D is sought by Dinkelbach's iteration (Management Science 1967;13:492-498, from memory): the most of
N - r D says by how much r can still grow; r becomes the ratio of what was found, until nothing is gained. That works
for whole numbers as well, ends after a few rounds, and its last solve is the proof: no dish has N - r D above nothing.
"""

from dataclasses import dataclass

import numpy as np

from solver.backends.base import Status
from solver.bands import Side, collected
from solver.certificate import NEGLIGIBLE
from solver.conflict import NO_PLAN
from solver.formulate import Formulation
from solver.limits import largest_g
from solver.numerics import INTEGRALITY, PRINTED_STEP_G, VERIFICATION, FloatArray
from solver.outcome import Checked, ProofStatus, Quantity
from solver.quantities import QUANTITY
from solver.quantities import Quantity as Wanted
from solver.reach_outcome import End
from solver.reach_search import Farthest, Row, Search, Sum
from solver.targets import Target

#: Rounds of Dinkelbach's iteration; it doubles the right digits with each.
ROUNDS = 40

#: What is gained in a round, as a part of the ratio, and in grams or kcal, from which on nothing is.
CONVERGED, NO_GAIN = 1e-10, 1e-8

#: In the ratio's own unit: how far aside it is looked to tell the denominator of what was found.
ASIDE = 0.01

_NO_TIME = "The time ended first."
_NO_DISH = "The other musts cannot be met together, so no dish is left to ask about."


@dataclass(frozen=True, slots=True)
class Direction:
    """Which end is sought. sign: 1 for the most, -1 for the least. batches: what a value is divided by."""

    sign: float
    batches: float = 1.0


def nothing(note: str, status: ProofStatus = ProofStatus.OPTIMAL) -> End:
    """An end without a value."""
    return End(None, status, Checked.CLAIM, None, note)


def failed(status: Status) -> End:
    """The end where a solver found no dish."""
    return nothing(_NO_DISH) if status in NO_PLAN else nothing(_NO_TIME, ProofStatus.BEST_FOUND)


def amount_end(search: Search, wanted: Sum | Row, towards: Direction) -> End:
    """How far an amount can go. wanted: what counts, times the sign."""
    found = search.most(wanted)
    if not isinstance(found, Farthest):
        return failed(found)
    return end_of(found, towards.sign * found.most / towards.batches, 1 / towards.batches)


def end_of(found: Farthest, value: float, per_unit: float) -> End:
    """The end that a search found; without a value where only the largest portion stands in its way."""
    endless, solved = unlimited(found), found.solved
    gap = None if found.beyond is None else max(found.beyond - found.most, 0.0) * per_unit
    note = None
    if endless:
        note = (
            f"Nothing limits {', '.join(endless)}; with {largest_g(found.formulation.brief) / 1000:g} kg of each in "
            f"the batch it would be {value:.6g}."
        )
    amounts = amounts_at(found.formulation, solved.x)
    if not amounts:
        note = "This is an empty plate."
    return End(None if endless else value, solved.status, solved.checked, gap, note, amounts)


def ratio_ends(search: Search, of: Wanted, target: Target) -> tuple[End, End]:
    """Least and most of a ratio."""
    denominator = denominator_of(of, target)
    largest, least = search.most(denominator), search.most(denominator.times(-1))
    if not isinstance(largest, Farthest):
        return failed(largest), failed(largest)
    if largest.most <= VERIFICATION:
        undefined = nothing("Every dish has nothing to divide by, so the ratio is undefined.")
        return undefined, undefined
    safe = -least.beyond if isinstance(least, Farthest) and least.beyond is not None else 0.0
    low, high = (_ratio_end(search, of, target, largest, (sign, safe)) for sign in (-1.0, 1.0))
    return low, high


def _ratio_end(search: Search, of: Wanted, target: Target, start: Farthest, asked: tuple[float, float]) -> End:
    """asked: the sign, and the least denominator that the musts allow, or what is below it."""
    sign, safe = asked
    ended = iterated(search, of, target, start, sign)
    if ended.last is None:
        late, best = failed(ended.status), ended.best
        amounts = amounts_at(best.formulation, best.solved.x)
        return End(ended.ratio, late.status, late.checked, None, late.note, amounts)
    if ended.is_endless:
        return nothing("It grows without end: a dish can have nothing to divide by.")
    least = safe if safe > NEGLIGIBLE else value_at(ended.best, denominator_of(of, target))
    return _closed(ended.best, ended.last, ended.ratio, of.factor / least)


@dataclass(frozen=True, slots=True, eq=False)
class Iterated:
    """Where the iteration ended. best: the dish with the ratio. last: the solve that proves it; None without time.

    is_endless: whether a dish has nothing to divide by and something to divide.
    """

    best: Farthest
    ratio: float
    last: Farthest | None
    status: Status = Status.OPTIMAL
    is_endless: bool = False


def iterated(search: Search, of: Wanted, target: Target, start: Farthest, sign: float) -> Iterated:
    """The most (sign 1) or least (-1) of a ratio. start: a dish that has something to divide by."""
    best = found = start
    here = of.factor * value_at(start, numerator_of(of, target)) / value_at(start, denominator_of(of, target))
    for _ in range(ROUNDS):
        step = search.most(above(of, target, here, sign))
        if not isinstance(step, Farthest):
            return Iterated(best, here, None, step)
        found = step
        divided = max(_divided(found, of, target, here, sign), 0.0)
        if found.most <= max(CONVERGED * max(1.0, here) * divided, NO_GAIN) or _is_settled(found):
            break
        if divided <= NEGLIGIBLE:
            return Iterated(best, here, found, is_endless=True)
        best, here = found, here + sign * found.most / divided
    return Iterated(best, here, found)


def _is_settled(found: Farthest) -> bool:
    """Whether whole numbers leave no more than the solver's own gap to gain."""
    if found.beyond is None or found.solved.checked is Checked.CERTIFICATE:
        return False
    return found.most <= found.beyond - found.most


def _closed(best: Farthest, found: Farthest, value: float, per_unit: float) -> End:
    """The end with the value of the dish before the last solve, which proves it."""
    beyond = None if found.beyond is None else max(found.beyond, 0.0) * per_unit
    endless = unlimited(found) and unlimited(best)
    note = f"Nothing limits {', '.join(endless)} but the most that a portion may hold." if endless else None
    status = found.solved.status
    if beyond is not None and beyond <= VERIFICATION * max(1.0, value):
        status = ProofStatus.OPTIMAL
    elif status is ProofStatus.OPTIMAL:
        status = ProofStatus.WITHIN_GAP
    return End(value, status, found.solved.checked, beyond, note, amounts_at(best.formulation, best.solved.x))


def above(of: Wanted, target: Target, ratio: float, sign: float) -> Sum:
    """Sign * (N - ratio D)."""
    return Sum(((collected(of, ratio), target.basis),)).times(sign)


def _divided(found: Farthest, of: Wanted, target: Target, ratio: float, sign: float) -> float:
    """The denominator of what was found, in the unit of its ratio; with several sources of fat, no less than it."""
    aside = value_at(found, above(of, target, ratio - sign * ASIDE, sign))
    return (aside - value_at(found, above(of, target, ratio, sign))) / ASIDE


def numerator_of(of: Wanted, target: Target) -> Sum:
    """What a ratio divides."""
    return Sum(((of.numerator, target.basis),))


def denominator_of(of: Wanted, target: Target) -> Sum:
    """What a ratio divides by."""
    return Sum(((of.denominator or {}, target.basis),))


def value_at(found: Farthest, wanted: Sum) -> float:
    """What a sum comes to at a point."""
    return float(wanted.weights(found.formulation) @ found.solved.x)


def unlimited(found: Farthest) -> list[str]:
    """Names of the items without a limit that went as far as any item may, where the value leans on it."""
    formulation, solved = found.formulation, found.solved
    layout, largest = formulation.layout, largest_g(formulation.brief)
    grams = solved.x[layout.use_columns] * layout.unit_g
    leaning = _leaning(found)
    names = []
    for item, uses in zip(layout.items, layout.board.by_item, strict=True):
        step = PRINTED_STEP_G if item.step is None else item.step.grams
        free = item.on_hand_g is None and item.at_most_g is None
        if free and grams[list(uses)].sum() >= largest - step and leaning[list(uses)].any():
            names.append(item.name)
    return names


def _leaning(found: Farthest) -> FloatArray:
    """Which uses, (uses,), an optimum presses against their upper bound or their item's stock; all where unknown."""
    layout, solved = found.formulation.layout, found.solved
    if solved.row_dual is None:
        return np.ones(len(layout.uses))
    rows = found.formulation.program.rows
    reduced = solved.level.cost - rows.transposed_times(solved.row_dual[: rows.height])
    leaning = (reduced[layout.use_columns] < -NEGLIGIBLE).astype(np.float64)
    for number, multiplier in zip(layout.shared, solved.row_dual[layout.most_rows], strict=True):
        leaning[list(layout.board.by_item[number])] += float(abs(multiplier) > NEGLIGIBLE)
    return leaning


def amounts_at(formulation: Formulation, x: FloatArray) -> tuple[Quantity, ...]:
    """The grams of a point, not rounded, in the order of the items; steps where the point has whole ones."""
    layout = formulation.layout
    found = []
    for use, amount, unit_g, weighed in zip(layout.uses, x, layout.unit_g, layout.weighed, strict=False):
        whole = not weighed and abs(amount - round(amount)) <= INTEGRALITY
        grams = float((round(amount) if whole else amount) * unit_g)
        if grams > VERIFICATION:
            found.append(Quantity(use.item, grams, round(amount) if whole else None, use.placed))
    return tuple(found)


def plain_sum(target: Target) -> Sum:
    """All of an amount, for the batch."""
    return Sum(((QUANTITY[target.of].numerator, target.basis),))


def side_row(side: Side, formulation: Formulation) -> FloatArray:
    """What a side counts, over all columns."""
    layout = formulation.layout
    row = np.zeros(layout.width)
    row[layout.use_columns] = side.weights * layout.unit_g / 100.0
    row[layout.pan_columns] = side.pans[list(layout.pan_numbers)]
    return row
