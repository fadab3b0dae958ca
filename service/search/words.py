"""The words that kitchens use and the food table does not: British for American, trade names, household names."""

import csv
import re
import unicodedata
from dataclasses import dataclass
from pathlib import Path

from solver.errors import ReferenceDataError

#: Words that say nothing about which food is meant.
_EMPTY = frozenset({"a", "an", "and", "for", "from", "in", "of", "or", "the", "to"})

_WORD = re.compile(r"[^\W\d_]+|\d+")

_ENDINGS = (("ies", "y"), ("oes", "o"), ("ches", "ch"), ("shes", "sh"), ("xes", "x"), ("ss", "ss"), ("us", "us"))


@dataclass(frozen=True, slots=True)
class Reading:
    """What a query asks for: `terms` the names must hold, `prefers` the words that put a name further up."""

    terms: tuple[str, ...]
    prefers: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class KitchenWord:
    """`words` in any order stand for `means`, which may be empty, and lean towards names with all of `prefers`."""

    words: frozenset[str]
    means: tuple[str, ...]
    prefers: tuple[str, ...]


def split(text: str) -> tuple[str, ...]:
    """The words and whole numbers of a text, small letters, no accents, without the empty words.

    "80/20" and "20 % fat" become ("80", "20") and ("20", "fat"): the names of the table read alike.
    """
    plain = text.casefold()
    if not plain.isascii():  # nearly every name of the table is, and all of them are split at start
        decomposed = unicodedata.normalize("NFKD", plain)
        plain = "".join(letter for letter in decomposed if not unicodedata.combining(letter))
    return tuple(word for word in _WORD.findall(plain.replace("'", "")) if word not in _EMPTY)


def singular(word: str) -> str:
    """The word without its plural ending; only good for comparing two words that went through it."""
    for ending, stem in _ENDINGS:
        if word.endswith(ending) and len(word) > len(ending) + 1:
            return word.removesuffix(ending) + stem
    return word.removesuffix("s") if len(word) > len("gas") else word


def load_words(path: Path) -> tuple[KitchenWord, ...]:
    """The table of kitchen words; those of more words first. Raises ReferenceDataError."""
    try:
        with path.open(encoding="utf-8", newline="") as stream:
            rows = [_kitchen_word(row) for row in csv.DictReader(stream)]
    except (OSError, UnicodeDecodeError, csv.Error, KeyError) as error:
        raise ReferenceDataError(f"{path}: cannot be read: {error}") from error
    return tuple(sorted(rows, key=lambda row: -len(row.words)))


def _kitchen_word(row: dict[str, str]) -> KitchenWord:
    words, means, prefers = (split(row[column]) for column in ("words", "means", "prefers"))
    return KitchenWord(frozenset(map(singular, words)), means, prefers)


def read(words: tuple[str, ...], table: tuple[KitchenWord, ...]) -> Reading:
    """Put what the table has for the words, each word once, in place of them."""
    left = {singular(word): word for word in words}
    terms: list[str] = []
    prefers = []
    for row in table:
        if row.words <= left.keys():
            for word in row.words:
                del left[word]
            terms += row.means
            prefers += [row.prefers] if row.prefers else []
    return Reading(tuple(dict.fromkeys((*terms, *left.values()))), tuple(prefers))
