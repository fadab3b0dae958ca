"""Choices of a brief in the solver's words, and what became of them."""

from collections.abc import Collection, Mapping, Sequence
from types import MappingProxyType
from typing import Literal

from service.schemas.choices import ChoiceAnswer, ChoiceBody
from service.translate.names import refuse_unknown, refuse_unprintable
from service.translate.place import Place
from solver.choices import Choice, Then
from solver.outcome import ChoiceResult
from solver.pantry import PantryItem

_KINDS: Mapping[Then | None, Literal["number", "one of", "none of"]] = MappingProxyType(
    {None: "number", Then.ONE_OF: "one of", Then.NONE_OF: "none of"}
)

_REMEDY = "Give number_of with at_least or at_most; or if_used with then_used or then_not_used."


def to_choices(bodies: Sequence[ChoiceBody], pantry: Sequence[PantryItem], place: Place) -> tuple[Choice, ...]:
    """The choices in the brief's order. Those that are refused at `place` are left out."""
    names = {item.name for item in pantry}
    found = (_choice(body, f"choice {n + 1}", names, place / n) for n, body in enumerate(bodies))
    return tuple(choice for choice in found if choice is not None)


def _choice(body: ChoiceBody, called: str, names: Collection[str], place: Place) -> Choice | None:
    before = len(place.problems)
    if body.id is not None:
        refuse_unprintable(body.id, place / "id")
    if not _has_a_form(body):
        place.refuse("choice_form", "It is neither a number of items nor what goes with what.", _REMEDY)
    fields = ("number_of", "if_used", "then_used", "then_not_used")
    given = {field: _items(getattr(body, field), names, place / field) for field in fields}
    if body.at_least is not None and body.at_most is not None and body.at_least > body.at_most:
        (place / "at_least").refuse("crossed_band", "at_least is above at_most.", "Swap them, or mend one.")
    if len(place.problems) > before:
        return None
    identifier = body.id or called
    if body.number_of is not None:
        return Choice(identifier, given["number_of"], body.at_least, body.at_most)
    then = Then.ONE_OF if body.then_used is not None else Then.NONE_OF
    return Choice(identifier, given["if_used"], then=then, others=given["then_used"] | given["then_not_used"])


def _has_a_form(body: ChoiceBody) -> bool:
    ends = body.at_least is not None or body.at_most is not None
    thens = (body.then_used is not None) + (body.then_not_used is not None)
    if body.number_of is not None:
        return ends and body.if_used is None and thens == 0
    return body.if_used is not None and thens == 1 and not ends


def _items(given: Sequence[str] | None, names: Collection[str], place: Place) -> frozenset[str]:
    found = [(number, name.strip()) for number, name in enumerate(given or ())]
    return frozenset(name for number, name in found if not refuse_unknown(name, names, "unknown_item", place / number))


def to_choice_answer(result: ChoiceResult) -> ChoiceAnswer:
    """What became of a choice, as the contract has it."""
    choice = result.choice
    return ChoiceAnswer(id=choice.id, kind=_KINDS[choice.then], used=list(result.used), met=result.met)
