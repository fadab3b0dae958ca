"""The energy distribution of a portion as one strip."""

from collections.abc import Iterator, Sequence

from service.cards.drawing import WIDTH, Box, Drawing, Ink, Label, Shape, Texture, textured
from service.cards.reader import Reader
from service.schemas.dish import DistributionAnswer

_HEIGHT = 22.0

#: Room that the words below a part need.
_PER_LETTER = 6.6


def strip(shares: DistributionAnswer, reader: Reader) -> Drawing:
    """Fat, protein, carbohydrate and, where there is any, alcohol: whole percents that sum to 100."""
    parts = [part for part in _parts(shares, reader) if part[1] > 0]
    words = [f"{title} {percent} %" for title, percent, _, _ in parts]
    starts = [WIDTH * sum(percent for _, percent, _, _ in parts[:place]) / 100 for place in range(len(parts))]
    shapes: list[Shape] = [Label(at, _HEIGHT + 14, text) for at, text in zip(_apart(starts, words), words, strict=True)]
    for start, (_, percent, ink, texture) in zip(starts, parts, strict=True):
        shapes += textured(Box(start, 0, WIDTH * percent / 100, _HEIGHT, ink), texture)
    text = reader.say("Of the energy of a portion: {parts}.", parts=", ".join(words))
    return Drawing(WIDTH, _HEIGHT + 20, tuple(shapes), text)


def _apart(starts: Sequence[float], words: Sequence[str]) -> list[float]:
    """Where words begin: each at the start of its part, or as far before it as those behind it need."""
    places, free = [], WIDTH + _PER_LETTER
    for start, text in zip(reversed(starts), reversed(words), strict=True):
        free = min(start, free - _PER_LETTER * (len(text) + 1))
        places.append(free)
    return places[::-1]


def _parts(shares: DistributionAnswer, reader: Reader) -> Iterator[tuple[str, int, Ink, Texture]]:
    yield reader.say("fat"), shares.fat, "fat", "plain"
    yield reader.say("protein"), shares.protein, "protein", "slanted"
    yield reader.say("carbohydrate"), shares.carbohydrate, "carbohydrate", "upright"
    yield reader.say("alcohol"), shares.alcohol, "alcohol", "level"
