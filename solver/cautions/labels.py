"""Foods that are not what their plain row says: pumped meat, and collagen that counts as protein."""

from collections.abc import Iterator
from math import fsum

from solver.cautions.book import Book
from solver.cautions.caution import Caution
from solver.cautions.facts import Facts
from solver.cautions.kinds import EGG, animal, is_brined
from solver.collagen import is_collagen


def pumped(facts: Facts, book: Book) -> Iterator[Caution]:
    """Meat, poultry or fish with brine in it."""
    for part in facts.parts:
        found = [content for content in part.contents if animal(content) not in {None, EGG}]
        brined = [content for content in found if is_brined(content)]
        if brined:
            yield book.caution("pumped_meat", part.trigger(*brined, why="with brine in it"))


def collagen(facts: Facts, book: Book) -> Iterator[Caution]:
    """Gelatine, collagen and pork rind, with their part of all protein as weighed out."""
    poor = [(part, content) for part, content in facts.contents if is_collagen(content.food)]
    protein = fsum(content.holds("protein_g") for _, content in facts.contents)
    of_collagen = fsum(content.holds("protein_g") for _, content in poor)
    if poor and protein > 0:
        trigger = "; ".join(part.trigger(content) for part, content in poor)
        yield book.caution("collagen_protein", trigger, percent=f"{100 * of_collagen / protein:.0f}")
