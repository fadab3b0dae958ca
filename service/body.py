"""Strict reading of JSON (RFC 8259), shared by the service and the command line.

Python's reader takes the last of two equal names, raises on very long integers and on very deep nesting, and lets
half of a surrogate pair through. Here each is a problem with a place. NaN, infinity and numbers beyond a double
become NaN or infinity, which the schemas refuse with their pointer.
"""

import json
from collections import Counter
from collections.abc import Iterable, Iterator

from solver.errors import Problem, UnusableBrief

#: Deepest nesting that is read; a brief needs five levels.
DEEPEST = 32

#: Longest name of a field, in characters; longer ones are not repeated in problems.
LONGEST_NAME = 100

#: Digits up to which an integer is kept exact; longer ones become the nearest double.
EXACT_DIGITS = 15


class UnreadableBody(Exception):  # noqa: N818  it is the body that is unreadable, not an error in the code
    """The bytes are no JSON text that can be read. Carries the one problem that stopped the reading."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        super().__init__(problem.detail)


class _Object(dict[str, object]):
    """A JSON object that remembers which names came twice."""

    __slots__ = ("repeated",)
    repeated: tuple[str, ...]


def read_json(raw: bytes) -> object:
    """The document. Raises UnreadableBody, or UnusableBrief when it can be read in more than one way."""
    document = _parse(_text(raw))
    problems = tuple(_ambiguities(document))
    if problems:
        raise UnusableBrief(problems)
    return document


def pointer(path: tuple[str | int, ...]) -> str:
    """RFC 6901 JSON pointer to a path of names and indices."""
    return "".join("/" + str(part).replace("~", "~0").replace("/", "~1") for part in path)


def _text(raw: bytes) -> str:
    if not raw.strip():
        raise UnreadableBody(Problem("", "empty_body", "There is no brief.", "Send a brief as a JSON object."))
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        detail = f"Byte {error.start} is not UTF-8."
        raise UnreadableBody(Problem("", "not_utf_8", detail, "Save or send the text as UTF-8.")) from error


def _parse(text: str) -> object:
    try:
        return json.loads(text, parse_int=_integer, object_pairs_hook=_object)
    except json.JSONDecodeError as error:
        detail = f"Line {error.lineno}, column {error.colno}: {error.msg}."
        raise UnreadableBody(Problem("", "malformed_json", detail, "Mend the JSON at that place.")) from error
    except RecursionError as error:
        raise UnreadableBody(_too_deep()) from error


def _too_deep() -> Problem:
    return Problem("", "too_deep", f"The JSON is nested deeper than {DEEPEST} levels.", "A brief needs five.")


def _integer(digits: str) -> int | float:
    return int(digits) if len(digits) <= EXACT_DIGITS else float(digits)


def _object(pairs: list[tuple[str, object]]) -> _Object:
    result = _Object(pairs)
    result.repeated = () if len(result) == len(pairs) else _repeated(name for name, _ in pairs)
    return result


def _repeated(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(name for name, times in Counter(names).items() if times > 1)


def _ambiguities(document: object) -> Iterator[Problem]:
    """Names that come twice, half surrogate pairs, over-long names; raises UnreadableBody when nested too deep."""
    waiting: list[tuple[tuple[str | int, ...], object]] = [((), document)]
    while waiting:
        path, value = waiting.pop()
        if len(path) > DEEPEST:
            raise UnreadableBody(_too_deep())
        if isinstance(value, str):
            yield from _half_pairs(path, value)
        elif isinstance(value, list):
            waiting.extend(((*path, place), part) for place, part in reversed(list(enumerate(value))))
        elif isinstance(value, _Object):
            yield from _names(path, value)
            waiting.extend(((*path, name), part) for name, part in reversed(value.items()) if _is_plain(name))


def _names(path: tuple[str | int, ...], value: _Object) -> Iterator[Problem]:
    for name in value.repeated:
        if _is_plain(name):
            detail, remedy = "The name comes twice in the same object.", "Keep one of the two."
            yield Problem(pointer((*path, name)), "duplicate_name", detail, remedy)
    if not all(_is_plain(name) for name in value):
        detail, remedy = "A field's name is over-long, or holds what cannot be printed.", "No field has such a name."
        yield Problem(pointer(path), "unusable_name", detail, remedy)


def _is_plain(name: str) -> bool:
    return len(name) <= LONGEST_NAME and name.isprintable()


def _half_pairs(path: tuple[str | int, ...], value: str) -> Iterator[Problem]:
    if _has_half_pair(value):
        detail, remedy = "The text holds half of a surrogate pair.", "Write the character itself, in UTF-8."
        yield Problem(pointer(path), "not_text", detail, remedy)


def _has_half_pair(value: str) -> bool:
    return not value.isascii() and any("\ud800" <= letter <= "\udfff" for letter in value)
