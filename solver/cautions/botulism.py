"""Garlic and herbs in fat, and what is sealed under fat: no air, little acid, no heat that kills spores."""

import re
from collections.abc import Iterator
from math import fsum

from solver.cautions.book import Book
from solver.cautions.caution import Caution
from solver.cautions.facts import Content, Facts, Part
from solver.cautions.kinds import animal, is_aromatic

_SEALED = re.compile(
    r"\bconfit\b|\bpotted\b|\brillettes?\b|fat[- ]sealed|under (fat|oil)|sealed in (fat|oil)|in oil jar"
)

#: From this part of fat in the raw weight on, what else is in it lies in fat.
_MOSTLY_FAT = 0.5


def botulism(facts: Facts, book: Book) -> Iterator[Caution]:
    """Aromatics in an uncooked component that is at least half fat; confit and fat-sealed pots by their names."""
    for part in facts.parts:
        aromatic = [content for content in part.contents if is_aromatic(content)]
        if aromatic and not part.is_cooked and _is_mostly_fat(part.contents):
            yield book.caution("garlic_or_herbs_in_fat", part.trigger(*aromatic, why="in fat"))
        else:
            yield from _in_a_dish(part, aromatic, book)
        if _is_sealed(facts, part):
            yield book.caution("sealed_in_fat", part.trigger(why="sealed under fat"))


def _in_a_dish(part: Part, aromatic: list[Content], book: Book) -> Iterator[Caution]:
    """An oil with garlic that was made before keeps its danger in whatever it goes into."""
    for item in dict.fromkeys(content.item for content in aromatic if content.inside):
        inside = [content for content in part.contents if content.inside and content.item == item]
        if _is_mostly_fat(inside):
            found = [content for content in inside if content in aromatic]
            yield book.caution("garlic_or_herbs_in_fat", part.trigger(*found, why="in fat"))


def _is_mostly_fat(contents: list[Content] | tuple[Content, ...]) -> bool:
    fat = fsum(content.holds("fat_g") for content in contents)
    return fat > 0 and fat >= _MOSTLY_FAT * fsum(content.grams for content in contents)


def _is_sealed(facts: Facts, part: Part) -> bool:
    names = [facts.brief.title, part.component.name, part.component.form or "", part.component.method or ""]
    names += [content.item for content in part.contents]
    holds_food = any(animal(content) is not None for content in part.contents) or any(map(is_aromatic, part.contents))
    return holds_food and _SEALED.search(" / ".join(names).lower()) is not None
