"""Board against plate: what goes into each component, and where it went."""

from collections.abc import Iterator, Sequence

from service.cards.drawing import WIDTH, Box, Drawing, Ink, Label, Shape, Texture, textured
from service.cards.reader import Reader
from service.schemas.cooked import CookedAnswer

_BARS = 44.0
_ROOM = WIDTH - _BARS
_BAR = 16.0
_BLOCK = 92.0


def plate(components: Sequence[CookedAnswer], reader: Reader) -> Drawing:
    """Two bars for each component that is cooked: raw, and what became of it, to one scale."""
    cooked = [each for each in components if each.method is not None]
    most = max((each.raw_g for each in cooked), default=0.0) or 1.0
    shapes = [shape for row, each in enumerate(cooked) for shape in _block(each, row * _BLOCK, _ROOM / most, reader)]
    said = "; ".join(f"{each.name}: {_said(each, reader)}" for each in cooked)
    text = reader.say("From the board to the plate: {components}.", components=said)
    return Drawing(WIDTH, _BLOCK * len(cooked), tuple(shapes), text)


def _block(each: CookedAnswer, top: float, per_g: float, reader: Reader) -> Iterator[Shape]:
    yield Label(0, top + 11, f"{each.name} ({each.method})")
    yield Label(0, top + 30, reader.say("board"), size=10)
    yield from textured(Box(_BARS, top + 18, each.raw_g * per_g, _BAR, "quiet"), "open")
    yield Label(_BARS + 4, top + 30, reader.weight(each.raw_g), size=10)
    yield Label(0, top + 52, reader.say("plate"), size=10)
    left = _BARS
    for _, grams, ink, texture in _parts(each, reader):
        yield from textured(Box(left, top + 40, grams * per_g, _BAR, ink), texture)
        left += grams * per_g
    for line, words in enumerate(_parts_said(each, reader)):
        yield Label((line % 2) * WIDTH / 2, top + 70 + line // 2 * 12, words, size=10)


def _parts(each: CookedAnswer, reader: Reader) -> Iterator[tuple[str, float, Ink, Texture]]:
    yield reader.say("cooked"), each.cooked_g, "protein", "slanted"
    yield reader.say("drippings eaten"), each.returned_g, "fat", "plain"
    yield reader.say("drippings not eaten"), each.lost_g, "fat", "level"
    yield reader.say("evaporated"), each.evaporated_g, "quiet", "open"


def _said(each: CookedAnswer, reader: Reader) -> str:
    parts = ", ".join(_parts_said(each, reader))
    return reader.say("{raw} raw: {parts}", raw=reader.weight(each.raw_g), parts=parts)


def _parts_said(each: CookedAnswer, reader: Reader) -> list[str]:
    return [f"{title} {reader.weight(grams)}" for title, grams, _, _ in _parts(each, reader) if grams > 0]
