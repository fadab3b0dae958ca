"""The nearest known word to one that is misspelt: trigrams to find candidates, likeness to choose among them."""

import difflib
import sqlite3
from collections.abc import Iterable

#: A word has to be this like another to be taken for it; difflib's ratio, 1 for equal words. Two letters that changed
#: places in a word of six leave 0.83; "xanthan" and "than" have 0.73, and whoever asks for the gum wants no other food.
_LIKENESS = 0.8

#: Letters of the longest word that is compared; no word of a kitchen is longer.
_LONGEST = 40

#: Candidates that are compared letter by letter.
_CANDIDATES = 40


class Spelling:
    """A list of words in a full-text index of their trigrams; SQLite serialises its use by several threads."""

    def __init__(self, words: Iterable[str]) -> None:
        self._database = sqlite3.connect(":memory:", check_same_thread=False)
        self._database.execute("CREATE VIRTUAL TABLE words USING fts5(word, tokenize = 'trigram')")
        rows = ((_framed(word),) for word in sorted(set(words)))
        self._database.executemany("INSERT INTO words VALUES (?)", rows)

    def nearest(self, word: str, most: int = 1) -> list[str]:
        """Up to `most` words, the most alike first; none when none is alike."""
        if len(word) > _LONGEST:
            return []
        framed = _framed(word)
        trigrams = {framed[place : place + 3] for place in range(len(framed) - 2)}
        asked = " OR ".join(f'"{each}"' for each in sorted(trigrams))
        sql = "SELECT word FROM words WHERE words MATCH ? ORDER BY bm25(words), rowid LIMIT ?"
        candidates = [row[0][1:-1] for row in self._database.execute(sql, (asked, _CANDIDATES))]
        return difflib.get_close_matches(word, candidates, n=most, cutoff=_LIKENESS)


def _framed(word: str) -> str:
    """Marks beginning and end, so that they count as letters do."""
    return f"<{word}>"
