"""The full-text index over the names of a catalogue's foods (SQLite FTS5, in memory), and the ranking.

How a query is answered, each step in one place:

1. Words: small letters, no accents, no "of" and "in"; 80/20 and 20 % are the numbers that the names hold as well.
2. Spelling: a word that no name and no kitchen word has becomes the most alike word that one has.
3. Kitchen words: "courgette" becomes "zucchini", "mince" becomes "ground" and leans towards beef (words.csv).
4. Match: the names that hold every word, by word stem (Porter), in any order. When none does: every word but the
   numbers; when none does: any of the words.
5. Rank: relevance (bm25; a word in the first part of a name counts most, then the second, then the rest), plus the
   distance from a plain food (plainness.py), less a bonus for each leaning of step 3 and for a name that begins with
   just what was asked ("lemons" is "Lemons, raw" before "Lemon juice"). Equal ones in the table's order.
"""

import sqlite3
from dataclasses import dataclass

from service.search.plainness import distance
from service.search.spelling import Spelling
from service.search.words import KitchenWord, Reading, read, singular, split
from solver.catalogue import Catalogue, name_parts

#: Words of a query that are looked at; the rest of a longer one is passed over.
MOST_WORDS = 12

#: A word counts six times in the first part of a name, three times in the second, once in the rest. A name whose first
#: part is just what was asked, its first word or its last ("lemons", but not "lemon juice") is worth 3 more.
_RANKED = (
    "SELECT rowid FROM foods WHERE foods MATCH ? "
    "ORDER BY bm25(foods, 6.0, 3.0, 1.0) + distance - 3.0 * (head IN (?, ?, ?))"
)

#: What a leaning of a kitchen word is worth, in the unit of bm25.
_LEANING = " - 4.0 * (rowid IN (SELECT rowid FROM foods WHERE foods MATCH ?))"

_TABLE = """
CREATE VIRTUAL TABLE foods USING fts5(
    first, second, rest, distance UNINDEXED, head UNINDEXED, tokenize = "porter unicode61 remove_diacritics 2")
"""


@dataclass(frozen=True, slots=True)
class Found:
    """One page of what fits a query, best first: food ids; and how many foods fit it in all."""

    ids: tuple[str, ...]
    total: int


class FoodSearch:
    """Built once; a pure function of the catalogue and the kitchen words. SQLite serialises its use by threads."""

    def __init__(self, catalogue: Catalogue, kitchen_words: tuple[KitchenWord, ...]) -> None:
        self._ids = catalogue.ids
        self._kitchen_words = kitchen_words
        self._database = sqlite3.connect(":memory:", check_same_thread=False)
        self._database.execute(_TABLE)
        rows = (_row(*food) for food in zip(range(len(catalogue)), catalogue.names, catalogue.groups, strict=True))
        sql = "INSERT INTO foods (rowid, first, second, rest, distance, head) VALUES (?, ?, ?, ?, ?, ?)"
        self._database.executemany(sql, rows)
        known = {word for name in catalogue.names for word in split(name) if not word.isdigit()}
        known |= {word for row in kitchen_words for word in row.words}
        self._known = frozenset(map(singular, known))
        self._spelling = Spelling(known)

    def find(self, query: str, limit: int, offset: int = 0) -> Found:
        """What fits a query; nothing for a query without a word. Takes any text at all."""
        words = tuple(self._spelt(word) for word in split(query)[:MOST_WORDS])
        reading = read(words, self._kitchen_words)
        for match in _matches(reading.terms):
            found = self._ranked(match, reading, limit, offset)
            if found.total:
                return found
        return Found((), 0)

    def _spelt(self, word: str) -> str:
        if word.isdigit() or singular(word) in self._known:
            return word
        return next(iter(self._spelling.nearest(word)), word)

    def _ranked(self, match: str, reading: Reading, limit: int, offset: int) -> Found:
        leanings = [_all(leaning) for leaning in reading.prefers]
        sql = _RANKED + _LEANING * len(leanings) + ", rowid"
        terms = reading.terms
        heads = (_head(terms), _head(terms[:1]), _head(terms[-1:]))
        rows = [row[0] for row in self._database.execute(sql, (match, *heads, *leanings))]
        return Found(tuple(self._ids[row] for row in rows[offset : offset + limit]), len(rows))


def _row(row: int, name: str, group: str) -> tuple[int, str, str, str, float, str]:
    first, second, *rest = (*name_parts(name), "")
    return row, first, second, ", ".join(rest), distance(name, group), _head(split(first))


def _head(words: tuple[str, ...]) -> str:
    return " ".join(sorted(map(singular, words)))


def _matches(terms: tuple[str, ...]) -> list[str]:
    """The match expressions to try, the strictest first."""
    words = tuple(term for term in terms if not term.isdigit())
    tries = (_all(terms), _all(words), _any(terms))
    return [each for each in dict.fromkeys(tries) if each]


def _all(terms: tuple[str, ...]) -> str:
    return " AND ".join(f'"{term}"' for term in terms)


def _any(terms: tuple[str, ...]) -> str:
    return " OR ".join(f'"{term}"' for term in terms)
