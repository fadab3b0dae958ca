"""From what pydantic found in a document to problems: pointer, stable code, detail, remedy. No input is repeated."""

import difflib
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any

from pydantic import BaseModel

from service.body import pointer
from service.problems import MOST_LISTED
from service.schemas.amounts import AMOUNT_TAGS, AmountBody
from service.schemas.breakdown_body import BreakdownBody
from service.schemas.brief import BriefBody, PantryItemBody, PriceBody, TargetBody
from service.schemas.choices import ChoiceBody
from service.schemas.declared import DeclaredBody, DeclaredDistribution, DeclaredFactors
from service.schemas.dish_source import DiscardedBody, DishBody, DishComponentBody, IngredientBody
from service.schemas.eater import EaterBody
from service.schemas.exclude import ALLERGEN_TAG, FOOD_TAG, GROUP_TAG, ExcludedAllergen
from service.schemas.food_source import FoodSource
from service.schemas.holds import HoldsBody
from service.schemas.labels import EU_TAG, PLAIN_TAG, US_TAG, VALUE_TAGS, EuLabel, PlainLabel, PolyolAmounts, UsLabel
from service.schemas.reach import FrontierBody, ReachBody
from service.schemas.rework import ReworkBody, SaidBody
from service.schemas.rework_base import BaseAmountBody
from service.schemas.rules import RuleBody
from solver.errors import Problem

_NUMBER = ("wrong_type", "Give a plain JSON number, without quotes.")
_AMOUNT = ("wrong_type", 'Write an amount as text, for example "250 g", or as {"value": 250, "unit": "g"}.')
_LABEL_VALUE = ("wrong_type", 'Give a number, or text as printed: "0 g", "<0.5 g", "less than 1 g".')
_EXCLUSION = ("wrong_type", 'Give {"allergen": "milk"}, {"food_group": ...} or {"food": "paprika"}.')
_LAYOUT = ("unknown_value", 'Give "layout": "US" or "layout": "EU", or leave it out.')
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
        "bool_type": ("wrong_type", "Give true or false, without quotes."),
        "blank": ("blank", "Write at least one letter."),
        "int_parsing": ("wrong_type", "Give a whole number, in digits."),
        "string_type": ("wrong_type", "Give a JSON text, in double quotes."),
        "list_type": ("wrong_type", "Give a JSON list, in square brackets."),
        "dict_type": _OBJECT,
        "model_type": _OBJECT,
        "model_attributes_type": _OBJECT,
        "amount_type": _AMOUNT,
        "label_value_type": _LABEL_VALUE,
        "layout": _LAYOUT,
        "exclusion_form": _EXCLUSION,
        "literal_error": _CHOICE,
        "union_tag_invalid": _CHOICE,
        "union_tag_not_found": ("missing_field", "Say in kind which of the kinds that the contract lists it is."),
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
    {
        "brief": BriefBody,
        "frontier": FrontierBody,
        "pantry": PantryItemBody,
        "source": FoodSource,
        "polyols": PolyolAmounts,
        "price": PriceBody,
        "components": DishComponentBody,
        "dishes": DishBody,
        "ingredients": IngredientBody,
        "discarded": DiscardedBody,
        "eater": EaterBody,
        "declared": DeclaredBody,
        "energy_distribution_percent": DeclaredDistribution,
        "factors_kcal_per_g": DeclaredFactors,
        "exclude": ExcludedAllergen,
        "targets": TargetBody,
        "rules": RuleBody,
        "choices": ChoiceBody,
        "base": BaseAmountBody,
        "holds_within": HoldsBody,
        "said": SaidBody,
    }
)

#: What a whole document may be.
_WHOLE: tuple[type[BaseModel], ...] = (BriefBody, BreakdownBody, ReachBody, ReworkBody)

#: Objects whose fields depend on their kind, so that none is said to be the nearest.
_BY_KIND = frozenset({"division", "portions", "eats"})

#: A label's tag in the path of an error to the model of that variant.
_LABELS: Mapping[str | int, type[BaseModel]] = MappingProxyType(
    {PLAIN_TAG: PlainLabel, US_TAG: UsLabel, EU_TAG: EuLabel}
)

#: What pydantic puts into the path of an error that no document holds.
_TAGS = frozenset((*AMOUNT_TAGS, *VALUE_TAGS, *_LABELS, ALLERGEN_TAG, GROUP_TAG, FOOD_TAG))

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
        remedy += _nearest_field(path, error["loc"], document)
    return Problem(pointer(path), code, detail + ".", remedy)


def path_of(loc: tuple[str | int, ...], document: object) -> tuple[str | int, ...]:
    """The path of names and indices in the document: pydantic's `loc` without the tags of its unions."""
    path: list[str | int] = []
    here, tag_seen = document, False
    for part in loc:
        if part in _TAGS:
            continue
        is_kind = isinstance(here, dict) and not tag_seen and part == here.get("kind")
        tag_seen = is_kind
        if is_kind:
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


def _nearest_field(path: tuple[str | int, ...], loc: tuple[str | int, ...], document: object) -> str:
    above = [part for part in path[:-1] if isinstance(part, str)]
    last = above[-1] if above else ""
    label = next((_LABELS[part] for part in loc if part in _LABELS), None) if last == "source" else None
    if last in _BY_KIND:
        return ""
    model = _MODELS.get(last, AmountBody) if above else _whole(document)
    fields = (label or model).model_fields
    near = difflib.get_close_matches(str(path[-1]), fields, n=1)
    # What another kind of document has is not misspelt; it was sent to the wrong address.
    return f" The nearest is {near[0]}." if near and near[0] != path[-1] else ""


def _whole(document: object) -> type[BaseModel]:
    """What a document seems to be: that with which it shares most names."""
    names = document.keys() if isinstance(document, dict) else set()
    return max(_WHOLE, key=lambda model: len(model.model_fields.keys() & names))
