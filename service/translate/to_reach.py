"""Ranges and frontiers as they go out."""

from collections.abc import Sequence
from typing import Any

from service.schemas.answer import LeftOutAnswer
from service.schemas.reach import (
    AxisAnswer,
    CurveAnswer,
    EndAnswer,
    PieceAnswer,
    PolygonAnswer,
    RangeAnswer,
    ReachAmount,
    VertexAnswer,
)
from service.translate.numbers import maybe_rounded, rounded
from solver.outcome import LeftOut, Quantity
from solver.quantities import QUANTITY
from solver.reach_outcome import Curve, End, Frontier, Piece, Polygon, Range
from solver.targets import Target


def to_range(found: Range) -> RangeAnswer:
    """A range as the contract has it."""
    return RangeAnswer(
        at_least=maybe_rounded(found.target.lower),
        at_most=maybe_rounded(found.target.upper),
        least=_end(found.least),
        most=_end(found.most),
        outer=found.outer,
        left_out=_left_out(found.left_out),
        **_axis(found.target),
    )


def to_frontier(found: Frontier) -> PolygonAnswer | CurveAnswer:
    """A frontier as the contract has it."""
    match found:
        case Polygon():
            corners = [
                VertexAnswer(x=_clean(each.x), y=_clean(each.y), attained=each.attained, amounts=_amounts(each.amounts))
                for each in found.vertices
            ]
            gap = _gap(found.gap_percent)
            return PolygonAnswer(kind="polygon", vertices=corners, outer=found.outer, gap_percent=gap, **_common(found))
        case Curve():
            least, most = ([_piece(piece) for piece in side] for side in (found.least, found.most))
            gap = _gap(found.gap)
            return CurveAnswer(kind="curve", least=least, most=most, in_bands=found.in_bands, gap=gap, **_common(found))


def _common(found: Frontier) -> dict[str, Any]:
    return {
        "x": AxisAnswer(**_axis(found.x)),
        "y": AxisAnswer(**_axis(found.y)),
        "complete": found.complete,
        "checked": found.checked.value,
        "note": found.note,
        "left_out": _left_out(found.left_out),
    }


def _axis(target: Target) -> dict[str, Any]:
    return {
        "id": target.id,
        "of": target.of,
        "per": target.per.value,
        "basis": target.basis.value,
        "unit": QUANTITY[target.of].unit,
    }


def _end(end: End) -> EndAnswer:
    return EndAnswer(
        value=None if end.value is None else _clean(end.value),
        status=end.status.value,
        checked=end.checked.value,
        gap=_gap(end.gap),
        note=end.note,
        amounts=_amounts(end.amounts),
    )


def _gap(gap: float | None) -> float | None:
    return None if gap is None else _clean(gap)


def _amounts(quantities: Sequence[Quantity]) -> list[ReachAmount]:
    return [
        ReachAmount(name=each.item.name, component=each.placed.component, grams=rounded(each.grams))
        for each in quantities
    ]


def _piece(piece: Piece) -> PieceAnswer:
    # Not rounded: the four numbers are multiplied with large amounts.
    return PieceAnswer(start=piece.start, stop=piece.stop, a=piece.a, b=piece.b, c=piece.c, d=piece.d)


def _left_out(items: Sequence[LeftOut]) -> list[LeftOutAnswer]:
    return [LeftOutAnswer(name=left.item, lacks=list(left.lacks)) for left in items]


def _clean(value: float) -> float:
    """Rounded, and never minus nothing."""
    return rounded(value) + 0.0
