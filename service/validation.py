"""From what pydantic found in a document to problems: pointer, stable code, detail, remedy. No input is repeated."""

import difflib
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any

from pydantic import BaseModel

from service.body import pointer
from service.problems import MOST_LISTED
from service.schemas.brief import AMOUNT_TAGS, AmountBody, BriefBody, FoodSource, PantryItemBody, PriceBody, TargetBody
from solver.errors import Problem

_NUMBER = ("wrong_type", "Give a plain JSON number, without quotes.")
_AMOUNT = ("wrong_type", 'Write an amount as text, for example "250 g", or as {"value": 250, "unit": "g"}.')
_RANGE = ("out_of_range", "Give a number inside the range.")
_LENGTH = ("wrong_length", "Give as many as allowed.")
_CHOICE = ("unknown_value", "Choose one of the values listed.")
_OBJECT = ("wrong_type", "Give a JSON object with the fields of the contract.")

#: pydantic's error type to our stable code and the remedy. A type that is not here becomes `invalid`.
CODES: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "missing": ("missing_field", "Add the field."),
        "extra_forbidden": ("unknown_field", "Remove the field, or mend its spelling."),
        "finite_number": ("not_finite", "Give a finite number."),
        "float_type": _NUMBER,
        "int_type": ("wrong_type", "Give a whole JSON number, without quotes or a decimal point."),
        "string_type": ("wrong_type", "Give a JSON text, in double quotes."),
        "list_type": ("wrong_type", "Give a JSON list, in square brackets."),
        "dict_type": _OBJECT,
        "model_type": _OBJECT,
        "model_attributes_type": _OBJECT,
        "amount_type": _AMOUNT,
        "literal_error": _CHOICE,
        "union_tag_invalid": _CHOICE,
        "union_tag_not_found": ("missing_field", 'Say which kind it is: "kind": "food" or "kind": "label".'),
        "greater_than": _RANGE,
        "greater_than_equal": _RANGE,
        "less_than": _RANGE,
        "less_than_equal": _RANGE,
        "too_short": _LENGTH,
        "too_long": _LENGTH,
        "string_too_short": _LENGTH,
        "string_too_long": _LENGTH,
    }
)

#: The last name in the path of an object to the model it is read as; every other object is an amount.
_MODELS: Mapping[str, type[BaseModel]] = MappingProxyType(
    {"": BriefBody, "pantry": PantryItemBody, "source": FoodSource, "price": PriceBody, "targets": TargetBody}
)

#: Errors whose own wording repeats the input or speaks of Python.
_DETAILS: Mapping[str, str] = MappingProxyType(
    {
        "union_tag_invalid": "Input should be one of {expected_tags}",
        "union_tag_not_found": "Field required: kind",
        "extra_forbidden": "The contract has no such field here",
        "dict_type": "Input should be a JSON object",
        "model_type": "Input should be a JSON object",
        "model_attributes_type": "Input should be a JSON object",
        "list_type": "Input should be a JSON list",
    }
)


def problems_of(errors: Sequence[Mapping[str, Any]], document: object) -> tuple[Problem, ...]:
    """The problems of a document, in pydantic's order, which is the order of the schema; no more than are listed.

    errors: as pydantic's `errors()` gives them, with `loc` from the root of the document.
    """
    return tuple(_problem(error, document) for error in errors[: MOST_LISTED + 1])


def _problem(error: Mapping[str, Any], document: object) -> Problem:
    kind = str(error["type"])
    code, remedy = CODES.get(kind, ("invalid", "Compare it with the contract."))
    path = path_of(error["loc"], document)
    template = _DETAILS.get(kind)
    detail = str(error["msg"]) if template is None else template.format_map(error.get("ctx") or {})
    if kind == "extra_forbidden":
        remedy += _nearest_field(path)
    return Problem(pointer(path), code, detail + ".", remedy)


def path_of(loc: tuple[str | int, ...], document: object) -> tuple[str | int, ...]:
    """The path of names and indices in the document: pydantic's `loc` without the tags of its unions."""
    path: list[str | int] = []
    here, tag_seen = document, False
    for part in loc:
        is_kind = isinstance(here, dict) and not tag_seen and part == here.get("kind")
        tag_seen = is_kind
        if is_kind or part in AMOUNT_TAGS:
            continue
        path.append(part)
        here = _inside(here, part)
    return tuple(path)


def _inside(value: object, part: str | int) -> object:
    if isinstance(value, dict):
        return value.get(part)
    if isinstance(value, list) and isinstance(part, int) and part < len(value):
        return value[part]
    return None


def _nearest_field(path: tuple[str | int, ...]) -> str:
    above = [part for part in path[:-1] if isinstance(part, str)]
    fields = _MODELS.get(above[-1] if above else "", AmountBody).model_fields
    near = difflib.get_close_matches(str(path[-1]), fields, n=1)
    return f" The nearest is {near[0]}." if near else ""
