"""Rows of the sides, and two of each centre: the coefficients of all of them at once, and what each is scaled with."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from solver.bands import Centre, Side
from solver.numerics import ROW_MAGNITUDE, FloatArray

#: The miss and the deviation may have a coefficient so many times that of the items, up to LARGEST_COEFFICIENT.
_EXTRA = 64.0


@dataclass(frozen=True, slots=True, eq=False)
class SideRows:
    """weights @ uses + pans @ D + extra * (miss or deviation) >= least, a row each, before it is scaled.

    weights: (rows, uses), per unit of the column; pans: (rows, pans); extra, least: (rows,).
    """

    weights: FloatArray
    pans: FloatArray
    extra: FloatArray
    least: FloatArray

    @staticmethod
    def of(sides: Sequence[Side], centres: Sequence[Centre], unit_g: FloatArray, pan_count: int) -> "SideRows":
        """The sides, then each centre from above and from below. unit_g: (uses,), grams in one unit of the column."""
        signed = [(sign, middle) for middle in centres for sign in (-1.0, 1.0)]
        weights = [side.weights for side in sides] + [sign * middle.weights for sign, middle in signed]
        pans = [side.pans for side in sides] + [sign * middle.pans for sign, middle in signed]
        return SideRows(
            weights=np.array(weights).reshape(-1, len(unit_g)) * unit_g / 100.0,
            pans=np.array(pans).reshape(len(pans), pan_count),
            extra=np.array([side.normaliser for side in sides] + [middle.half for _, middle in signed]),
            least=np.array([side.least for side in sides] + [sign * middle.middle for sign, middle in signed]),
        )

    def scale(self) -> FloatArray:
        """What to multiply each row with, (rows,): a power of two, which changes no digit of a coefficient."""
        of_uses, of_pans = (np.abs(part).max(axis=1, initial=1e-9) for part in (self.weights, self.pans))
        largest = np.maximum(np.maximum(of_uses, of_pans), self.extra / _EXTRA)
        return np.asarray(np.exp2(np.floor(np.log2(ROW_MAGNITUDE / largest))), dtype=np.float64)
