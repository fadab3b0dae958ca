"""Strict reading of JSON (RFC 8259), shared by the service and the command line.

Python's reader takes the last of two equal names, raises on very long integers and on very deep nesting, and lets
half of a surrogate pair through. Here each is a problem with a place. NaN, infinity and numbers beyond a double
become NaN or infinity, which the schemas refuse with their pointer.
"""

import json
import re
from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import accumulate

from service.settings import variable
from solver.errors import Problem, UnusableBrief

#: Longest name of a field, in characters; longer ones are not repeated in problems.
LONGEST_NAME = 100

#: Digits up to which an integer is kept exact; longer ones become the nearest double.
EXACT_DIGITS = 15


_STRING = re.compile(r'"[^"\\]*(?:\\.[^"\\]*)*"')
_BRACKET = re.compile(r"[\[\]{}]")


class UnreadableBody(Exception):  # noqa: N818  it is the body that is unreadable, not an error in the code
    """The bytes are no JSON text that can be read. Carries the one problem that stopped the reading."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        super().__init__(problem.detail)


class _Object(dict[str, object]):
    """A JSON object that remembers which names came twice."""

    __slots__ = ("repeated",)
    repeated: tuple[str, ...]


def read_json(raw: bytes, *, depth_limit: int, values_limit: int) -> object:
    """The document. Raises UnreadableBody, or UnusableBrief when it can be read in more than one way or is too long.

    depth_limit: deepest nesting that is read, at most 200. values_limit: most values inside lists and objects.
    """
    text, objects = _text(raw), _Objects()
    document = _parse(text, depth_limit, objects)
    if objects.are_plain and _is_within(text, depth_limit, values_limit):
        return document
    problems = tuple(_ambiguities(document, depth_limit, values_limit))
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


def _is_within(text: str, depth_limit: int, values_limit: int) -> bool:
    """Whether a text that could be read is surely within the limits, and holds no half of a surrogate pair.

    Every value but the first of its list or object follows a comma, and half a pair can only be written as an escape.
    """
    if "\\u" in text:
        return False
    bare = _STRING.sub("", text)
    brackets = _BRACKET.findall(bare)
    depth = max(accumulate(1 if bracket in "[{" else -1 for bracket in brackets), default=0)
    return depth <= depth_limit and bare.count(",") + len(brackets) // 2 <= values_limit


def _parse(text: str, depth_limit: int, objects: "_Objects") -> object:
    try:
        return json.loads(text, parse_int=_integer, object_pairs_hook=objects.read)
    except json.JSONDecodeError as error:
        detail = f"Line {error.lineno}, column {error.colno}: {error.msg}."
        raise UnreadableBody(Problem("", "malformed_json", detail, "Mend the JSON at that place.")) from error
    except RecursionError as error:
        raise UnreadableBody(_too_deep(depth_limit)) from error


def _too_deep(depth_limit: int) -> Problem:
    detail = f"The JSON is nested deeper than {depth_limit} levels ({variable('depth_limit')})."
    return Problem("", "too_deep", detail, "A brief needs five.")


def _too_many(values_limit: int) -> Problem:
    detail = f"The body holds more than {values_limit} values ({variable('values_limit')})."
    return Problem("", "too_many", detail, "Leave out what will not be used.")


def _integer(digits: str) -> int | float:
    return int(digits) if len(digits) <= EXACT_DIGITS else float(digits)


class _Objects:
    """Reads the objects of one document, and keeps which names they have."""

    def __init__(self) -> None:
        self._names: set[str] = set()
        self._none_repeated = True

    @property
    def are_plain(self) -> bool:
        """Whether no name came twice in an object, and all of them can be printed."""
        return self._none_repeated and all(map(_is_plain, self._names))

    def read(self, pairs: list[tuple[str, object]]) -> _Object:
        """One object, by the pairs in it."""
        result = _Object(pairs)
        self._names.update(result)
        is_plain = len(result) == len(pairs)
        result.repeated = () if is_plain else _repeated(name for name, _ in pairs)
        self._none_repeated = self._none_repeated and is_plain
        return result


def _repeated(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(name for name, times in Counter(names).items() if times > 1)


def _ambiguities(document: object, depth_limit: int, values_limit: int) -> Iterator[Problem]:
    """Names that come twice, half surrogate pairs, over-long names; raises when there is too much or it is too deep."""
    waiting: list[tuple[tuple[str | int, ...], object]] = [((), document)]
    values = 0
    while waiting:
        path, value = waiting.pop()
        if len(path) > depth_limit:
            raise UnreadableBody(_too_deep(depth_limit))
        values += len(value) if isinstance(value, list | dict) else 0
        if values > values_limit:
            raise UnusableBrief([_too_many(values_limit)])
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
