"""The words of a unit or measure text in a form that does not depend on case, plural, spelling or punctuation.

"Tablespoons, chopped" and "tbsp chopped" have the same words; so have "cloves" and "clove", and "slices (1 oz each)"
and "slice (1 oz)". The words are keys to compare with and are never shown: "slices" becomes "slic".
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from solver.units import SPELLINGS, UCUM_CODES, Dimension, Unit

#: Texts of units that are kept taken apart: a table has a few thousand, and the same ones come with every brief.
MOST_TEXTS = 4096

_WORD = re.compile(r"\d+(?:[./-]\d+)*|\.\d+|[^\W\d_]+")
_BRACKETS = re.compile(r"\([^()]*\)?")
#: What tells how much a measure is used for and not what is in it: "cup (8 fl oz)", "cup (1 NLEA serving)".
#: Fluid cream is what a cook pours, so "cup, fluid (yields 2 cups whipped)" is her cup.
_SAYS_NOTHING = re.compile(
    r"\W*(?:\d+ nlea serving|nlea serving(?: size)?|\d+ serving|[\d./]+ (?:fl oz|cup)|fluid\b.*)\W*", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class UnitWords:
    """A unit's text taken apart.

    unit: the weight or volume it begins with; None for a count ("large", "clove").
    words: all words behind that unit; bare: those outside brackets.
    alternatives: of "chopped or diced", the words of each; empty without an "or".
    is_plain: whether the words, if any, only say how much of it is used: "(1 NLEA serving)", "(8 fl oz)".
    """

    unit: Unit | None
    words: tuple[str, ...]
    bare: tuple[str, ...]
    alternatives: tuple[tuple[str, ...], ...]
    is_plain: bool

    @property
    def is_volume(self) -> bool:
        """Whether the text begins with a unit of volume."""
        return self.unit is not None and self.unit.dimension is Dimension.VOLUME


@lru_cache(maxsize=MOST_TEXTS)
def unit_words(text: str) -> UnitWords:
    """Take a unit's text apart: 'cup, chopped or diced (1" pieces)'. Any text has words, perhaps none."""
    unit, qualifier = _leading_unit(text.replace(" each)", ")"))
    outside = _BRACKETS.sub(" ", qualifier)
    pieces = re.split(r",|\bor\b", outside) if re.search(r"\bor\b", outside) else []
    return UnitWords(
        unit=unit,
        words=_words(qualifier),
        bare=_words(outside),
        alternatives=tuple(words for words in map(_words, pieces) if words),
        is_plain=not _words(qualifier) or _SAYS_NOTHING.fullmatch(qualifier) is not None,
    )


def unit_in_front(text: str) -> str:
    """The text with the unit that ends it put in front: "shredded cups" as "cups shredded". Others come back as is.

    For what a cook writes. A table's "bottle 8 fl oz" is a bottle and no 8 of a fluid ounce.
    """
    *words, last = text.split() or [""]
    return " ".join((last, *words)) if last.casefold() in SPELLINGS else text


def _leading_unit(text: str) -> tuple[Unit | None, str]:
    """The unit that a text is (as a UCUM code) or begins with (in two words or one), and the text behind it."""
    if text in UCUM_CODES:
        return UCUM_CODES[text], ""
    found = list(_WORD.finditer(text))[:2]
    for count in (2, 1):
        spelling = " ".join(match.group() for match in found[:count]).casefold()
        if len(found) >= count and spelling in SPELLINGS:
            return SPELLINGS[spelling], text[found[count - 1].end() :]
    return None, text


def _words(text: str) -> tuple[str, ...]:
    return tuple(_keys(match.group().casefold() for match in _WORD.finditer(text)))


def _keys(words: Iterator[str]) -> Iterator[str]:
    for word in words:
        unit = SPELLINGS.get(word)
        yield unit.name if unit else _singular_key(word)


def _singular_key(word: str) -> str:
    """The same key for a noun's singular and its plural: slice(s), leaf/leaves, box(es), cookie(s), berry/berries."""
    if len(word) > len("gas") and word.endswith("s") and not word.endswith("ss"):
        word = word[:-1]
    if len(word) > len("pi") and word.endswith("e"):
        word = word[:-1]
    return re.sub("y$", "i", re.sub("f$", "v", word))
