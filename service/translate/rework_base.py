"""The base dish of a brief in the solver's words."""

from collections.abc import Sequence

from service.schemas.rework_base import BaseAmountBody
from service.translate.amounts import grams_of, read_amount
from service.translate.names import refuse_unknown
from service.translate.place import Place
from solver.closest import Base, BaseAmount
from solver.components import Component, Drippings
from solver.cook import SPOON_G
from solver.pantry import PantryItem, Step, is_in_already
from solver.uses import drippings_named


def to_base(
    bodies: Sequence[BaseAmountBody],
    pantry: Sequence[PantryItem],
    components: Sequence[Component],
    place: Place,
) -> Base | None:
    """The base dish; None where the brief gives none. What is in already is in it, where it is not named."""
    if not bodies:
        return None
    found = [_amount(body, pantry, components, place / number) for number, body in enumerate(bodies)]
    amounts = [amount for amount in found if amount is not None]
    named = {amount.item for amount in amounts}
    settled = (item for item in pantry if is_in_already(item) and item.name not in named)
    amounts += [BaseAmount(item.name, item.placed[0].component, item.at_least_g, item.step) for item in settled]
    return Base(tuple(amounts))


def _amount(
    body: BaseAmountBody, pantry: Sequence[PantryItem], components: Sequence[Component], place: Place
) -> BaseAmount | None:
    if body.item is not None and body.drippings_of is None and body.amount is not None and body.teaspoons is None:
        return _of_item(body, body.item.strip(), pantry, place)
    if body.drippings_of is not None and body.teaspoons is not None and body.item is None and body.amount is None:
        return _of_drippings(body, body.drippings_of.strip(), components, place)
    detail = "It is neither an amount of an item nor teaspoons of drippings."
    place.refuse("base_form", detail, "Give item with amount, or drippings_of with teaspoons.")
    return None


def _of_item(body: BaseAmountBody, name: str, pantry: Sequence[PantryItem], place: Place) -> BaseAmount | None:
    items = {item.name: item for item in pantry}
    if refuse_unknown(name, items, "unknown_item", place / "item"):
        return None
    item = items[name]
    component = _component(body, item, place / "goes_in")
    grams = grams_of(body.amount, item.food, place / "amount")
    if component is None or grams is None or body.amount is None:
        return None
    parts = read_amount(body.amount)
    words = Step(parts[0].value, parts[0].unit, grams) if len(parts) == 1 and grams > 0 else None
    return BaseAmount(name, component, grams, words, tasted=body.known == "tasted")


def _component(body: BaseAmountBody, item: PantryItem, place: Place) -> str | None:
    names = [placed.component for placed in item.placed]
    if body.goes_in is not None:
        known = not refuse_unknown(body.goes_in.strip(), names, "unknown_component", place)
        return body.goes_in.strip() if known else None
    if len(names) > 1:
        detail = f"{item.name} may go into {len(names)} components, and nothing says which this amount was in."
        place.refuse("goes_nowhere", detail, "Name one component of the dish.")
        return None
    return names[0]


def _of_drippings(body: BaseAmountBody, name: str, components: Sequence[Component], place: Place) -> BaseAmount | None:
    by_name = {component.name: component for component in components}
    if refuse_unknown(name, by_name, "unknown_component", place / "drippings_of"):
        return None
    if by_name[name].drippings is not Drippings.SPOONED_BACK:
        detail = "Its drippings are not spooned back."
        (place / "drippings_of").refuse("not_spooned_back", detail, "Leave it out, or spoon them back.")
        return None
    grams = (body.teaspoons or 0) * SPOON_G
    return BaseAmount(drippings_named(name), name, grams, tasted=body.known == "tasted")
