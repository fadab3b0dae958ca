"""What is held against the JSON of an answer: every number that another form shows."""

import math
import re
from collections.abc import Iterator

from tests.service.asking import Document

_NUMBER = re.compile(r"\d+(?:\.\d+)?")

#: g in an avoirdupois ounce (NIST Handbook 44, Appendix C; from memory).
G_PER_OUNCE = 28.349523125


def numbers_in(text: str) -> list[str]:
    """Every number that a text shows, as it is written, without signs."""
    return _NUMBER.findall(text)


def _values(value: object) -> Iterator[float]:
    match value:
        case bool() | None:
            return
        case int() | float():
            yield abs(float(value))
        case str():
            yield from map(float, numbers_in(value))
        case dict():
            for key, inner in value.items():
                yield from map(float, numbers_in(key))
                yield from _values(inner)
        case list():
            for inner in value:
                yield from _values(inner)


def known(answer: Document) -> set[float]:
    """Every number of an answer, in its fields and in its sentences."""
    return set(_values(answer))


def is_known(shown: str, values: set[float]) -> bool:
    """Whether a number as it is written is one of these, rounded to the digits that it is written with."""
    digits = len(shown.partition(".")[2])
    step = 0.5 * 10**-digits * (1 + 1e-9)
    return any(math.isclose(float(shown), value, abs_tol=step + 1e-9) for value in values)


def strangers(text: str, values: set[float]) -> list[str]:
    """The numbers of a text that are not among these."""
    return [shown for shown in numbers_in(text) if not is_known(shown, values)]
