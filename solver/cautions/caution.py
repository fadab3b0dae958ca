"""A caution, and the table of what each one says."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from solver.tables import read_table


@dataclass(frozen=True, slots=True)
class Caution:
    """Something that may hurt somebody. code: stable snake_case. text: one to three sentences for a cook.

    trigger: what set it off, in the brief's own names, such as "patties: ground beef, minced".
    source: id of a row of the table of sources.
    beside_a_step: the same in a few words, where it is about a step of the method; else None.
    """

    code: str
    text: str
    trigger: str
    source: str
    beside_a_step: str | None = None


@dataclass(frozen=True, slots=True)
class Wording:
    """What a caution says. text, beside_a_step: with {names} for what only the dish knows; the latter may be empty."""

    text: str
    source: str
    beside_a_step: str


@dataclass(frozen=True, slots=True)
class Wordings:
    """All cautions that there are, by code."""

    of: Mapping[str, Wording]

    def caution(self, code: str, trigger: str, *, source: str = "", **known: str) -> Caution:
        """A caution of the table. source: in place of the table's own. known: what its text names in braces."""
        wording = self.of[code]
        text, beside_a_step = (words.format(**known) for words in (wording.text, wording.beside_a_step))
        return Caution(code, text, trigger, source or wording.source, beside_a_step or None)


def load_wordings(path: Path) -> Wordings:
    """The table. Raises ReferenceDataError when it is missing or damaged, or has a code twice."""
    table = read_table(path)
    of: dict[str, Wording] = {}
    columns = map(table.texts, ("code", "text", "source", "beside_a_step"))
    for row, (code, *said) in enumerate(zip(*columns, strict=True)):
        if code in of:
            raise table.damage(row, f"{code!r} is there twice")
        of[code] = Wording(*said)
    return Wordings(of)
