"""Curing salt: its amount is fixed by regulation and is never a variable."""

from collections.abc import Iterator
from math import fsum

from solver.brief import Brief
from solver.cautions.book import Book
from solver.cautions.caution import Caution
from solver.cautions.facts import Content, Facts, contents_of
from solver.cautions.kinds import is_curing_salt
from solver.errors import Problem
from solver.pantry import PantryItem

#: Most of a mix with 6.25 % nitrite in comminuted meat, percent of the raw weight: 156 ppm (US, 9 CFR 424.21(c)).
MOST_PERCENT = 0.25

#: A dish with more curing salt than this is a cure and no food, part of its weight: twice what any food may hold.
_CURE = 0.005


def curing(facts: Facts, book: Book) -> Iterator[Caution]:
    """Curing salt in a component, with its part of the raw weight; with nothing planned, in the pantry."""
    for part in facts.parts:
        salts = [content for content in part.contents if is_curing_salt(content)]
        if not salts:
            continue
        yield book.caution("curing_salt", part.trigger(*salts))
        percent = 100 * fsum(content.grams for content in salts) / part.grams
        if facts.dish is not None and percent > MOST_PERCENT + 1e-9:
            yield book.caution("curing_salt_over_limit", part.trigger(*salts), percent=f"{percent:.2f}")
    if facts.dish is None:
        yield from _in_the_pantry(facts, book)


def _in_the_pantry(facts: Facts, book: Book) -> Iterator[Caution]:
    """Items that may go in; those that have to are in a component already."""
    settled = {content.item for _, content in facts.contents}
    for item in facts.brief.pantry:
        salts = [content for content in contents_of(item, 100.0) if is_curing_salt(content)]
        if salts and item.name not in settled:
            yield book.caution("curing_salt", f"pantry: {salts[0].called}")


def curing_salt_problems(brief: Brief) -> tuple[Problem, ...]:
    """A problem for each curing salt whose amount the brief leaves open, at the item's place in the pantry."""
    return tuple(
        _varies(place, item)
        for place, item in enumerate(brief.pantry)
        if _is_cure(item) and item.at_least_g != item.at_most_g
    )


def _is_cure(item: PantryItem) -> bool:
    contents = list(contents_of(item, 100.0))
    salts: list[Content] = [content for content in contents if is_curing_salt(content)]
    if item.food.made is None:
        return bool(salts)
    return fsum(content.grams for content in salts) > _CURE * 100


def _varies(place: int, item: PantryItem) -> Problem:
    return Problem(
        f"/pantry/{place}",
        "curing_salt_varies",
        f"The amount of {item.name} is left open, and curing salt is never a variable.",
        "Give the amount that the regulation and the label of the mix allow for this much meat, and fix it: "
        "`already_in`, or `at_least` and `at_most` alike.",
    )
