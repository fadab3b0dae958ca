"""A target's band as linear rows over the items, with totals N = (as eaten) @ q and q >= 0 in units of 100 g.

An amount with weights w, band [lo, hi] for the batch:      w @ N >= lo   and   -w @ N >= -hi.
A ratio of numerator u to denominator v, band [lo, hi], after collecting terms:
                                       (u - lo v) @ N >= 0   and   (hi v - u) @ N >= 0.
With fat share on the general basis the first is 9 (1 - lo) F - 4 lo P - 4 lo C >= 0.

Each side can be missed at a price, its elastic form: side + normaliser * miss >= least, miss >= 0. The normaliser makes
misses of different targets comparable: an amount's is the end that is missed; a ratio's is what its numerator
would be at the brief's energy aim.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from solver.as_eaten import PLACE
from solver.brief import Brief
from solver.energy import GENERAL_KCAL
from solver.numerics import FloatArray
from solver.quantities import QUANTITY, Quantity
from solver.targets import Per, Target

#: Smallest normaliser of an amount in its own unit, so that a tiny end does not make every miss enormous.
LEAST_NORMALISER = 1e-3

#: Relative width below which a band is a point.
NARROWEST = 1e-9

#: Energy of a portion that normalises ratios where no target says: a modest meal (our choice).
MODEST_MEAL_KCAL = 500.0


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """weights @ q + normaliser * miss >= least. weights: (items,), per 100 g."""

    target: Target
    is_lower: bool
    weights: FloatArray
    least: float
    normaliser: float


@dataclass(frozen=True, slots=True, eq=False)
class Centre:
    """The middle of a two-sided band: |weights @ q - middle| <= half * deviation. weights: (items,), per 100 g.

    A ratio's deviation is measured at the brief's energy aim, which keeps it linear.
    """

    target: Target
    weights: FloatArray
    middle: float
    half: float


@dataclass(frozen=True, slots=True, eq=False)
class Posed:
    """A quantity over the items: numerator and, for a ratio, denominator weights (items,), per 100 g."""

    quantity: Quantity
    numerator: FloatArray
    denominator: FloatArray | None

    @staticmethod
    def of(name: str, matrix: FloatArray) -> "Posed":
        """matrix: (items, len(COLUMNS)) from `as_eaten`."""
        quantity = QUANTITY[name]
        denominator = None if quantity.denominator is None else _weighted(matrix, quantity.denominator)
        return Posed(quantity, _weighted(matrix, quantity.numerator), denominator)


def _weighted(matrix: FloatArray, weights: Mapping[str, float]) -> FloatArray:
    # Only the named columns are touched: zero times a missing value would be a missing value.
    places, values = [PLACE[name] for name in weights], np.array(list(weights.values()))
    return np.asarray(matrix[:, places] @ values, dtype=np.float64)


def sides(target: Target, posed: Posed, brief: Brief) -> tuple[Side, ...]:
    """The one or two sides of a target's band, for the batch."""
    found = []
    for bound, is_lower in ((target.lower, True), (target.upper, False)):
        if bound is not None:
            sign = 1.0 if is_lower else -1.0
            weights, least = _collected(posed, bound, batches(target, brief))
            normaliser = _normaliser(target, posed.quantity, bound, brief)
            found.append(Side(target, is_lower, sign * weights, sign * least, normaliser))
    return tuple(found)


def centre(target: Target, posed: Posed, brief: Brief) -> Centre | None:
    """The middle of a band with two different ends; None otherwise."""
    if not is_two_sided(target) or target.lower is None or target.upper is None:
        return None
    middle, half = (target.lower + target.upper) / 2, (target.upper - target.lower) / 2
    weights, constant = _collected(posed, middle, batches(target, brief))
    if posed.denominator is None:
        return Centre(target, weights, constant, half * batches(target, brief))
    at_aim = _denominator_at_aim(posed.quantity, middle, brief)
    return Centre(target, weights, constant, half / posed.quantity.factor * at_aim)


def is_two_sided(target: Target) -> bool:
    """Whether a band has a middle: two ends that floats can tell apart."""
    if target.lower is None or target.upper is None:
        return False
    return target.upper - target.lower > NARROWEST * max(1.0, target.upper)


def batches(target: Target, brief: Brief) -> float:
    """What an amount per portion or batch is multiplied with to be for the batch."""
    return float(brief.portions) if target.per is Per.PORTION else 1.0


def _collected(posed: Posed, bound: float, batch: float) -> tuple[FloatArray, float]:
    if posed.denominator is None:
        return posed.numerator, bound * batch
    return posed.numerator - bound / posed.quantity.factor * posed.denominator, 0.0


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
