"""The words of a description that name an allergen, or that say that a food is not plain.

A description is a row of words; a comma or a bracket stands in it as a word of its own, so that no phrase reaches
across one unless the table writes it. The longest phrase of the table that begins at a word claims all its words:
"peanut butter" is read as peanuts, and its "butter" is not looked at again.
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from typing import TypeAlias

from solver.tables import read_table

Words: TypeAlias = tuple[str, ...]

#: A comma, a semicolon or a bracket, once it is a word.
BREAK = ","

#: In the column of allergens: every one of them.
_ALL = "all"

_WORD = re.compile(r"[^\W_]+|[,;()\[\]]")


class Says(Enum):
    """What a phrase says of its allergens.

    CONTAINS: the food contains them. WITHHELD: what other words say of them is a matter of doubt ("vegan butter").
    DOUBTFUL: the food is not plain for them. NOTHING: the phrase is no allergen, though a word of it may be.
    """

    CONTAINS = "contains"
    WITHHELD = "withheld"
    DOUBTFUL = "doubtful"
    NOTHING = "nothing"


Told: TypeAlias = Mapping[Says, frozenset[str]]


@dataclass(frozen=True, slots=True)
class Phrases:
    """The table, by its first word, longest phrase first; what a phrase says, by kind."""

    by_first_word: Mapping[str, tuple[tuple[Words, Told], ...]]

    def told(self, words: Words) -> Iterator[Told]:
        """What each phrase found in a description says, from left to right; no word is used twice."""
        place = 0
        while place < len(words):
            for phrase, says in self.by_first_word.get(words[place], ()):
                if words[place : place + len(phrase)] == phrase:
                    yield says
                    place += len(phrase)
                    break
            else:
                place += 1


@dataclass(frozen=True, slots=True)
class WordTable:
    """every: all phrases of the table. doubts: those that say DOUBTFUL or NOTHING alone.

    A doubt is looked for by itself, because a longer phrase that names an allergen would hide it ("almond paste").
    """

    every: Phrases
    doubts: Phrases

    def contained(self, words: Words) -> tuple[frozenset[str], frozenset[str]]:
        """(allergens that a description names, those of which it says something that withdraws the name)."""
        told = list(self.every.told(words))
        return _union(told, Says.CONTAINS), _union(told, Says.WITHHELD)

    def doubtful(self, words: Words) -> frozenset[str]:
        """Allergens for which a food of this description is not plain."""
        return _union(self.doubts.told(words), Says.DOUBTFUL)


def words_of(text: str) -> Words:
    """A text as words in lower case without their plural s; breaks are kept, but none at either end or in a row."""
    words: list[str] = []
    for found in _WORD.findall(text.casefold()):
        word = _singular(found) if found[0].isalnum() else BREAK
        if word != BREAK or (words and words[-1] != BREAK):
            words.append(word)
    if words and words[-1] == BREAK:
        words.pop()
    return tuple(words)


def load_words(path: Path, codes: frozenset[str]) -> WordTable:
    """The table. codes: what `all` stands for. Raises ReferenceDataError when it is missing or damaged."""
    table = read_table(path)
    rows: dict[Words, dict[Says, frozenset[str]]] = defaultdict(dict)
    columns = (table.texts(column) for column in ("words", "says", "allergens"))
    for row, (phrase, says, allergens) in enumerate(zip(*columns, strict=True)):
        named = codes if allergens == _ALL else frozenset(filter(None, allergens.split(";")))
        if says not in {kind.value for kind in Says} or not named <= codes or not words_of(phrase):
            raise table.damage(row, f"{phrase!r} {says} {allergens!r} is no row about allergens")
        told = rows[words_of(phrase)]
        told[Says(says)] = told.get(Says(says), frozenset()) | named
    doubts = {phrase: told for phrase, told in rows.items() if {Says.DOUBTFUL, Says.NOTHING} & set(told)}
    return WordTable(_phrases(rows), _phrases(doubts))


def _phrases(rows: Mapping[Words, Told]) -> Phrases:
    by_first: dict[str, list[tuple[Words, Told]]] = defaultdict(list)
    for phrase in sorted(rows, key=len, reverse=True):
        by_first[phrase[0]].append((phrase, rows[phrase]))
    return Phrases({word: tuple(phrases) for word, phrases in by_first.items()})


def _union(told: Iterable[Told], says: Says) -> frozenset[str]:
    return frozenset().union(*(each.get(says, frozenset()) for each in told))


def _singular(word: str) -> str:
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word  # noqa: PLR2004
