"""The dishes of a brief as foods, to be sources of its pantry and of each other."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from service.body import pointer
from service.schemas.dish_source import DishBody
from service.translate.dish_body import to_fixed_dish
from service.translate.dish_order import in_order
from service.translate.dish_yield import refuse_slip
from service.translate.names import refuse_unprintable
from service.translate.place import Place
from service.translate.reference import Reference
from solver.dishes import FixedDish, food_of_dish
from solver.errors import UnusableBrief
from solver.foods import Food


def to_dishes(
    bodies: Sequence[DishBody], reference: Reference, count_missing_as: Mapping[str, float], place: Place
) -> Mapping[str, Food | None]:
    """Every dish by its name; None for one that is refused at `place`, and for what such a one goes into.

    count_missing_as: what missing values of ingredients count, per 100 g, by nutrient.
    """
    numbers = _numbers(bodies, place)
    foods: dict[str, Food | None] = dict.fromkeys(numbers)
    for number in in_order(bodies, numbers, place):
        body, here = bodies[number], place / number
        dish = to_fixed_dish(body, foods, reference, here)
        foods[body.name.strip()] = None if dish is None else _food(dish, body, count_missing_as, here)
    return foods


def _numbers(bodies: Sequence[DishBody], place: Place) -> dict[str, int]:
    """Name to number. Of two with one name the first."""
    numbers: dict[str, int] = {}
    seen: set[str] = set()
    for number, body in enumerate(bodies):
        refuse_unprintable(body.name, place / number / "name")
        key = body.name.strip().casefold()
        if key in seen:
            detail, remedy = "Another dish has this name.", "Give each dish a name of its own."
            (place / number / "name").refuse("repeated_name", detail, remedy)
        else:
            numbers[body.name.strip()] = number
        seen.add(key)
    return numbers


def _food(dish: FixedDish, body: DishBody, count_missing_as: Mapping[str, float], place: Place) -> Food | None:
    try:
        food = food_of_dish(dish, count_missing_as)
    except UnusableBrief as error:
        at = pointer(place.path)
        for problem in error.problems:
            field = "/weighs" if problem.pointer == "/makes" and body.weighs is not None else problem.pointer
            place.problems.append(replace(problem, pointer=at + field))
        return None
    before = len(place.problems)
    for measure in food.measures:
        refuse_slip(body, measure, place)
    return food if len(place.problems) == before else None
