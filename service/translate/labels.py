"""A label as a food, whichever way it is laid out."""

import hashlib
from dataclasses import replace

from service.schemas.labels import EuLabel, PlainLabel, UsLabel
from service.translate.label_eu import eu_food
from service.translate.label_plain import plain_food
from service.translate.label_us import us_food
from service.translate.place import Place
from solver.foods import Food


def label_food(name: str, label: PlainLabel | UsLabel | EuLabel, place: Place) -> Food | None:
    """The food that a label describes; None when something is refused at `place`."""
    food = _laid_out(name, label, place)
    for number, code in enumerate(label.without):
        if code in label.contains:
            detail = f"The label states that it contains {code}, and that it does not."
            (place / "without" / number).refuse("contains_and_without", detail, "Read the label again, and keep one.")
            food = None
    return None if food is None else _with_allergens(food, frozenset(label.contains), frozenset(label.without))


def _laid_out(name: str, label: PlainLabel | UsLabel | EuLabel, place: Place) -> Food | None:
    match label:
        case UsLabel():
            return us_food(name, label, place)
        case EuLabel():
            return eu_food(name, label, place)
        case PlainLabel():
            return plain_food(name, label, place)


def _with_allergens(food: Food, contains: frozenset[str], without: frozenset[str]) -> Food:
    """The food with what its label states, under an id of its own: equal values may hold different allergens."""
    if not contains and not without:
        return food
    content = "|".join((food.id, *sorted(contains), "without", *sorted(without)))
    digest = hashlib.sha256(content.encode()).hexdigest()[:12]
    return replace(food, id=f"label:{digest}", contains=contains, without=without)
