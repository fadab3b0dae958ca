"""A card: what is read of an answer, in sections, whatever it is drawn with. It holds texts and no more numbers."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from service.cards.drawing import Drawing

#: Where a section stands when there is room for two columns, and what goes below both.
Place: TypeAlias = Literal["left", "right", "below"]

#: The sheets that a card is printed on.
Paper: TypeAlias = Literal["A4", "letter"]

#: All places, in the order of reading.
PLACES: tuple[Place, ...] = ("left", "right", "below")


@dataclass(frozen=True, slots=True)
class Section:
    """heading: above it, empty where the section before it goes on."""

    heading: str
    place: Place


@dataclass(frozen=True, slots=True)
class Table(Section):
    """Rows under titles. The first column names the row; `numeric` says how many after it are set to the right."""

    titles: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numeric: int = 1


@dataclass(frozen=True, slots=True)
class Notes(Section):
    """Sentences, one a line. weight: `loud` for what must not be missed, `small` for what stands below."""

    texts: tuple[str, ...]
    weight: Literal["plain", "loud", "small"] = "plain"


@dataclass(frozen=True, slots=True)
class Step:
    """One step. facts: its vessel, heat and time. safe: what temperature it has to reach; None where it need not."""

    text: str
    facts: tuple[str, ...]
    safe: str | None


@dataclass(frozen=True, slots=True)
class Steps(Section):
    """Numbered steps."""

    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Picture(Section):
    """A drawing, whose alternative text carries every number that it shows."""

    drawing: Drawing


AnySection: TypeAlias = Table | Notes | Steps | Picture


@dataclass(frozen=True, slots=True)
class Card:
    """title: the dish. lead: one line below it. language: of its words, a BCP 47 tag. file_name: without its ending."""

    title: str
    lead: str
    sections: tuple[AnySection, ...]
    language: str = "en"
    file_name: str = "card"

    def at(self, place: Place) -> tuple[AnySection, ...]:
        """The sections of one place, in order."""
        return tuple(section for section in self.sections if section.place == place)
