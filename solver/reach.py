"""What can this pantry do? The least and the most of each target's quantity while the other musts hold.

Wishes hold nobody back, so they are dropped; rules of the dish stay. Items that lack a value which the brief's targets
need take no part, as in a plan.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from solver.backends.base import Backend
from solver.bands import batches, sides
from solver.brief import Brief
from solver.deadline import Deadline
from solver.formulate import Formulation
from solver.missing import Counted, count
from solver.numerics import FloatArray
from solver.quantities import QUANTITY
from solver.reach_ends import (
    Direction,
    amount_end,
    denominator_of,
    nothing,
    numerator_of,
    plain_sum,
    ratio_ends,
    side_row,
)
from solver.reach_outcome import End, Range
from solver.reach_search import Search, scaled
from solver.targets import Target, WeightBasis


@dataclass(frozen=True, slots=True, eq=False)
class Pantry:
    """Who answers by when: each range may take an equal part of the time that is left."""

    brief: Brief
    backend: Backend
    deadline: Deadline

    def without(self, *dropped: Target) -> Brief:
        """The brief of the other musts alone, without a preference."""
        gone = {target.id for target in dropped}
        musts = tuple(each for each in self.brief.targets if each.priority is None and each.id not in gone)
        return replace(self.brief, targets=musts, prefer=())

    def counted(self, *asked: Target) -> Counted:
        """What takes part when these are asked for as well."""
        return count(replace(self.brief, targets=(*self.brief.targets, *asked)))


def asked_for(brief: Brief, name: str) -> Target:
    """The target with this id; for the name of a quantity one without a band, per portion as eaten.

    Raises KeyError for anything else.
    """
    found = next((target for target in brief.targets if target.id == name), None)
    return found or Target(name, QUANTITY[name].name)


def reachable(
    brief: Brief, backend: Backend, deadline: Deadline, targets: Sequence[Target] | None = None
) -> tuple[Range, ...]:
    """The range of each of the targets, or of all targets of the brief. The brief must be usable (see `usable`)."""
    wanted = brief.targets if targets is None else tuple(targets)
    return tuple(
        range_of(Pantry(brief, backend, deadline.share(1 / (len(wanted) - number))), target)
        for number, target in enumerate(wanted)
    )


def range_of(pantry: Pantry, target: Target) -> Range:
    """The range of one target."""
    counted = pantry.counted(target)
    why_not = not_countable(pantry.brief, counted, target)
    if why_not is not None:
        return Range(target, nothing(why_not), nothing(why_not), outer=False, left_out=counted.left_out)
    of = QUANTITY[target.of]
    asked = [plain_sum(target)] if of.denominator is None else [numerator_of(of, target), denominator_of(of, target)]
    search = Search(pantry.without(target), counted, pantry.backend, pantry.deadline, asked)
    try:
        if of.denominator is not None:
            least, most = ratio_ends(search, of, target)
        else:
            least, most = _amount_ends(pantry, counted, search, target)
    finally:
        search.close()
    return Range(target, least, most, search.outer, counted.left_out)


def not_countable(brief: Brief, counted: Counted, *targets: Target) -> str | None:
    """Why these cannot be counted at all; None where they can."""
    forced = {item.name for item in brief.pantry if item.at_least_g > 0}
    for out in counted.left_out:
        if out.item in forced:
            return f"{out.item} must be used, but has no value for {', '.join(out.lacks)}."
    if not counted.items:
        return "Every item lacks a value that is needed."
    mixes = [part.name for part in brief.components if part.is_mix and not part.finished]
    if mixes and any(target.of == "water_g" and target.basis is WeightBasis.AS_EATEN for target in targets):
        return f"How much water stays in {', '.join(mixes)} is not known well enough."
    return None


def _amount_ends(pantry: Pantry, counted: Counted, search: Search, target: Target) -> tuple[End, End]:
    per = batches(target, pantry.brief)
    counting = _counted_protein(pantry.brief, search.formulation, target)
    if len(counting) > 1:
        return _protein_ends(pantry, counted, search, target)
    wanted = plain_sum(target)
    return (
        amount_end(search, wanted.times(-1), Direction(-1.0, per)),
        amount_end(search, wanted, Direction(1.0, per)),
    )


def _counted_protein(brief: Brief, formulation: Formulation, target: Target) -> list[FloatArray]:
    """Rows of a least amount of protein: all of it, and what counts where collagen is more than its part."""
    if target.of != "protein_g" or target.lower is None:
        return []
    posed = sides(replace(target, lower=1.0, upper=None), formulation.layout.board, brief)
    return [side_row(side, formulation) for side in posed]


def _protein_ends(pantry: Pantry, counted: Counted, search: Search, target: Target) -> tuple[End, End]:
    """Of protein that counts: the least of two sums, whose most is a column that is below both."""
    per = batches(target, pantry.brief)

    def row(number: int, sign: float) -> End:
        def wanted(formulation: Formulation) -> FloatArray:
            return sign * _counted_protein(pantry.brief, formulation, target)[number]

        return amount_end(search, wanted, Direction(sign, per))

    least = min((row(number, -1.0) for number in range(2)), key=lambda end: (end.value is None, end.value or 0.0))
    return least, _most_counted(pantry, counted, target, per)


def _most_counted(pantry: Pantry, counted: Counted, target: Target, per: float) -> End:
    def below(formulation: Formulation) -> list[FloatArray]:
        found = []
        for counting in _counted_protein(pantry.brief, formulation, target):
            row = counting.copy()
            row[formulation.layout.deviation_column] = -1.0
            found.append(scaled(row)[0])
        return found

    def column(formulation: Formulation) -> FloatArray:
        row = np.zeros(formulation.layout.width)
        row[formulation.layout.deviation_column] = 1.0
        return row

    search = Search(pantry.without(target), counted, pantry.backend, pantry.deadline, [plain_sum(target)], extra=below)
    try:
        return amount_end(search, column, Direction(1.0, per))
    finally:
        search.close()
