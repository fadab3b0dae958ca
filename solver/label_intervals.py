"""How far the truth may be from what a label prints: by rounding, and by what the rules of its layout tolerate."""

from collections.abc import Callable, Mapping
from math import nan
from typing import TypeAlias

import numpy as np

from solver.label_rounding import Interval
from solver.numerics import FloatArray
from solver.nutrients import COLUMN, NUTRIENTS
from solver.tolerances import eu_range, us_group

#: From a nutrient and its amount in 100 g: how far below and above it the truth may be; NaN on a side without limit.
Tolerance: TypeAlias = Callable[[str, float], tuple[float, float]]


def half_of(interval: Interval, read: float) -> float:
    """How far the interval of a printed number reaches from the number that was read, to its farther end.

    That is half of the interval where the number is in its middle, and all of it where a zero or a "less than" was
    read as one of its ends: never too little.
    """
    return max(read - interval.low, interval.high - read, 0.0)


def us_tolerance(nutrient: str, per_100g: float) -> tuple[float, float]:
    """One-sided: no more fat than 120 % of what is declared, no less protein or carbohydrate than 80 % of it."""
    group = us_group(nutrient)
    if group is None:
        return nan, nan
    off = abs(group.share - 1) * per_100g
    return (nan, off) if group.is_ceiling else (off, nan)


def eu_tolerance(nutrient: str, per_100g: float) -> tuple[float, float]:
    """Two-sided; energy has no row."""
    allowed = eu_range(nutrient, per_100g)
    return (nan, nan) if allowed is None else (per_100g - allowed.low, allowed.high - per_100g)


def nutrient_row(values: Mapping[str, float]) -> FloatArray:
    """Values by nutrient name as a row, (len(NUTRIENTS),); NaN for what is not named."""
    row = np.full(len(NUTRIENTS), np.nan)
    for nutrient, value in values.items():
        row[COLUMN[nutrient]] = value
    return row


def tolerance_rows(
    printed: Mapping[str, float], per_100g: Mapping[str, float], tolerance: Tolerance
) -> tuple[FloatArray, FloatArray]:
    """Below and above, (len(NUTRIENTS),) each, of the nutrients that are printed and known."""
    ends = {name: tolerance(name, per_100g[name]) for name in printed if name in per_100g}
    below = nutrient_row({name: end[0] for name, end in ends.items()})
    above = nutrient_row({name: end[1] for name, end in ends.items()})
    return below, above
