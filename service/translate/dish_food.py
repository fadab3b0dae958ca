"""The food behind a source: of the table, of a label, or a dish of the brief."""

import difflib
from collections.abc import Mapping

from service.schemas.dish_source import DishSource
from service.schemas.food_source import FoodSource
from service.schemas.labels import EuLabel, PlainLabel, UsLabel
from service.search.nearest import nearest_foods
from service.translate.labels import label_food
from service.translate.place import Place
from service.translate.reference import Reference
from solver.foods import Food


def food_of_source(
    name: str,
    source: FoodSource | PlainLabel | UsLabel | EuLabel | DishSource,
    dishes: Mapping[str, Food | None],
    reference: Reference,
    place: Place,
) -> Food | None:
    """The food; None when it is refused at `place`, or when it is a dish that was refused itself.

    name: what the item is called. dishes: by name, None for those that were refused.
    """
    match source:
        case FoodSource():
            return _of_table(name, source, reference, place)
        case DishSource():
            return None if refuse_unknown_dish(source, dishes, place) else dishes[source.name.strip()]
        case _:
            return label_food(name, source, place)


def refuse_unknown_dish(source: DishSource, known: Mapping[str, object], place: Place) -> bool:
    """Refuse a dish that is not `known`, with the nearest that are; says whether it was refused."""
    name = source.name.strip()
    if name in known:
        return False
    near = [] if place.is_full else difflib.get_close_matches(name, known, n=3)
    remedy = f"Near it: {', '.join(near)}." if near else "Add it to dishes, or use the name of one that is there."
    (place / "name").refuse("unknown_dish", "There is no dish of this name in dishes.", remedy)
    return True


def _of_table(name: str, source: FoodSource, reference: Reference, place: Place) -> Food | None:
    if source.id in reference.catalogue:
        return reference.catalogue.food(source.id)
    remedy = "Ids look like sr28:01123."
    if reference.search is not None and not place.is_full:
        remedy = nearest_foods(source.id, reference.catalogue, reference.search, name)
    (place / "id").refuse("unknown_food", "No reference food has this id.", remedy)
    return None
