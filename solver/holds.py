"""Plans that hold: how far the composition of each item may be from what is stated, and what it is at either end.

EU tolerance    European Commission, Guidance document on tolerances for nutrient values declared on a label (December
                2012), by the content of each item in 100 g (`tolerances`). A nutrient without a row does not move.
label rounding  the interval that a printed number stands for (`label_rounding`). What is of a table does not move.
percent         of what is stated, for the nutrients that are named; an end below nothing is nothing.

Every nutrient of every item moves by itself: total carbohydrate, available carbohydrate and fibre too, each as itself.
That is no less than what can move together, so what holds here holds for every composition that is possible. Energy
moves with the macronutrients that it is counted from; stated energy (basis `declared`) as they would move it, unless
its own tolerance is known: that of a printed number, or a percentage of its own. Dishes in dishes move as one item.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum


class Tolerance(Enum):
    """Where the ends of a composition come from."""

    EU = "EU tolerance"
    LABEL_ROUNDING = "label rounding"
    PERCENT = "percent"


@dataclass(frozen=True, slots=True)
class Holds:
    """Every must target has to hold for every composition inside it.

    percent: nutrient name to percent of what is stated; only of the kind PERCENT. scale: the part of it that counts.
    cooking: whether it has to hold for what the cooking table leaves open as well.
    most_off: no more than so many items are off at once; None where all may be.
    """

    tolerance: Tolerance
    percent: Mapping[str, float] = field(default_factory=dict)
    most_off: int | None = None
    scale: float = 1.0
    cooking: bool = False


@dataclass(frozen=True, slots=True)
class WorstCase:
    """The least and the most that a target can come to within what the brief has to hold for; None: without limit."""

    lowest: float
    highest: float | None
