"""A label as a food, whichever way it is laid out."""

from service.schemas.labels import EuLabel, PlainLabel, UsLabel
from service.translate.label_eu import eu_food
from service.translate.label_plain import plain_food
from service.translate.label_us import us_food
from service.translate.place import Place
from solver.foods import Food


def label_food(name: str, label: PlainLabel | UsLabel | EuLabel, place: Place) -> Food | None:
    """The food that a label describes; None when something is refused at `place`."""
    match label:
        case UsLabel():
            return us_food(name, label, place)
        case EuLabel():
            return eu_food(name, label, place)
        case PlainLabel():
            return plain_food(name, label, place)
