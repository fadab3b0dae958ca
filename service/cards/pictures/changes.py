"""Before and after of a rework: two bars for every amount that changed."""

from collections.abc import Iterator, Sequence

from service.cards.drawing import WIDTH, Box, Drawing, Ink, Label, Shape, Texture, textured
from service.cards.reader import Reader
from service.cards.titles import shortened
from service.schemas.rework import AmountChangeAnswer

_NAMES = 100.0
_BAR = 130.0
_BLOCK = 38.0


def changes(found: Sequence[AmountChangeAnswer], reader: Reader) -> Drawing:
    """Each item has a scale of its own, since a pinch of salt would not be seen beside a kilo of mince."""
    shapes = [shape for row, each in enumerate(found) for shape in _pair(each, row * _BLOCK, reader)]
    said = "; ".join(
        reader.say("{name} {before}, now {after}", name=each.name, before=each.before, after=each.after)
        for each in found
    )
    text = reader.say("Before and after: {changes}.", changes=said)
    return Drawing(WIDTH, _BLOCK * len(found) + 2, tuple(shapes), text)


def _pair(each: AmountChangeAnswer, top: float, reader: Reader) -> Iterator[Shape]:
    most = max(each.before_grams, each.after_grams) or 1.0
    yield Label(0, top + 12, shortened(each.name, 16))
    pair: tuple[tuple[float, str, float, Ink, Texture], ...] = (
        (each.before_grams, reader.say("before {amount}", amount=each.before), 2.0, "quiet", "open"),
        (each.after_grams, reader.say("now {amount}", amount=each.after), 17.0, "mark", "plain"),
    )
    for grams, words, down, ink, texture in pair:
        width = _BAR * grams / most
        yield from textured(Box(_NAMES, top + down, width, 12, ink), texture)
        yield Label(_NAMES + width + 4, top + down + 10, words, size=10)
