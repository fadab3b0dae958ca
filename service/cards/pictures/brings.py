"""Who brings what: every ingredient against fat, protein and carbohydrate, as percent of what all bring."""

from collections.abc import Sequence

from service.cards.drawing import WIDTH, Box, Drawing, Ink, Label, Shape, Texture, textured
from service.cards.reader import Reader
from service.cards.titles import shortened
from service.schemas.brings import BringsAnswer

_ROW = 18.0
_NAMES = 100.0
_COLUMN = (WIDTH - _NAMES) / 3
_BAR = 38.0

#: Amount, ink and texture of each column.
_COLUMNS: tuple[tuple[str, Ink, Texture], ...] = (
    ("fat_g", "fat", "plain"),
    ("protein_g", "protein", "slanted"),
    ("available_carbohydrate_g", "carbohydrate", "upright"),
)


def brings(items: Sequence[BringsAnswer], reader: Reader) -> Drawing:
    """One row for each ingredient in each component."""
    titles = (reader.say("fat"), reader.say("protein"), reader.say("available carb."))
    shapes: list[Shape] = [Label(_NAMES + number * _COLUMN, 11, title, size=10) for number, title in enumerate(titles)]
    for row, item in enumerate(items):
        shapes += _row(item, 20 + row * _ROW)
    said = "; ".join(_said(item, titles, reader) for item in items)
    text = reader.say("Who brings what, percent of what all bring: {items}.", items=said)
    return Drawing(WIDTH, 24 + len(items) * _ROW, tuple(shapes), text)


def _row(item: BringsAnswer, top: float) -> list[Shape]:
    shapes: list[Shape] = [Label(0, top + 10, shortened(item.name, 16))]
    for number, (name, ink, texture) in enumerate(_COLUMNS):
        percent, left = item.percent[name], _NAMES + number * _COLUMN
        width = _BAR * (percent or 0.0) / 100
        shapes += textured(Box(left, top, width, 12, ink), texture)
        shapes.append(Label(left + width + 3, top + 10, _percent(percent), size=10))
    return shapes


def _percent(percent: float | None) -> str:
    return "?" if percent is None else f"{percent:.0f} %"


def _said(item: BringsAnswer, titles: Sequence[str], reader: Reader) -> str:
    unknown = reader.say("unknown")
    parts = (
        f"{title} {unknown if item.percent[name] is None else _percent(item.percent[name])}"
        for title, (name, _, _) in zip(titles, _COLUMNS, strict=True)
    )
    return f"{item.name}: {', '.join(parts)}"
