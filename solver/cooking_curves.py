"""How much fat a mix keeps: a concave curve F_kept = min_k (a_k m + b_k f) of its fat f and the mass m that holds fat.

A mix is not the sum of its items: its lean part holds so much fat, and what is beyond that runs out, whether it came in
with the mince or as tallow. So the last segment is c (m - f), that is a = c and b = -c: with the same lean, more fat
keeps no more. What holds fat is flesh and the like, by its protein; of mince that is all of its mass, and water, onion
or salt in a mix hold none.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import isnan

import numpy as np

#: Fewer rows than this show no plateau; the curve is then one share of the fat, up to what the fattest row held.
FEWEST_ROWS = 5

#: Protein of lean flesh, g per g: raw mince has 0.205 to 0.225 per gram that is no fat (USDA SR28, 23557 and 13498).
LEAN_PROTEIN = 0.2


@dataclass(frozen=True, slots=True)
class MixRow:
    """One measured mix, all in g per g raw: its fat, the fat kept, the yield."""

    fat: float
    fat_kept: float
    yield_g_per_g: float


@dataclass(frozen=True, slots=True)
class Segment:
    """Fat kept is at most a_g_per_g times the raw mass plus b_g_per_g times the raw fat."""

    a_g_per_g: float
    b_g_per_g: float


def holding_part(fat: float, protein: float) -> float:
    """Grams of a food that hold fat in a mix, per gram: its fat, and of the rest what its protein makes flesh of.

    fat, protein: g per g; NaN counts as none.
    """
    known_fat, known_protein = (0.0 if isnan(part) else part for part in (fat, protein))
    return known_fat + min(1.0 - known_fat, known_protein / LEAN_PROTEIN)


def fat_kept_g(segments: Sequence[Segment], holding_g: float, fat_g: float) -> float:
    """What a mix keeps of its fat, g; `fat_g` is part of `holding_g`."""
    return min(segment.a_g_per_g * holding_g + segment.b_g_per_g * fat_g for segment in segments)


def fit_segments(rows: Sequence[MixRow]) -> tuple[Segment, ...]:
    """The least-squares curve of at most three segments: all kept, then a line, then what the lean part can hold.

    Every way to divide the rows, sorted by fat, into the three is tried. Raises ValueError without rows.
    """
    if not rows:
        raise ValueError("a curve needs at least one row")
    if len(rows) < FEWEST_ROWS:
        return (Segment(0.0, 1.0), _share(rows), _held([max(rows, key=lambda row: row.fat)]))
    ordered = sorted(rows, key=lambda row: (row.fat, row.fat_kept))
    return min(_candidates(ordered), key=lambda segments: (round(_misfit(segments, rows), 12), len(segments)))


def fit_yield(rows: Sequence[MixRow]) -> tuple[float, float]:
    """Yield of a mix: at no fat, and its change with the share of fat; a least-squares line, level for few rows."""
    yields = np.array([row.yield_g_per_g for row in rows])
    if len(rows) < FEWEST_ROWS:
        return float(yields.mean()), 0.0
    slope, at_no_fat = np.polyfit([row.fat for row in rows], yields, 1)
    return float(at_no_fat), float(slope)


def _share(rows: Sequence[MixRow]) -> Segment:
    return Segment(0.0, min(1.0, sum(row.fat_kept for row in rows) / sum(row.fat for row in rows)))


def _candidates(ordered: Sequence[MixRow]) -> Iterator[tuple[Segment, ...]]:
    everything = Segment(0.0, 1.0)
    for first in range(len(ordered) + 1):
        for last in range(first, len(ordered) + 1):
            between, above = ordered[first:last], ordered[last:]
            if len(between) == 1:
                continue
            line = (_line(between),) if between else ()
            yield (everything, *line, *((_held(above),) if above else ()))


def _held(rows: Sequence[MixRow]) -> Segment:
    """What the lean part can hold: the least-squares c of F_kept = c (m - f)."""
    held = sum(row.fat_kept * (1 - row.fat) for row in rows) / sum((1 - row.fat) ** 2 for row in rows)
    return Segment(held, -held)


def _line(rows: Sequence[MixRow]) -> Segment:
    """The least-squares line with a slope between 0 and 1 and no fat out of nothing."""
    fat, kept = np.array([row.fat for row in rows]), np.array([row.fat_kept for row in rows])
    spread = float(((fat - fat.mean()) ** 2).sum())
    slope = float((fat - fat.mean()) @ kept) / spread if spread > 0 else 0.0
    slope = min(max(slope, 0.0), 1.0)
    return Segment(max(float(kept.mean() - slope * fat.mean()), 0.0), slope)


def _misfit(segments: Sequence[Segment], rows: Sequence[MixRow]) -> float:
    return sum((fat_kept_g(segments, 1.0, row.fat) - row.fat_kept) ** 2 for row in rows)
