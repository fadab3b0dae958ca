"""What stands in for what in a dish, and how much of it: the tables `stand_in_kinds.csv` and `stand_ins.csv`.

A kind is what a food is to a cook ("egg yolk", "broth"), told by the words of its name. A row says which kind, and
which food of it, stands in for another, and where: in a mix that is cooked, among pieces, in what is not cooked, or in
an emulsion. It is common practice, no source, but for the weights of the parts of an egg (USDA SR28).
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import isnan
from pathlib import Path

from solver.catalogue import Catalogue
from solver.foods import Food
from solver.tables import Table, read_table

#: Words of the column `where`.
MIX, PIECES, UNCOOKED, EMULSION = "mix", "pieces", "uncooked", "emulsion"

#: The kind of what a mix is made of.
MINCE = "mince"


@dataclass(frozen=True, slots=True)
class Kind:
    """words: all of them are in a name of this kind. lacks: none of them is. groups: food groups; empty for any."""

    name: str
    words: frozenset[str]
    lacks: frozenset[str]
    groups: frozenset[str]

    def fits(self, words: frozenset[str], group: str | None) -> bool:
        """Whether a food with these words in its name, and of this group, is of this kind."""
        return self.words <= words and not self.lacks & words and (not self.groups or group in self.groups)


@dataclass(frozen=True, slots=True, eq=False)
class StandIn:
    """One row of the table.

    of: the kind that is left out. kind: that which stands in. role: what both do. food: None for what the food table
    lacks, so that only a pantry can have it. where: in what kinds of place. grams_per_gram: of it for 1 g of what is
    left out; None for as much as brings the same fat, or salt. how: a sentence or two for the cook; None for nothing.
    """

    of: str
    kind: str
    role: str
    food: Food | None
    where: frozenset[str]
    grams_per_gram: float | None
    how: str | None
    source: str


@dataclass(frozen=True, slots=True, eq=False)
class StandIns:
    """kinds: the first that fits is that of a food. rows: in the order in which they are proposed."""

    kinds: tuple[Kind, ...] = ()
    rows: tuple[StandIn, ...] = ()

    def kind_of(self, food: Food) -> str | None:
        """What it is to a cook; None where no kind fits."""
        words = words_of(food.name)
        return next((kind.name for kind in self.kinds if kind.fits(words, food.group)), None)

    def rows_for(self, food: Food) -> tuple[StandIn, ...]:
        """What stands in for a food, in order."""
        kind = self.kind_of(food)
        return () if kind is None else tuple(row for row in self.rows if row.of == kind)


def words_of(name: str) -> frozenset[str]:
    """The words of a name in lower case, those that look like plurals also without their endings."""
    words = re.findall(r"[a-z]+", name.casefold())
    return frozenset((*words, *(short for word in words for short in _singulars(word))))


def load_stand_ins(folder: Path, catalogue: Catalogue) -> StandIns:
    """Both tables, with the foods they name. Raises ReferenceDataError when one is missing or damaged."""
    kinds, rows = read_table(folder / "stand_in_kinds.csv"), read_table(folder / "stand_ins.csv")
    columns = (kinds.texts(column) for column in ("kind", "words", "lacks", "groups"))
    found = (
        Kind(name, _split(words), _split(lacks), _split(groups))
        for name, words, lacks, groups in zip(*columns, strict=True)
    )
    return StandIns(tuple(found), tuple(_rows(rows, catalogue)))


def _rows(table: Table, catalogue: Catalogue) -> Iterator[StandIn]:
    columns = ("for", "role", "kind", "food", "where", "how", "source")
    texts = zip(*(table.texts(column) for column in columns), strict=True)
    amounts = table.numbers(["grams_for_1_g"])[:, 0]
    for number, ((of, role, kind, food, where, how, source), grams) in enumerate(zip(texts, amounts, strict=True)):
        if food and food not in catalogue.ids:
            raise table.damage(number, f"there is no food {food!r}")
        yield StandIn(
            of=of,
            kind=kind,
            role=role,
            food=catalogue.food(food) if food else None,
            where=_split(where),
            grams_per_gram=None if isnan(grams) else float(grams),
            how=how or None,
            source=source,
        )


def _split(text: str) -> frozenset[str]:
    return frozenset(word for word in text.split(";") if word)


def _singulars(word: str) -> Iterator[str]:
    if word.endswith("s"):
        yield word[:-1]
    if word.endswith("es"):
        yield word[:-2]
