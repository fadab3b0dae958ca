"""Numbers that a person would write: the end of a band moved outward to sensible digits of its unit."""

import math
from collections.abc import Iterator, Mapping
from types import MappingProxyType

#: The last digit that is worth writing, by UCUM unit (our choice); of mg and ug the third significant digit.
GRAINS: Mapping[str, float] = MappingProxyType({"kcal": 1.0, "g": 0.1, "%": 0.1, "1": 0.01})

#: Grains that an end is moved further where printing to 0.1 g needs more room than rounding outward has given.
FURTHER = (0, 1, 3, 8)

#: Weights from here on, g, are written in whole grams.
WHOLE_FROM_G = 10.0

#: What a number may be beyond a digit and still be that digit.
NOISE = 1e-6


def grain(unit: str, value: float) -> float:
    """The step in which a value of this unit is written."""
    if unit in GRAINS:
        return GRAINS[unit]
    return 10.0 ** (math.floor(math.log10(value)) - 2) if value > 0 else 1e-3


def outward(value: float, step: float, *, down: bool) -> float:
    """The value moved to a multiple of the step, down or up; one that is there already stays."""
    steps = math.floor(value / step + NOISE) if down else math.ceil(value / step - NOISE)
    return _clean(steps * step)


def ends_from(value: float, unit: str, *, down: bool) -> Iterator[float]:
    """Ends to try, the nearest first; none below 0."""
    step = grain(unit, value)
    first = outward(value, step, down=down)
    for further in FURTHER:
        end = _clean(first + (-further if down else further) * step)
        if end >= 0:
            yield end


def weights_from(grams: float, step_g: float | None, *, down: bool) -> Iterator[float]:
    """Weights to try, the nearest first: in the item's own step, or in grams, to 0.1 g below ten."""
    step = step_g or (1.0 if grams >= WHOLE_FROM_G else 0.1)
    first = outward(grams, step, down=down)
    for further in FURTHER:
        weight = _clean(first + (-further if down else further) * step)
        if weight >= 0:
            yield weight


def _clean(value: float) -> float:
    return float(f"{value:.12g}")
