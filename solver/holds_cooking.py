"""What the cooking table leaves open, as a part of what a plan has to hold within.

Of pieces the part of their fat that is kept goes from one end of its 90 % interval to the other; where nothing is known
all of it may run out, or none. A mix keeps its half-interval less or more, as wide as where its curve is a guess.
What the scale said of a pan has no error here, but without a weight of the fat what ran out is as open as ever.
"""

from dataclasses import replace

from solver.components import Component, Placed
from solver.cook import BEYOND_RANGE
from solver.cooking_rows import CookingRow
from solver.holds import Holds


def placed_at(placed: Placed, holds: Holds, *, all_kept: bool) -> Placed:
    """An item among pieces that keeps the most, or the least, of its fat that the table leaves open."""
    stated = _kept(placed)
    if placed.row is None:
        end = 1.0 if all_kept else 0.0
    else:
        end = placed.row.fat_retention_high_g_per_g if all_kept else placed.row.fat_retention_low_g_per_g
    kept = min(max(stated + holds.scale * (end - stated), 0.0), 1.0)
    return replace(placed, row=replace(placed.row or _NO_ROW, fat_retention_g_per_g=kept))


def half_kept_g_per_g(component: Component, holds: Holds | None) -> float:
    """By how much what a mix keeps of its fat is open, g per g raw; 0 where the table has no say."""
    if holds is None or not holds.cooking or component.curve is None or component.drippings_g is not None:
        return 0.0
    return holds.scale * BEYOND_RANGE * component.curve.fat_kept_half_interval_g_per_g


def half_kept_g(component: Component, raw_g: float, holds: Holds | None) -> float:
    """The same of so much of it, g."""
    return half_kept_g_per_g(component, holds) * raw_g


def _kept(placed: Placed) -> float:
    if placed.row is None:
        return 0.0 if placed.melts else 1.0
    return placed.row.fat_retention_g_per_g


#: Nothing is known: nothing evaporates, and the fat is at one of its ends.
_NO_ROW = CookingRow(
    method="",
    kind="",
    measured=False,
    yield_g_per_g=1.0,
    yield_half_interval_g_per_g=0.0,
    fat_retention_g_per_g=1.0,
    fat_retention_as_sampled_g_per_g=1.0,
    fat_retention_low_g_per_g=0.0,
    fat_retention_high_g_per_g=1.0,
    pairs=0,
    why="",
    source="",
)
