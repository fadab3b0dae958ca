"""What is reachable of two targets: the polygon of two amounts, or the two curves of a share over an amount."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from service.cards.drawing import WIDTH, Area, Drawing, Label, Line, Shape
from service.cards.reader import Reader
from service.cards.titles import title_of
from service.schemas.reach import AxisAnswer, CurveAnswer, PieceAnswer, PolygonAnswer
from service.words import number

_LEFT = 48.0
_TOP = 14.0
_WIDTH = WIDTH - _LEFT - 2
_HEIGHT = 170.0

#: Points that a piece of a curve is drawn with.
_POINTS = 24

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Frame:
    """From values to places."""

    low: Point
    high: Point

    def at(self, point: Point) -> Point:
        """Where a point stands."""
        x, y = (
            (value - low) / (high - low or 1.0) for value, low, high in zip(point, self.low, self.high, strict=True)
        )
        return _LEFT + _WIDTH * x, _TOP + _HEIGHT * (1 - y)


def region(frontier: PolygonAnswer | CurveAnswer, reader: Reader) -> Drawing | None:
    """The region; None where nothing is reachable, or the two are bound together in one point."""
    outline = _around(frontier) if isinstance(frontier, CurveAnswer) else _corners(frontier)
    if not outline:
        return None
    frame = _frame(outline)
    shapes = (Area(tuple(frame.at(point) for point in outline), "fat"), *_axes(frontier, frame, reader))
    return Drawing(WIDTH, _TOP + _HEIGHT + 40, shapes, _said(frontier, outline, reader))


def _corners(polygon: PolygonAnswer) -> list[Point]:
    return [(vertex.x, vertex.y) for vertex in polygon.vertices]


def _around(curve: CurveAnswer) -> list[Point]:
    """Along the upper curve and back along the lower one."""
    return [*_points(curve.most), *reversed(_points(curve.least))]


def _points(pieces: Sequence[PieceAnswer]) -> list[Point]:
    return [point for piece in pieces for point in _piece(piece)]


def _piece(piece: PieceAnswer) -> Iterator[Point]:
    for number_ in range(_POINTS + 1):
        t = piece.start + (piece.stop - piece.start) * number_ / _POINTS
        below = piece.c + piece.d * t
        if below > 0:
            yield t, _value(piece, t)


def _value(piece: PieceAnswer, t: float) -> float:
    return (piece.a + piece.b * t) / (piece.c + piece.d * t)


def _frame(outline: Sequence[Point]) -> _Frame:
    columns = list(zip(*outline, strict=True))
    return _Frame((min(columns[0]), min(columns[1])), (max(columns[0]), max(columns[1])))


def _axes(frontier: PolygonAnswer | CurveAnswer, frame: _Frame, reader: Reader) -> Iterator[Shape]:
    foot, right = _TOP + _HEIGHT, _LEFT + _WIDTH
    yield Line(((_LEFT, _TOP), (_LEFT, foot), (right, foot)), "text")
    yield Label(_LEFT, foot + 14, number(round(frame.low[0], 1)), size=10)
    yield Label(right, foot + 14, number(round(frame.high[0], 1)), "end", 10)
    yield Label(_LEFT - 5, foot, number(round(frame.low[1], 1)), "end", 10)
    yield Label(_LEFT - 5, _TOP + 8, number(round(frame.high[1], 1)), "end", 10)
    yield Label((_LEFT + right) / 2, foot + 30, _axis(frontier.x, reader), "middle")
    yield Label(_LEFT + 4, _TOP - 3, _axis(frontier.y, reader))


def _axis(axis: AxisAnswer, reader: Reader) -> str:
    return f"{title_of(axis.of, reader)} ({axis.unit})"


def _said(frontier: PolygonAnswer | CurveAnswer, outline: Sequence[Point], reader: Reader) -> str:
    """The corners; of curves the ends of their pieces."""
    if isinstance(frontier, CurveAnswer):
        pieces = (*frontier.most, *frontier.least)
        outline = [(t, _value(piece, t)) for piece in pieces for t in (piece.start, piece.stop) if _defined(piece, t)]
    corners = "; ".join(f"{number(round(x, 2))}, {number(round(y, 2))}" for x, y in outline)
    return reader.say(
        "What is reachable of {x} and {y}, corner by corner: {corners}.",
        x=_axis(frontier.x, reader),
        y=_axis(frontier.y, reader),
        corners=corners,
    )


def _defined(piece: PieceAnswer, t: float) -> bool:
    return piece.c + piece.d * t > 0
