"""What in a dish or a brief may hurt somebody: each caution with a code, a text, its trigger and its source.

What they say is data (`cautions.csv`); when each is said is decided here, one theme a module. That no caution is said
never means that a dish is safe.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Protocol

from solver.brief import Brief
from solver.cautions.book import Book, load_book
from solver.cautions.botulism import botulism
from solver.cautions.caution import Caution
from solver.cautions.curing import curing, curing_salt_problems
from solver.cautions.eggs import half_egg, raw_egg
from solver.cautions.facts import Facts, facts_of
from solver.cautions.intake import energy, protein
from solver.cautions.keeping import evaporation, keeping
from solver.cautions.labels import collagen, pumped
from solver.cautions.people import not_assessed, people
from solver.cautions.raw import raw_flesh, raw_juices
from solver.cautions.safe_temperatures import US_CONSUMER, Profile
from solver.cautions.temperatures import temperatures
from solver.cautions.vitamins import copper, retinol
from solver.eater import Eater
from solver.outcome import Dish

__all__ = ["Caution", "Cautions", "curing_salt_problems", "open_cautions"]

#: What is looked for, in the order in which it is said: what can kill first.
_THEMES: tuple[Callable[[Facts, Book], Iterator[Caution]], ...] = (
    people,
    temperatures,
    raw_flesh,
    raw_egg,
    raw_juices,
    botulism,
    curing,
    retinol,
    copper,
    energy,
    protein,
    pumped,
    collagen,
    keeping,
    half_egg,
    evaporation,
    not_assessed,
)


class Cautions(Protocol):
    """Draws up the cautions of a dish."""

    def __call__(
        self, brief: Brief, dish: Dish | None, eater: Eater | None, profile: Profile = US_CONSUMER
    ) -> tuple[Caution, ...]:
        """Every caution, each code once for each trigger.

        dish: None when nothing was planned; then only what follows from the brief is said. eater: None when nobody is
        described. profile: whose temperatures are stated.
        """


def open_cautions(folder: Path) -> Cautions:
    """Load the tables of the folder of reference data. Raises ReferenceDataError when one is missing or damaged."""
    book = load_book(folder)

    def cautions(
        brief: Brief, dish: Dish | None, eater: Eater | None, profile: Profile = US_CONSUMER
    ) -> tuple[Caution, ...]:
        return cautions_by(replace(book, profile=profile), facts_of(brief, dish, eater))

    return cautions


def cautions_by(book: Book, facts: Facts) -> tuple[Caution, ...]:
    """Every caution that the facts give rise to, without repetitions."""
    found = (caution for theme in _THEMES for caution in theme(facts, book))
    return tuple(dict.fromkeys(found))
