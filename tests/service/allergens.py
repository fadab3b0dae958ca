"""What answers say of allergens, and the promise that none may make."""

import re
from collections.abc import Iterator
from typing import Any

#: What nobody can promise, in any words.
PROMISE = re.compile(
    r"free (from|of)\b|\b(allergen|milk|dairy|gluten|nut|egg|lactose)[- ]?free|\bsafe (for|to eat)\b"
    r"|\b(contains|has) no (allergens?|milk|egg|fish|wheat|gluten|nuts?|peanuts?|soy|sesame|celery|mustard)\b"
    r"|\bwithout allergens?\b|suitable for",
    re.IGNORECASE,
)


def statements(answer: dict[str, Any]) -> dict[str, str]:
    """Each allergen with the word that is said of it."""
    return {each["allergen"]: each["statement"] for each in answer["allergens"]}


def contained(answer: dict[str, Any]) -> dict[str, list[str]]:
    """Each allergen that is contained, with the items that contain it."""
    return {each["allergen"]: each["items"] for each in answer["allergens"] if each["statement"] == "contains"}


def texts(value: object) -> Iterator[str]:
    """Every string in a document, names of fields too."""
    if isinstance(value, dict):
        for name, inner in value.items():
            yield name
            yield from texts(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from texts(inner)
    elif isinstance(value, str):
        yield value
