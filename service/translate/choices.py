"""Choices of a brief in the solver's words, and what became of them."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Literal

from service.schemas.choices import ChoiceAnswer, ChoiceBody
from service.translate.groups import Chosen, Groups, safe_reading
from service.translate.names import refuse_unprintable
from service.translate.place import Place
from solver.choices import Choice, Then
from solver.outcome import ChoiceResult

_KINDS: Mapping[Then | None, Literal["number", "one of", "none of"]] = MappingProxyType(
    {None: "number", Then.ONE_OF: "one of", Then.NONE_OF: "none of"}
)

_FIELDS = ("number_of", "if_used", "then_used", "then_not_used")

_REMEDY = "Give number_of with at_least or at_most; or if_used with then_used or then_not_used."


def to_choices(bodies: Sequence[ChoiceBody], groups: Groups, place: Place) -> tuple[Choice, ...]:
    """The choices in the brief's order. Those that are refused at `place` are left out."""
    found = (_choice(body, f"choice {n + 1}", groups, place / n) for n, body in enumerate(bodies))
    return tuple(choice for choice in found if choice is not None)


def _choice(body: ChoiceBody, called: str, groups: Groups, place: Place) -> Choice | None:
    before = len(place.problems)
    if body.id is not None:
        refuse_unprintable(body.id, place / "id")
    given = {field: groups.chosen(body, field, place) for field in _FIELDS}
    if not _has_a_form(body, given):
        place.refuse("choice_form", "It is neither a number of items nor what goes with what.", _REMEDY)
    if body.at_least is not None and body.at_most is not None and body.at_least > body.at_most:
        (place / "at_least").refuse("crossed_band", "at_least is above at_most.", "Swap them, or mend one.")
    both = body.at_least is not None and body.at_most is not None
    wide = {"number_of": body.at_least is None, "if_used": True, "then_used": False, "then_not_used": True}
    read = {
        field: safe_reading(group, place / field, both=both and field == "number_of", wide=wide[field])
        for field, group in given.items()
        if group is not None
    }
    if len(place.problems) > before:
        return None
    identifier = (body.id or called).strip()
    if "number_of" in read:
        number = read["number_of"]
        return Choice(identifier, number.items, body.at_least, body.at_most, joins=number.joins)
    then = Then.ONE_OF if "then_used" in read else Then.NONE_OF
    first, others = read["if_used"], read["then_used" if then is Then.ONE_OF else "then_not_used"]
    return Choice(identifier, first.items, then=then, others=others.items, joins=first.joins, others_join=others.joins)


def _has_a_form(body: ChoiceBody, given: Mapping[str, Chosen | None]) -> bool:
    ends = body.at_least is not None or body.at_most is not None
    number, condition, with_one, without = (given[field] is not None for field in _FIELDS)
    if number:
        return ends and not condition and not with_one and not without
    return condition and with_one is not without and not ends


def to_choice_answer(result: ChoiceResult) -> ChoiceAnswer:
    """What became of a choice, as the contract has it."""
    choice = result.choice
    return ChoiceAnswer(id=choice.id, kind=_KINDS[choice.then], used=list(result.used), met=result.met)
