"""What a pantry can do: the range of each quantity, and the region of two of them. Numbers in the quantity's unit."""

from dataclasses import dataclass
from typing import TypeAlias

from solver.outcome import Checked, LeftOut, ProofStatus, Quantity
from solver.targets import Target


@dataclass(frozen=True, slots=True)
class End:
    """One end of a range.

    value: None where there is none; then `note` says why, and else what to mind. gap: how much further the range may
    go at most; None where nobody knows. Of a ratio it is counted with the least denominator that the musts allow, and
    where that is nothing, with the denominator of this dish. amounts: grams that reach the value, not rounded.
    """

    value: float | None
    status: ProofStatus
    checked: Checked
    gap: float | None
    note: str | None
    amounts: tuple[Quantity, ...] = ()


@dataclass(frozen=True, slots=True)
class Range:
    """target: what was asked for; without a band where the brief has no such target.

    outer: whether rows took the best of several sources of fat, so that the true range may be narrower.
    left_out: items that took no part, since a value is missing.
    """

    target: Target
    least: End
    most: End
    outer: bool
    left_out: tuple[LeftOut, ...]


@dataclass(frozen=True, slots=True)
class Vertex:
    """x, y: in the units of the two targets. amounts: grams that reach them, not rounded.

    attained: whether steps, pans and least amounts allow just these amounts.
    """

    x: float
    y: float
    amounts: tuple[Quantity, ...]
    attained: bool


@dataclass(frozen=True, slots=True)
class Polygon:
    """The region of two amounts: its vertices, counter-clockwise; empty where there is none, and `note` says why.

    outer: whether the region may be smaller than the polygon, as with steps. complete: False when the clock ended the
    search; then more vertices may lie outside. checked: who vouches that nothing is outside. gap_percent: how much
    further than an edge something may be reached, at most, as a part of the region's width; None where nobody knows, as
    of a polygon whose vertices are no dishes.
    """

    x: Target
    y: Target
    vertices: tuple[Vertex, ...]
    outer: bool
    complete: bool
    checked: Checked
    note: str | None
    left_out: tuple[LeftOut, ...]
    gap_percent: float | None = None


@dataclass(frozen=True, slots=True)
class Piece:
    """From `start` to `stop` of the amount t the ratio is  (a + b t) / (c + d t)."""

    start: float
    stop: float
    a: float
    b: float
    c: float
    d: float

    def at(self, amount: float) -> float:
        """The ratio at an amount."""
        return (self.a + self.b * amount) / (self.c + self.d * amount)


@dataclass(frozen=True, slots=True)
class Curve:
    """The least and the most of a ratio y at every amount of x, piece by piece; empty where there is none.

    complete, note, left_out: as of Polygon. gap: how much further than a piece the ratio may go at most, in its unit; 0
    of an exact curve, None where nobody knows. in_bands: each piece is the end of all dishes whose amount lies in it,
    since there is no exact curve.
    """

    x: Target
    y: Target
    least: tuple[Piece, ...]
    most: tuple[Piece, ...]
    complete: bool
    checked: Checked
    note: str | None
    left_out: tuple[LeftOut, ...]
    gap: float | None = 0.0
    in_bands: bool = False


Frontier: TypeAlias = Polygon | Curve
