"""From what every error moves to how far totals, shares of energy and the ketogenic ratio may be off."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from solver.brief import EnergyBasis
from solver.energy import SLICES
from solver.energy_eaten import macro_energy_kcal
from solver.numerics import FloatArray, IntArray
from solver.outcome import Dish
from solver.plate_off_moves import COLUMNS, PLACE, SLICE_COLUMN, Cause, OffBy, combined, on_each_side
from solver.used import Used

_ENERGY = [PLACE[column] for column in SLICE_COLUMN.values()]
_RATIO_PARTS = [PLACE[name] for name in ("fat_g", "protein_g", "available_carbohydrate_g")]


@dataclass(frozen=True, slots=True, eq=False)
class Point:
    """The dish as it is counted.

    energy_kcal: from each of SLICES, (4,). parts_g: fat, protein and available carbohydrate, (3,). Both of the batch;
    None where what follows from them is undefined.
    """

    energy_kcal: FloatArray | None
    parts_g: FloatArray | None

    @classmethod
    def of(cls, dish: Dish, used: Sequence[Used], basis: EnergyBasis) -> "Point":
        """used: everything in the dish, with the fat that it lost."""
        macro = macro_energy_kcal(used, basis)
        energy = np.array([getattr(macro, of) for of in SLICES])
        values = dish.batch.values
        parts = np.array([values[COLUMNS[place]] or 0.0 for place in _RATIO_PARTS])
        return cls(None if dish.distribution is None else energy, None if dish.ketogenic_ratio is None else parts)

    def moved(self, causes: Sequence[Cause]) -> "Moved":
        """What these errors do to it, together and cause by cause."""
        nothing = np.zeros((0, len(COLUMNS)))
        up = np.concatenate([nothing, *(each.up for each in causes)])
        down = np.concatenate([nothing, *(each.down for each in causes)])
        ends = np.cumsum([0, *(len(each.up) for each in causes)])
        return Moved(self, up, down, ends[:-1].astype(np.int32))


@dataclass(frozen=True, slots=True, eq=False)
class Moved:
    """Independent errors around a point. up, down: (errors, len(COLUMNS)), as in Cause.

    first: (causes,), where those of each cause begin; each has at least one.
    """

    point: Point
    up: FloatArray
    down: FloatArray
    first: IntArray

    def totals(self) -> dict[str, OffBy]:
        """How far the totals of the batch may be off, by column; only those that any error moves."""
        below, above = (ends.tolist() for ends in combined(self.up, self.down))
        found = zip(COLUMNS, below, above, strict=True)
        return {column: OffBy(under, over) for column, under, over in found if under or over}

    def total_by_cause(self, column: str) -> list[OffBy]:
        """How far each cause alone may take a total of the batch off."""
        place = PLACE[column]
        return self._by_cause(self.up[:, place], self.down[:, place])

    def share_points(self, of: str) -> OffBy | None:
        """How far a share of macro energy may be off, percentage points; None where it is undefined."""
        ends = self._share_ends(of)
        return None if ends is None else _off_by(*ends)

    def share_points_by_cause(self, of: str) -> list[OffBy] | list[None]:
        """How far each cause alone may take it off; None for each where the share is undefined."""
        ends = self._share_ends(of)
        return [None] * len(self.first) if ends is None else self._by_cause(*ends)

    def _share_ends(self, of: str) -> tuple[FloatArray, FloatArray] | None:
        """What a share changes by at the upper and at the lower end of each error, (errors,) each."""
        energy, place = self.point.energy_kcal, SLICES.index(of)
        if energy is None:
            return None
        now = _shares(energy[np.newaxis], place)
        up, down = (_shares(energy + end[:, _ENERGY], place) - now for end in (self.up, self.down))
        return up, down

    def _by_cause(self, up: FloatArray, down: FloatArray) -> list[OffBy]:
        if len(self.first) == 0:
            return []
        below, above = (np.sqrt(np.add.reduceat(each**2, self.first)) for each in on_each_side(up, down))
        return [OffBy(under, over) for under, over in zip(below.tolist(), above.tolist(), strict=True)]

    def ketogenic_ratio(self) -> OffBy | None:
        """How far the ratio may be off; None where it is undefined. Without limit where the truth may be all fat."""
        parts = self.point.parts_g
        if parts is None:
            return None
        now = _ratios(parts[np.newaxis])
        return _off_by(*(_ratios(parts + end[:, _RATIO_PARTS]) - now for end in (self.up, self.down)))


def _shares(energy: FloatArray, place: int) -> FloatArray:
    """Percent, (errors,); where all energy is gone nothing is said to move."""
    positive = np.maximum(energy, 0.0)
    whole = positive.sum(axis=1)
    shares: FloatArray = np.zeros(len(whole))
    np.divide(100 * positive[:, place], whole, out=shares, where=whole > 0)
    return shares


def _ratios(parts: FloatArray) -> FloatArray:
    positive = np.maximum(parts, 0.0)
    other = positive[:, 1] + positive[:, 2]
    ratios: FloatArray = np.full(len(other), inf)
    np.divide(positive[:, 0], other, out=ratios, where=other > 0)
    return ratios


def _off_by(up: FloatArray, down: FloatArray) -> OffBy:
    below, above = combined(up, down)
    return OffBy(float(below), float(above))
