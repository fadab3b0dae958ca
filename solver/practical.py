"""Which foods of a table a cook would add to a dish to close a gap: no dish, no baby food, nothing dried or powdered.

`additions.csv` lists them by the beginnings of their descriptions, in the order in which equals are proposed (common
practice, no source). What is in it is plain and usual: oils to cook with, and of meat a few rows that any shop has,
since the smallest addition would otherwise be the leanest of 318 cuts of beef. What is added is eaten as it is, so
meat, fish, eggs and what nobody eats raw come from cooked rows, everything else raw; liver, enhanced meat and
substitutes for salt are never proposed.
"""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from solver.catalogue import Catalogue
from solver.foods import Food
from solver.tables import read_table

#: What no description of a food to add may hold, whatever the table says (our choice).
NEVER = ("babyfood", "dehydrated", "powder", "freeze", "fast food", "substitute", "replacement", "commodity")


@dataclass(frozen=True, slots=True, eq=False)
class Practical:
    """food: as the table has it. kind: what it is to a cook ("oil"); of one kind one is proposed."""

    food: Food
    kind: str


@dataclass(frozen=True, slots=True, eq=False)
class Eligible:
    """What may be proposed. foods: equals in this order. allowed: whether a brief does not exclude a food.

    allowed is asked only of the foods that are looked at, since it may be slow.
    """

    foods: Sequence[Practical]
    allowed: Callable[[Food], bool]


@dataclass(frozen=True, slots=True)
class PracticalRule:
    """A row of the table, in lower case.

    begins: the beginning of a description, whole words. has: one of these is in it, if any are given. lacks: none is.
    """

    group: str
    kind: str
    begins: str
    has: tuple[str, ...]
    lacks: tuple[str, ...]

    def fits(self, group: str, name: str) -> bool:
        """Whether a food of this group and description is such a food."""
        text = name.casefold()
        if (
            group != self.group
            or not text.startswith(self.begins)
            or text[len(self.begins) :][:1] not in {"", ",", " "}
        ):
            return False
        if any(word in text for word in (*NEVER, *self.lacks)):
            return False
        return not self.has or any(word in text for word in self.has)


def load_practical(path: Path) -> tuple[PracticalRule, ...]:
    """The rules, in order. Raises ReferenceDataError when the table is missing or damaged."""
    table = read_table(path)
    columns = (table.texts(column) for column in ("group", "kind", "begins", "has one of", "lacks"))
    return tuple(
        PracticalRule(group, kind, begins.casefold(), _words(has), _words(lacks))
        for group, kind, begins, has, lacks in zip(*columns, strict=True)
    )


def practical_foods(catalogue: Catalogue, rules: Sequence[PracticalRule]) -> tuple[Practical, ...]:
    """The foods of a table that may be added, each once: the first of every kind, then the second, and so on.

    Within a kind they stand in the order of the rules, then of the table.
    """
    found: dict[int, tuple[int, str]] = {}
    seen: Counter[str] = Counter()
    rows_of = _rows_by_group(catalogue)
    for rule in rules:
        for row in rows_of.get(rule.group, ()):
            if row not in found and rule.fits(rule.group, catalogue.names[row]):
                found[row] = (seen[rule.kind], rule.kind)
                seen[rule.kind] += 1
    ordered = sorted(found.items(), key=lambda each: each[1][0])
    return tuple(Practical(catalogue.food(catalogue.ids[row]), kind) for row, (_, kind) in ordered)


def _rows_by_group(catalogue: Catalogue) -> dict[str, list[int]]:
    rows_of: dict[str, list[int]] = {}
    for row, group in enumerate(catalogue.groups):
        rows_of.setdefault(group, []).append(row)
    return rows_of


def _words(text: str) -> tuple[str, ...]:
    return tuple(word.casefold() for word in text.split(";") if word)
