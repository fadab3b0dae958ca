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
    """

    code: str
    text: str
    trigger: str
    source: str


@dataclass(frozen=True, slots=True)
class Wording:
    """What a caution says. text: with {names} for what only the dish knows."""

    text: str
    source: str


@dataclass(frozen=True, slots=True)
class Wordings:
    """All cautions that there are, by code."""

    of: Mapping[str, Wording]

    def caution(self, code: str, trigger: str, *, source: str = "", **known: str) -> Caution:
        """A caution of the table. source: in place of the table's own. known: what its text names in braces."""
        wording = self.of[code]
        return Caution(code, wording.text.format(**known), trigger, source or wording.source)


def load_wordings(path: Path) -> Wordings:
    """The table. Raises ReferenceDataError when it is missing or damaged, or has a code twice."""
    table = read_table(path)
    of: dict[str, Wording] = {}
    for row, (code, text, source) in enumerate(zip(*map(table.texts, ("code", "text", "source")), strict=True)):
        if code in of:
            raise table.damage(row, f"{code!r} is there twice")
        of[code] = Wording(text, source)
    return Wordings(of)
