"""What is eaten raw, and raw juices."""

import re
from collections.abc import Iterator

from solver.cautions.book import Book
from solver.cautions.caution import Caution
from solver.cautions.facts import Content, Facts, Part
from solver.cautions.kinds import EGG, POULTRY, animal, is_raw
from solver.components import Drippings

_MARINADE = re.compile(r"marinade|marinated|\bbrine\b")


def raw_flesh(facts: Facts, book: Book) -> Iterator[Caution]:
    """Raw meat, poultry, fish or shellfish in a component that nothing cooks."""
    for part in facts.parts:
        raw = [content for content in part.contents if animal(content) not in {None, EGG} and is_raw(content)]
        if raw and not part.is_cooked:
            yield book.caution("raw_animal_food", part.trigger(*raw, why="not cooked"))


def raw_juices(facts: Facts, book: Book) -> Iterator[Caution]:
    """Juices of raw poultry and marinades that reach the plate."""
    for part in facts.parts:
        from_poultry = [content for content in part.contents if animal(content) == POULTRY and is_raw(content)]
        marinades = [content for content in part.contents if _is_marinade(part, content)]
        eaten = part.component.drippings is not Drippings.DISCARDED
        if part.is_cooked and eaten and (from_poultry or marinades):
            why = f"drippings {part.component.drippings.value}"
            yield book.caution("raw_juices", part.trigger(*from_poultry, *marinades, why=why))
        elif not part.is_cooked and marinades:
            yield book.caution("raw_juices", part.trigger(*marinades, why="not cooked"))


def _is_marinade(part: Part, content: Content) -> bool:
    return _MARINADE.search(f"{part.component.name} {content.item} {content.words}".lower()) is not None
