"""What a pantry can do as text for the terminal: the ranges, then two targets against each other."""

from collections.abc import Iterator

from service.schemas.reach import (
    AxisAnswer,
    CurveAnswer,
    EndAnswer,
    PieceAnswer,
    PolygonAnswer,
    RangeAnswer,
    ReachAnswer,
)
from service.text_part import part
from service.words import band, number


def readable_reach(answer: ReachAnswer) -> str:
    """The answer as lines of text. The dishes at the ends are in the answer, not here."""
    return "\n".join(_lines(answer)) + "\n"


def _lines(answer: ReachAnswer) -> Iterator[str]:
    yield f"{answer.title} ({answer.portions} {'portion' if answer.portions == 1 else 'portions'})"
    yield from part("What can be reached while the other musts hold", map(_range, answer.ranges))
    match answer.frontier:
        case PolygonAnswer():
            yield from _polygon(answer.frontier)
        case CurveAnswer():
            yield from _curve(answer.frontier)
    left_out = {left.name: left.lacks for each in answer.ranges for left in each.left_out}
    yield from part("Left out", (f"{name}: no value for {', '.join(lacks)}" for name, lacks in left_out.items()))
    yield from part("Excluded", (f"{each.name}: {each.why}" for each in answer.excluded))
    yield from part("Mind", answer.warnings)
    yield from part("Cautions", (f"- {each.text} ({each.trigger})" for each in answer.cautions))
    yield from part("Proof", [f"solved by {answer.solver} {answer.solver_version} in {answer.seconds:.2f} s"])
    yield from part("Reminder", [answer.reminder])


def _range(each: RangeAnswer) -> str:
    asked = ""
    if each.at_least is not None or each.at_most is not None:
        asked = f", asked: {band(each.at_least, each.at_most, each.unit)}"
    hull = "; its ends may not quite be reached" if each.outer else ""
    ends = dict.fromkeys((_end(each.least, each.unit), _end(each.most, each.unit)))  # none of either is said once
    return f"- {each.id}: {' to '.join(ends)}{asked}{hull}"


def _end(end: EndAnswer, unit: str) -> str:
    if end.value is None:
        return f"no value ({end.note})"
    proof = "" if end.status == "optimal" else f" ({end.status.replace('_', ' ')})"
    note = "" if end.note is None else f" ({end.note})"
    return f"{_rounded(end.value, unit)}{proof}{note}"


def _polygon(found: PolygonAnswer) -> Iterator[str]:
    corners = [f"- {_at(found.x, corner.x)}, {_at(found.y, corner.y)}" for corner in found.vertices]
    yield from part(f"Corners of what can be had of {found.x.id} and {found.y.id}", [*corners, *_said(found)])


def _curve(found: CurveAnswer) -> Iterator[str]:
    pieces = [f"- {name}, {_piece(found, piece)}" for name in ("least", "most") for piece in getattr(found, name)]
    yield from part(f"{found.y.id} over {found.x.id}", [*pieces, *_said(found)])


def _piece(found: CurveAnswer, piece: PieceAnswer) -> str:
    ends = dict.fromkeys(_value(found, piece, at) for at in (piece.start, piece.stop))
    return f"from {_at(found.x, piece.start)} to {_at(found.x, piece.stop)}: {' to '.join(ends)}"


def _value(found: CurveAnswer, piece: PieceAnswer, at: float) -> str:
    below = piece.c + piece.d * at
    return "undefined" if below == 0 else _rounded((piece.a + piece.b * at) / below, found.y.unit)


def _said(found: PolygonAnswer | CurveAnswer) -> Iterator[str]:
    if found.note is not None:
        yield found.note
    if not found.complete:
        yield "The clock ended the search; more may be reachable."
    match found:
        case PolygonAnswer(outer=True, gap_percent=None):
            yield "Steps or pans make less reachable than this."
        case PolygonAnswer(outer=True, gap_percent=gap):
            yield f"Steps or pans leave only some of this; nothing is further out than {gap:.3g} % of its width."
        case CurveAnswer(in_bands=True, gap=gap) if gap is not None:
            yield f"Nothing goes further than a piece by more than {_rounded(gap, found.y.unit)}."


def _at(axis: AxisAnswer, value: float) -> str:
    return f"{_rounded(value, axis.unit)} {axis.id}" if axis.unit == "1" else _rounded(value, axis.unit)


def _rounded(value: float, unit: str) -> str:
    return number(round(value, 2), unit)
