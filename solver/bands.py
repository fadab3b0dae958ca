"""A target's band as linear rows over the items, with totals N = (as eaten) @ q and q >= 0 in units of 100 g.

An amount with weights w, band [lo, hi] for the batch:      w @ N >= lo   and   -w @ N >= -hi.
A ratio of numerator u to denominator v, band [lo, hi], after collecting terms:
                                       (u - lo v) @ N >= 0   and   (hi v - u) @ N >= 0.
With fat share on the general basis the first is 9 (1 - lo) F - 4 lo P - 4 lo C >= 0.

Each side can be missed at a price, its elastic form: side + normaliser * miss >= least, miss >= 0. The normaliser makes
misses of different targets comparable: an amount's is the end that is missed; a ratio's is what its numerator
would be at the brief's energy aim.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from solver.board import Board
from solver.brief import Brief
from solver.energy import GENERAL_KCAL
from solver.holds_rows import worst_posed
from solver.numerics import FloatArray
from solver.posed import guarded, posed
from solver.protein import collagen_protein_g
from solver.quantities import QUANTITY, Quantity
from solver.rules import Rule
from solver.targets import Per, Target

#: Smallest normaliser of an amount in its own unit, so that a tiny end does not make every miss enormous.
LEAST_NORMALISER = 1e-3

#: Relative width below which a band is a point.
NARROWEST = 1e-9

#: Energy of a portion that normalises ratios where no target says: a modest meal (our choice).
MODEST_MEAL_KCAL = 500.0


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """weights @ q + pans @ D + normaliser * miss >= least.

    weights: (uses,), per 100 g; pans: (pans,), per 100 g of the fat D that rendered in each. guarded: the row takes the
    worst of several sources of fat, so that a dish may meet the target though the row does not hold.
    """

    target: Target | Rule
    is_lower: bool
    weights: FloatArray
    pans: FloatArray
    least: float
    normaliser: float
    guarded: bool = False

    def left(self, grams100: FloatArray, rendered100: FloatArray) -> float:
        """The left side without a miss. grams100: (uses,), rendered100: (pans,), in units of 100 g."""
        return float(self.weights @ grams100 + self.pans @ rendered100)


@dataclass(frozen=True, slots=True, eq=False)
class Centre:
    """The middle of a two-sided band: |weights @ q + pans @ D - middle| <= half * deviation. Shapes as of Side.

    A ratio's deviation is measured at the brief's energy aim, which keeps it linear.
    """

    target: Target
    weights: FloatArray
    pans: FloatArray
    middle: float
    half: float

    def off(self, grams100: FloatArray, rendered100: FloatArray) -> float:
        """How many half-bands from the middle."""
        return abs(float(self.weights @ grams100 + self.pans @ rendered100) - self.middle) / self.half


def sides(target: Target, board: Board, brief: Brief) -> tuple[Side, ...]:
    """The one or two sides of a target's band, for the batch."""
    quantity = QUANTITY[target.of]
    found = []
    for bound, is_lower in ((target.lower, True), (target.upper, False)):
        if bound is not None:
            sign = 1.0 if is_lower else -1.0
            wanted = {name: sign * value for name, value in collected(quantity, bound).items()}
            least = bound * batches(target, brief) if quantity.denominator is None else 0.0
            normaliser = _normaliser(target, quantity, bound, brief)
            careful = guarded(board, wanted, target.basis)
            found += [
                Side(target, is_lower, weights, pans, sign * least + held_back, normaliser, careful)
                for weights, pans, held_back in _worst(target, wanted, board, brief)
            ]
    return (*found, *(counting for side in found if (counting := _counting(side, board, brief)) is not None))


def _worst(
    target: Target, wanted: Mapping[str, float], board: Board, brief: Brief
) -> Iterable[tuple[FloatArray, FloatArray, float]]:
    """A must holds for every composition inside what the brief has to hold within, a wish for what is stated."""
    if target.priority is None:
        return worst_posed(board, wanted, target.basis, brief)
    return [(*posed(board, wanted, target.basis), 0.0)]


def _counting(side: Side, board: Board, brief: Brief) -> Side | None:
    """The same side, of what protein counts where collagen is more than its part of it; None where it cannot be."""
    of_protein = isinstance(side.target, Target) and side.target.of == "protein_g"
    if not side.is_lower or not of_protein or brief.collagen_part >= 1:
        return None
    # Collagen is at the end where its protein is; where only some items are off, it is counted as stated: no less.
    all_off = side.target.priority is None and brief.holds is not None and brief.holds.most_off is None
    uses = board.corners[0].uses if all_off else board.uses
    collagen = np.array([0.0 if use.is_spoon else collagen_protein_g(use.item.food) for use in uses])
    if not collagen.any():
        return None
    return replace(side, weights=(side.weights - collagen) / (1 - brief.collagen_part))


def centre(target: Target, board: Board, brief: Brief) -> Centre | None:
    """The middle of a band with two different ends; None otherwise."""
    if not is_two_sided(target) or target.lower is None or target.upper is None:
        return None
    quantity = QUANTITY[target.of]
    middle, half = (target.lower + target.upper) / 2, (target.upper - target.lower) / 2
    weights, pans = posed(board, collected(quantity, middle), target.basis)
    if quantity.denominator is None:
        return Centre(target, weights, pans, middle * batches(target, brief), half * batches(target, brief))
    at_aim = _denominator_at_aim(quantity, middle, brief)
    return Centre(target, weights, pans, 0.0, half / quantity.factor * at_aim)


def collected(quantity: Quantity, bound: float) -> dict[str, float]:
    """What each column counts in a band's end: the numerator, less the bound times the denominator of a ratio."""
    counts = dict(quantity.numerator)
    for name, value in (quantity.denominator or {}).items():
        counts[name] = counts.get(name, 0.0) - bound / quantity.factor * value
    return counts


def is_two_sided(target: Target) -> bool:
    """Whether a band has a middle: two ends that floats can tell apart."""
    if target.lower is None or target.upper is None:
        return False
    return target.upper - target.lower > NARROWEST * max(1.0, target.upper)


def batches(target: Target, brief: Brief) -> float:
    """What an amount per portion or batch is multiplied with to be for the batch."""
    return float(brief.portions) if target.per is Per.PORTION else 1.0


def _normaliser(target: Target, quantity: Quantity, bound: float, brief: Brief) -> float:
    if quantity.denominator is None:
        return (max(bound, LEAST_NORMALISER) if bound > 0 else 1.0) * batches(target, brief)
    at_aim = _denominator_at_aim(quantity, bound, brief)
    return at_aim if quantity.unit == "%" else at_aim * max(bound, 0.1)


def _denominator_at_aim(quantity: Quantity, ratio: float, brief: Brief) -> float:
    energy = energy_aim_kcal(brief)
    if quantity.unit == "%":
        return energy
    return energy / (GENERAL_KCAL.fat * ratio + GENERAL_KCAL.protein)


def energy_aim_kcal(brief: Brief) -> float:
    """Energy of the batch that the brief aims at; a modest meal for each portion where it does not say."""
    for target in sorted(brief.targets, key=lambda target: target.id):
        if target.of == "energy_kcal":
            ends = [end for end in (target.lower, target.upper) if end is not None]
            if sum(ends) > 0:
                return sum(ends) / len(ends) * batches(target, brief)
    return MODEST_MEAL_KCAL * brief.portions
