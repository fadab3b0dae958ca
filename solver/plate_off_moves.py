"""What an error moves: the batch's totals when the error is at its upper end, and when it is at its lower end."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType

import numpy as np

from solver.energy import SLICES
from solver.numerics import FloatArray
from solver.nutrients import NUTRIENTS

#: Macronutrient to the column of its energy on the brief's basis, kcal.
SLICE_COLUMN: Mapping[str, str] = MappingProxyType({of: f"energy_from_{of}_kcal" for of in SLICES})

#: Columns of a move: nutrients, energy from each macronutrient, energy on the brief's basis, and weight.
COLUMNS: tuple[str, ...] = (
    *(nutrient.name for nutrient in NUTRIENTS),
    *SLICE_COLUMN.values(),
    *("basis_kcal", "basis_kj", "grams"),
)

PLACE: Mapping[str, int] = MappingProxyType({name: place for place, name in enumerate(COLUMNS)})


class Kind(Enum):
    """Where an error comes from."""

    COOKING = "cooking"
    LABEL_ROUNDING = "label rounding"
    LABEL_TOLERANCE = "label tolerance"
    STANDARD_ERROR = "standard error"


@dataclass(frozen=True, slots=True)
class OffBy:
    """How far below and above a number the truth may be, nine times in ten; inf on a side without limit."""

    below: float
    above: float

    def times(self, factor: float) -> "OffBy":
        """Both multiplied by a factor of at least 0."""
        return OffBy(self.below * factor, self.above * factor)


@dataclass(frozen=True, slots=True, eq=False)
class Cause:
    """One source of error: independent errors of one kind about one thing.

    up, down: what each of them moves at its upper and at its lower end, (errors, len(COLUMNS)), for the whole batch.
    """

    kind: Kind
    about: str
    why: str
    up: FloatArray
    down: FloatArray


def move(changes: Mapping[str, float]) -> FloatArray:
    """A row of changes, (len(COLUMNS),); what is not named does not move."""
    row = np.zeros(len(COLUMNS))
    for name, change in changes.items():
        row[PLACE[name]] += change
    return row


def cause(kind: Kind, about: str, why: str, ends: Iterable[tuple[FloatArray, FloatArray]]) -> Cause:
    """The cause of errors given by what each moves at its upper and at its lower end; at least one."""
    up, down = zip(*ends, strict=True)
    return Cause(kind, about, why, np.array(up), np.array(down))


def combined(up: FloatArray, down: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Below and above of independent errors, by root sum of squares on each side. up, down: (errors, ...)."""
    below, above = on_each_side(up, down)
    return np.sqrt((below**2).sum(axis=0)), np.sqrt((above**2).sum(axis=0))


def on_each_side(up: FloatArray, down: FloatArray) -> tuple[FloatArray, FloatArray]:
    """How far each error goes below and above. up, down: what it moves at either end, which may be on one side."""
    return -np.minimum(np.minimum(up, down), 0.0), np.maximum(np.maximum(up, down), 0.0)
