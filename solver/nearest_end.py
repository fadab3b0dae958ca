"""The end of a band that is nearest to what is asked and lets every other must hold, exactly.

The miss of that end alone may take any value, below zero as well, and is made as small as can be. For an amount that is
the answer. A ratio u / v is sought by Dinkelbach's method: with the end at r the least miss finds the largest u - r v,
and its u / v is the next r; at the answer that difference is zero (Dinkelbach, On Nonlinear Fractional Programming,
Management Science 13, 1967, from memory).
"""

from dataclasses import dataclass, replace

import numpy as np

from solver.backends.base import Backend, Limits, Session, Status
from solver.bands import batches
from solver.brief import Brief
from solver.deadline import Deadline
from solver.exactness import mixes_left
from solver.formulate import Formulation, formulate
from solver.missing import count
from solver.numerics import FloatArray
from solver.posed import posed
from solver.program import Rows
from solver.quantities import QUANTITY
from solver.rule_sides import rule_whole
from solver.rules import Rule
from solver.targets import Target

#: Rounds of Dinkelbach's method; each squares how near it is, so that more than five are hardly seen.
ROUNDS = 20

#: Relative difference of two ratios below which they are the same.
SETTLED = 1e-9

#: A denominator smaller than this, in kcal or g of the batch, is none.
NOTHING = 1e-6


@dataclass(frozen=True, slots=True)
class End:
    """One end of the band of a target or a rule: at_least, or at_most."""

    target: Target | Rule
    is_lower: bool

    @property
    def value(self) -> float | None:
        """Where it is; None when open."""
        return self.target.lower if self.is_lower else self.target.upper

    @property
    def is_ratio(self) -> bool:
        """Whether the band is on a share or a ratio."""
        if isinstance(self.target, Rule):
            return self.target.is_ratio
        return QUANTITY[self.target.of].denominator is not None

    def moved(self, brief: Brief, value: float) -> Brief:
        """The brief with this end there. A target is written as a band from then on."""
        lower, upper = (value, self.target.upper) if self.is_lower else (self.target.lower, value)
        if isinstance(self.target, Rule):
            rule = replace(self.target, lower=lower, upper=upper)
            return replace(brief, rules=tuple(rule if each.id == rule.id else each for each in brief.rules))
        target = replace(self.target, lower=lower, upper=upper, aim=None, within=None)
        return replace(brief, targets=tuple(target if each.id == target.id else each for each in brief.targets))


def nearest_end(brief: Brief, end: End, backend: Backend, deadline: Deadline) -> float | None:
    """Where the end has to be at least for a plan, in its own unit, printing apart; None where no end helps.

    Drippings of several sources are counted as the rows do, by the worst of them; the dish itself may then be a little
    better. None as well when the clock ends first. An end that is nearer than asked is returned as found: then the
    conflict is not about it.
    """
    value = end.value
    if value is None:
        return None
    for _ in range(ROUNDS):
        formulation = exactly_posed(end.moved(brief, value))
        x = _least_missing(formulation, end, backend, deadline)
        if x is None:
            return None
        reached = _reached(formulation, end, x, value)
        if reached is None or not end.is_ratio:
            return reached
        if abs(reached - value) <= SETTLED * max(1.0, abs(value)):
            return reached
        value = reached
    return value


def exactly_posed(brief: Brief) -> Formulation:
    """The brief's programme with the rendered fat of its mixes posed exactly, so that nothing can be pretended."""
    counted = count(brief)
    loose = formulate(brief, counted)
    mixes = mixes_left(loose)
    return formulate(brief, counted, exact=mixes) if mixes else loose


def _least_missing(formulation: Formulation, end: End, backend: Backend, deadline: Deadline) -> FloatArray | None:
    """The point with the least miss of one end; None without any."""
    layout, program = formulation.layout, formulation.program
    numbers = [n for n, side in enumerate(layout.sides) if (side.target.id, side.is_lower) == _key(end)]
    misses = [layout.miss_columns.start + number for number in numbers]
    lower, upper = program.column_lower.copy(), program.column_upper.copy()
    lower[misses], upper[misses] = -np.inf, np.inf
    cost = np.zeros(layout.width)
    cost[misses[0]] = 1.0
    session = backend.open(program)
    try:
        session.set_column_bounds(lower, upper)
        session.set_cost(cost)
        _tie(session, misses, layout.width)
        raw = session.solve(Limits(deadline))
        return raw.x if raw.status is Status.OPTIMAL else None
    finally:
        session.close()


def _key(end: End) -> tuple[str, bool]:
    return end.target.id, end.is_lower


def _tie(session: Session, misses: list[int], width: int) -> None:
    """An end that is posed as several rows has one miss, the largest of theirs."""
    for other in misses[1:]:
        row = np.zeros((1, width))
        row[0, misses[0]], row[0, other] = 1.0, -1.0
        session.add_rows(Rows.from_dense(row), np.zeros(1), np.zeros(1))


def _reached(formulation: Formulation, end: End, x: FloatArray, value: float) -> float | None:
    """What the band's quantity reaches at a point, in its unit; None for a ratio to nothing."""
    layout = formulation.layout
    number = next(n for n, side in enumerate(layout.sides) if (side.target.id, side.is_lower) == _key(end))
    missed = float(x[layout.miss_columns.start + number]) * layout.sides[number].normaliser
    per = _denominator(formulation, end, x)
    if per <= NOTHING:
        return None
    return max(0.0, value - missed / per if end.is_lower else value + missed / per)


def _denominator(formulation: Formulation, end: End, x: FloatArray) -> float:
    """What a row's miss is divided by to be in the unit of the band: portions, or what a ratio relates to."""
    layout, target = formulation.layout, end.target
    grams = x[layout.use_columns] * layout.unit_g
    if isinstance(target, Rule):
        rendered100 = np.zeros(len(layout.board.pans))
        rendered100[list(layout.pan_numbers)] = x[layout.pan_columns]
        return rule_whole(target, 1.0 if end.is_lower else -1.0, layout.board, grams / 100, rendered100)
    quantity = QUANTITY[target.of]
    if quantity.denominator is None:
        return batches(target, formulation.brief)
    # By the worst source of drippings, as the row itself.
    sign = -1.0 if end.is_lower else 1.0
    counts = {of: sign * weight for of, weight in quantity.denominator.items()}
    weights, pans = posed(layout.board, counts, target.basis)
    held = float(weights @ (grams / 100)) + float(pans[list(layout.pan_numbers)] @ x[layout.pan_columns])
    return sign * held / quantity.factor
