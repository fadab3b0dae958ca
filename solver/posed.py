"""What a row counts, over the uses and the pans of a board.

Fat that is lost from a pan takes along what it holds. Whose fat that is, only the amounts decide, and that would not be
linear; so each row takes the source that is worst for it, unless the board is hopeful (see `mixtures`). Of fat itself,
and of general energy, all sources hold the same, and with one source everything is exact.
"""

from collections.abc import Mapping

import numpy as np

from solver.as_eaten import PLACE
from solver.board import Board
from solver.numerics import FloatArray
from solver.pans import Pan
from solver.targets import WeightBasis

#: Sources that differ by no more than this part count the same.
SAME_SOURCE = 1e-9


def posed(board: Board, counts: Mapping[str, float], basis: WeightBasis) -> tuple[FloatArray, FloatArray]:
    """Weights of the uses (uses,) and of the pans (pans,), per 100 g, so that what they sum to is never too much.

    counts: column of `as_eaten` to what it counts in a row that has to reach something.
    """
    # Only the named columns are touched: zero times a missing value would be a missing value.
    places, values = [PLACE[name] for name in counts], np.array(list(counts.values()))
    if basis is WeightBasis.RAW:
        return board.raw[:, places] @ values, np.zeros(len(board.pans))
    uses = np.asarray(board.eaten[:, places] @ values, dtype=np.float64)
    pans = np.zeros(len(board.pans))
    for number, pan in enumerate(board.pans):
        lost, back = _of_drippings(pan, pan.sources[:, places] @ values, hopeful=board.hopeful)
        if pan.spoon is not None:
            uses[pan.spoon] = back
        if pan.has_column:
            # What evaporates is counted with the rendered fat, which is no water.
            pans[number] = lost + 100 * counts.get("water_g", 0.0)
    return uses, pans


def guarded(board: Board, counts: Mapping[str, float], basis: WeightBasis) -> bool:
    """Whether a row takes the worst of several sources, so that the dish itself may be better than the row says."""
    if basis is WeightBasis.RAW or board.hopeful:
        return False
    places, values = [PLACE[name] for name in counts], np.array(list(counts.values()))
    held = (pan.sources[:, places] @ values for pan in board.pans if pan.has_column or pan.spoon is not None)
    return any(float(np.ptp(of)) > SAME_SOURCE * float(np.abs(of).max()) for of in held if len(of) > 1)


def _of_drippings(pan: Pan, held: FloatArray, *, hopeful: bool) -> tuple[float, float]:
    """What 100 g of rendered fat count when lost, and when spooned back. held: (sources,), what 100 g of each count."""
    if len(held) == 0:
        return 0.0, 0.0
    most, least = (float(held.min()), float(held.max())) if hopeful else (float(held.max()), float(held.min()))
    return (-most, most) if pan.has_column else (0.0, least)
