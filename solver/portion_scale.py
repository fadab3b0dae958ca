"""Weights of portions as a kitchen scale shows them: the rounded portions still sum to the rounded whole."""

from collections.abc import Sequence
from fractions import Fraction
from math import floor


def weigh_out_g(whole_g: float, shares: Sequence[Fraction], scale_g: float) -> tuple[float, ...]:
    """Grams of each share of a whole, in whole steps of the scale, by largest remainder; ties go to the first.

    shares: sum to 1. scale_g: 1 or 0.1. Each is less than one step from its exact weight; together they are the whole
    to the nearest step.
    """
    steps_per_g = round(1 / scale_g)
    steps = Fraction(whole_g) * steps_per_g
    exact = [share * steps for share in shares]
    rounded = [floor(each) for each in exact]
    left = floor(steps + Fraction(1, 2)) - sum(rounded)
    for place in sorted(range(len(exact)), key=lambda place: rounded[place] - exact[place])[:left]:
        rounded[place] += 1
    return tuple(each / steps_per_g for each in rounded)
