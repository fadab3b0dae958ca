"""The least and the most of a ratio at every amount of another target, exactly.

Where an amount t is held, the best ratio is that of a dish on an edge of what is reachable in (t, N, D), so N and D are
affine in t and the ratio is (a + b t) / (c + d t), until another edge takes over. Two dishes on an edge give the four
numbers. Divided by D everything reachable is convex again, so a line that is best near both of its ends is best
between them.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from solver.bands import batches
from solver.certificate import FLOAT_NOISE
from solver.exactness import mixes_left
from solver.formulate import Formulation
from solver.numerics import VERIFICATION, FloatArray
from solver.outcome import Checked
from solver.quantities import QUANTITY
from solver.reach import Pantry, not_countable
from solver.reach_bands import curve_in_bands, extent, no_curve
from solver.reach_ends import above, denominator_of, iterated, numerator_of, plain_sum, value_at
from solver.reach_outcome import Curve, Piece
from solver.reach_search import Farthest, Search, scaled
from solver.targets import Target

#: Part of an interval that lies between its end and the points that tell the edge there.
NEAR = 1e-5

#: The same for the point that shows whether an edge goes as far as this.
BESIDE = 1e-3

#: In parts of the ratio: two that differ by less are the same.
SAME = 1e-8

#: More pieces than this are not sought on one side.
MOST_PIECES = 200

_SOURCES = "Whose fat is in the drippings only the amounts decide, and that gives no curve; ask for the range of each."


class _OutOfTimeError(Exception):
    """The clock ended the search."""


@dataclass(frozen=True, slots=True, eq=False)
class _Asking:
    """A search that can hold the amount x. sign: 1 for the most. scale: of the row that holds the amount."""

    search: Search
    y: Target
    per: float
    scale: float
    sign: float = 1.0

    def dish_at(self, amount: float) -> tuple[float, float] | None:
        """Numerator (times its factor) and denominator of the best ratio; None where there is nothing to divide by."""
        of = QUANTITY[self.y.of]
        self.search.fix(*[amount * self.per * self.scale] * 2)
        start = self.search.most(denominator_of(of, self.y))
        if not isinstance(start, Farthest):
            raise _OutOfTimeError
        if start.most <= VERIFICATION:
            return None
        ended = iterated(self.search, of, self.y, start, self.sign)
        if ended.last is None:
            raise _OutOfTimeError
        if ended.is_endless:
            return None
        numerator, denominator = numerator_of(of, self.y), denominator_of(of, self.y)
        return of.factor * value_at(ended.best, numerator), value_at(ended.best, denominator)

    def line(self, one: float, other: float) -> Piece | None:
        """The edge through the best dishes at two amounts."""
        first, second = self.dish_at(one), self.dish_at(other)
        if first is None or second is None:
            return None
        b, d = ((after - before) / (other - one) for before, after in zip(first, second, strict=True))
        return Piece(one, other, first[0] - b * one, b, first[1] - d * one, d)

    def confirmed(self, line: Piece, at: float, room: float) -> Piece | None:
        """The line, where it is best a little aside of an amount; else the line that is. room: how far and whither."""
        aside = at + BESIDE * room
        if self.is_best(line, aside, SAME):
            return line
        return self.line(at + NEAR * room, at + 2 * NEAR * room)

    def is_best(self, line: Piece, amount: float, within: float) -> bool:
        """Whether the best ratio there is the line's: nothing is above it, and something reaches it."""
        of, divided = QUANTITY[self.y.of], line.c + line.d * amount
        if divided <= 0:
            return False
        self.search.fix(*[amount * self.per * self.scale] * 2)
        ratio = line.at(amount)
        found = self.search.most(above(of, self.y, ratio, self.sign))
        if not isinstance(found, Farthest):
            raise _OutOfTimeError
        return abs(found.most) * of.factor <= within * max(1.0, abs(ratio)) * divided

    def ratio_at(self, amount: float) -> float:
        """The best ratio there; NaN where it is undefined."""
        dish = self.dish_at(amount)
        return float("nan") if dish is None else dish[0] / dish[1]


def curve_of(pantry: Pantry, x: Target, y: Target) -> Curve:
    """The ratio y against the amount x while the musts other than these two hold."""
    counted = pantry.counted(x, y)
    why_not = not_countable(pantry.brief, counted, x, y)
    if why_not is not None:
        return no_curve(pantry, x, y, why_not)
    of = QUANTITY[y.of]

    def held(formulation: Formulation) -> list[FloatArray]:
        return [scaled(plain_sum(x).weights(formulation))[0]]

    asked = [plain_sum(x), numerator_of(of, y), denominator_of(of, y)]
    search = Search(pantry.without(x, y), counted, pantry.backend, pantry.deadline, asked, extra=held)
    try:
        if search.outer:
            return no_curve(pantry, x, y, _SOURCES)
        if search.formulation.program.has_integers or mixes_left(search.formulation):
            return curve_in_bands(pantry, search, x, y)
        return _curve(pantry, search, x, y)
    finally:
        search.close()


def _curve(pantry: Pantry, search: Search, x: Target, y: Target) -> Curve:
    per = batches(x, pantry.brief)
    width = extent(pantry, search, x, y)
    if isinstance(width, Curve):
        return width
    start, stop = width
    scale = scaled(plain_sum(x).weights(search.formulation))[1]
    sides, complete = [], True
    for sign in (-1.0, 1.0):
        asking = _Asking(search, y, per, scale, sign)
        found: list[Piece] = []
        try:
            found.extend(_pieces(asking, start, stop))
        except _OutOfTimeError:
            complete = False
        complete = complete and len(found) < MOST_PIECES
        sides.append(tuple(_joined(found)))
    note = None if all(sides) or not complete else "At these amounts a dish can have nothing to divide by."
    left_out = pantry.counted(x, y).left_out
    return Curve(x, y, sides[0], sides[1], complete, Checked.CERTIFICATE, note, left_out)


def _pieces(asking: _Asking, start: float, stop: float) -> Iterator[Piece]:
    """The pieces in order; none where the ratio is undefined."""
    near = NEAR * (stop - start)
    left, right = asking.line(start + near, start + 2 * near), asking.line(stop - near, stop - 2 * near)
    waiting = [(start, stop, left, right)]
    given = 0
    while waiting and given < MOST_PIECES:
        begin, end, first, last = waiting.pop()
        if first is None or last is None:
            continue
        same, tiny = _are_same(first, last, begin, end), end - begin <= SAME * (stop - start)
        wide = _wide(asking, begin, end, first) if same or tiny else first
        if tiny or (same and _holds(asking, wide)):
            given += 1
            yield wide
            continue
        at = (begin + end) / 2 if same else _crossing(asking, first, last, begin, end)
        room = min(at - begin, end - at)
        before = asking.confirmed(first, at, -room)
        after = asking.confirmed(last, at, room)
        waiting += [(at, end, after, last), (begin, at, first, before)]


def _are_same(one: Piece, other: Piece, begin: float, end: float) -> bool:
    looked = (begin + part * (end - begin) for part in (NEAR, 0.25, 0.5, 0.75, 1 - NEAR))
    return all(abs(one.at(t) - other.at(t)) <= 10 * SAME * max(1.0, abs(one.at(t))) for t in looked)


def _crossing(asking: _Asking, first: Piece, last: Piece, begin: float, end: float) -> float:
    """Where the two lines give the same ratio; the middle where they do not, inside."""
    width = end - begin
    # In parts of the interval, so that no root is lost among large numbers.
    (a, b, c, d), (e, f, g, h) = (
        (line.a + line.b * begin, line.b * width, line.c + line.d * begin, line.d * width) for line in (first, last)
    )
    roots = np.roots([b * h - f * d, a * h + b * g - e * d - f * c, a * g - e * c])
    inside = [begin + width * float(root.real) for root in roots if abs(root.imag) <= SAME and 0.0 < root.real < 1.0]
    inside = [at for at in inside if min(at - begin, end - at) > NEAR / 10 * width]
    if not inside:
        return (begin + end) / 2
    return min(inside, key=lambda at: abs(asking.ratio_at(at) - first.at(at)))


def _wide(asking: _Asking, begin: float, end: float, line: Piece) -> Piece:
    """The piece from two dishes far apart on it."""
    wide = asking.line(begin + 0.25 * (end - begin), begin + 0.75 * (end - begin)) or line
    a, b = _without_noise(wide.a, wide.b, end)
    c, d = _without_noise(wide.c, wide.d, end)
    return Piece(begin, end, a, b, c, d)


def _without_noise(base: float, slope: float, amount: float) -> tuple[float, float]:
    """Each of the two set to nothing where it is no more than floats leave of the other."""
    least = FLOAT_NOISE * 100 * max(abs(base), abs(slope * amount))
    return (base if abs(base) > least else 0.0), (slope if abs(slope * amount) > least else 0.0)


def _holds(asking: _Asking, piece: Piece) -> bool:
    """Whether nothing is better where it was not asked yet."""
    looked = [piece.start + part * (piece.stop - piece.start) for part in (BESIDE, 0.5, 1 - BESIDE)]
    return all(asking.is_best(piece, t, 10 * SAME) for t in looked)


def _joined(pieces: list[Piece]) -> Iterator[Piece]:
    """Neighbours on the same edge made one."""
    last: Piece | None = None
    for piece in pieces:
        if last is not None and _are_same(last, piece, last.start, piece.stop):
            last = Piece(last.start, piece.stop, last.a, last.b, last.c, last.d)
            continue
        if last is not None:
            yield last
        last = piece
    if last is not None:
        yield last
