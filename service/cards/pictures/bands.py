"""Where each target lies in its band: the band as a box, the value as a mark, how far it may be off as whiskers.

Of a conflict the same, with an arrow from where the nearest dish is to the band that it misses: what pulls there.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from service.cards.drawing import WIDTH, Box, Drawing, Label, Line, Shape
from service.cards.reader import Reader
from service.cards.titles import shortened, title_of
from service.schemas.dish import TargetAnswer
from service.schemas.plate_off import OffByAnswer, PlateOffAnswer
from service.words import band, number

_ROW = 36.0

#: Room for half a mark at both ends of a scale.
_EDGE = 6.0


@dataclass(frozen=True, slots=True)
class _Scale:
    """Values from `low` to `high` over the room of the scale."""

    low: float
    high: float

    def at(self, value: float) -> float:
        """Where a value stands; beyond the ends at the end."""
        part = (value - self.low) / (self.high - self.low)
        return _EDGE + (WIDTH - 2 * _EDGE) * min(1.0, max(0.0, part))


def bands(targets: Sequence[TargetAnswer], off: PlateOffAnswer | None, reader: Reader) -> Drawing:
    """One row for each target that has a value. off: how far the plate may be off; None where nobody counted it."""
    shown = [target for target in targets if target.value is not None]
    shapes: list[Shape] = []
    for row, target in enumerate(shown):
        shapes += _row(target, off_of(target, off), row * _ROW, reader)
    said = "; ".join(_said(target, off_of(target, off), reader) for target in shown)
    text = reader.say("Where each target lies: {targets}.", targets=said)
    return Drawing(WIDTH, len(shown) * _ROW + 4, tuple(shapes), text)


def off_of(target: TargetAnswer, off: PlateOffAnswer | None) -> OffByAnswer | None:
    """How far the plate may be off a target; None where that is not stated, or it is counted raw."""
    if off is None or target.basis == "raw":
        return None
    shares: Mapping[str, OffByAnswer | None] = {
        "fat_share_percent": off.fat_share_points,
        "protein_share_percent": off.protein_share_points,
        "carbohydrate_share_percent": off.carbohydrate_share_points,
        "ketogenic_ratio": off.ketogenic_ratio,
    }
    if target.of in shares:
        return shares[target.of]
    totals = off.portion if target.per == "portion" else off.batch
    return totals.energy_kcal if target.of == "energy_kcal" else totals.nutrients.get(target.of)


def _row(target: TargetAnswer, off: OffByAnswer | None, top: float, reader: Reader) -> Iterator[Shape]:
    value = target.value or 0.0
    scale = _scale(target, value, off)
    low = scale.low if target.at_least is None else target.at_least
    high = scale.high if target.at_most is None else target.at_most
    middle = top + 24
    yield Label(0, top + 12, shortened(title_of(target.of, reader), 32))
    yield Label(WIDTH, top + 12, _value(target), "end")
    yield Line(((_EDGE, middle), (WIDTH - _EDGE, middle)), "quiet")
    yield Box(scale.at(low), middle - 6, scale.at(high) - scale.at(low), 12, "quiet", open=True)
    if off is not None:
        least, most = value - off.below, scale.high if off.above is None else value + off.above
        yield Line(((scale.at(least), middle), (scale.at(most), middle)), "text", 2.0)
        for end in (least, most):
            yield Line(((scale.at(end), middle - 4), (scale.at(end), middle + 4)), "text", 2.0)
    yield from _mark(value, middle, scale, low=low, high=high)


def _mark(value: float, y: float, scale: _Scale, *, low: float, high: float) -> Iterator[Shape]:
    """A lozenge; outside the band with an arrow to it."""
    x = scale.at(value)
    if not low <= value <= high:
        end = scale.at(low if value < low else high)
        back = 5.0 if end > x else -5.0
        yield Line(((x, y), (end, y)), "mark", 2.0)
        yield Line(((end - back, y - 4), (end, y), (end - back, y + 4)), "mark", 2.0)
    yield Line(((x - 5, y), (x, y - 6), (x + 5, y), (x, y + 6), (x - 5, y)), "mark", 2.5)


def _scale(target: TargetAnswer, value: float, off: OffByAnswer | None) -> _Scale:
    """Room for the band, the value and its uncertainty, and a tenth on both sides."""
    points = [value, *(end for end in (target.at_least, target.at_most) if end is not None)]
    if off is not None:
        points += [value - off.below, value + (off.above or 0.0)]
    low, high = min(points), max(points)
    room = 0.1 * (high - low) or 0.1 * abs(high) or 1.0
    return _Scale(low - room, high + room)


def _value(target: TargetAnswer) -> str:
    return number(round(target.value or 0.0, 2), target.unit)


def _said(target: TargetAnswer, off: OffByAnswer | None, reader: Reader) -> str:
    name, wanted = title_of(target.of, reader), band(target.at_least, target.at_most, target.unit)
    said = reader.say("{name} {value}, asked {wanted}", name=name, value=_value(target), wanted=wanted)
    if off is None:
        return said
    return said + reader.say(", may be off {off}", off=reader.off(off.below, off.above))
