"""How long things keep at 4 C, how soon they are chilled, and what a larger batch changes."""

from collections.abc import Iterator

from solver.cautions.book import Book
from solver.cautions.caution import Caution
from solver.cautions.facts import Facts
from solver.components import Drippings
from solver.cooking_kinds import FAMILY


def keeping(facts: Facts, book: Book) -> Iterator[Caution]:
    """For every dish with something cooked. What holds raw egg or garlic in fat has keeping times of its own."""
    cooked = [part for part in facts.parts if part.is_cooked]
    if not cooked:
        return
    yield book.caution("chill_soon", ", ".join(part.component.name for part in cooked))
    yield book.caution("keeping_cooked", ", ".join(part.component.name for part in cooked))
    kept = [part for part in cooked if part.component.drippings is not Drippings.DISCARDED]
    for part in kept:
        yield book.caution("keeping_drippings", part.trigger(why=f"drippings {part.component.drippings.value}"))


def evaporation(facts: Facts, book: Book) -> Iterator[Caution]:
    """What simmers in a pot that nobody weighed."""
    for part in facts.parts:
        method = part.component.method
        if method is not None and FAMILY.get(method) == "pot" and part.component.cooked_g is None:
            yield book.caution("evaporation_does_not_scale", part.trigger(why=method))
