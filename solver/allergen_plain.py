"""Which foods of a table are plain: one ingredient, raw or simply cooked, so that its nature says what it is not."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from solver.allergen_words import BREAK, Words, words_of
from solver.tables import read_table


@dataclass(frozen=True, slots=True)
class PlainFoods:
    """by_group: food group to the beginnings of descriptions, each with the allergens that it says nothing of."""

    by_group: Mapping[str, tuple[tuple[Words, frozenset[str]], ...]]

    def not_for(self, group: str, words: Words) -> frozenset[str] | None:
        """The allergens for which a plain food is not plain; None for a food that is not plain at all."""
        found = [codes for begins, codes in self.by_group.get(group, ()) if _begins(words, begins)]
        return frozenset().union(*found) if found else None


def _begins(words: Words, begins: Words) -> bool:
    """Whether a description begins with these words and has a break after them, so that apples are no apple juice."""
    return words[: len(begins)] == begins and words[len(begins) : len(begins) + 1] in {(), (BREAK,)}


def load_plain_foods(path: Path, codes: frozenset[str]) -> PlainFoods:
    """The table. Raises ReferenceDataError when it is missing or damaged."""
    table = read_table(path)
    by_group: dict[str, list[tuple[Words, frozenset[str]]]] = defaultdict(list)
    columns = (table.texts(column) for column in ("group", "begins", "not for"))
    for row, (group, begins, not_for) in enumerate(zip(*columns, strict=True)):
        named = frozenset(filter(None, not_for.split(";")))
        if not words_of(begins) or not named <= codes:
            raise table.damage(row, f"{begins!r} without {not_for!r} is no row about plain foods")
        by_group[group].append((words_of(begins), named))
    return PlainFoods({group: tuple(rows) for group, rows in by_group.items()})
