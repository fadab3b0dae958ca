"""Dishes of a brief in few words, and what they become: foods, or problems."""

from collections.abc import Mapping
from typing import Any, TypeAlias

from pydantic import TypeAdapter

from service.schemas.dish_source import DishBody
from service.translate.dish_source import to_dishes
from service.translate.place import Place
from service.translate.reference import Reference
from solver.errors import Problem
from solver.foods import Food

_BODIES = TypeAdapter(list[DishBody])

Fields: TypeAlias = dict[str, Any]


def table(name: str, number: str, amount: str, **fields: object) -> Fields:
    """An ingredient of the SR28 table."""
    return {"name": name, "source": {"kind": "food", "id": f"sr28:{number}"}, "amount": amount, **fields}


def from_dish(name: str, dish: str, amount: str) -> Fields:
    """An ingredient that is a dish."""
    return {"name": name, "source": {"kind": "dish", "name": dish}, "amount": amount}


def dish(name: str, *ingredients: Fields, **fields: object) -> Fields:
    """A dish."""
    return {"name": name, "ingredients": list(ingredients), **fields}


def read(reference: Reference, *dishes: Fields) -> tuple[Mapping[str, Food | None], list[Problem]]:
    """Each dish as a food, None for one that cannot be made, and what is wrong."""
    place = Place(("dishes",))
    return to_dishes(_BODIES.validate_python(list(dishes)), reference, {}, place), place.problems


def foods(reference: Reference, *dishes: Fields) -> dict[str, Food]:
    """Each dish as a food; nothing is wrong."""
    found, problems = read(reference, *dishes)
    assert problems == []
    return {name: food for name, food in found.items() if food is not None}


def refusals(reference: Reference, *dishes: Fields) -> list[tuple[str, str]]:
    """What is wrong: each pointer with its code."""
    _, problems = read(reference, *dishes)
    assert all(problem.detail.endswith(".") and problem.remedy.endswith(".") for problem in problems)
    return [(problem.pointer, problem.code) for problem in problems]


OIL = table("oil", "04582", "1 cup")
YOLK = table("yolk", "01125", "1 large")
VINEGAR = table("vinegar", "02053", "1 tbsp")
WATER = table("water", "14429", "500 g")
SPICES = dish("spice mix", table("paprika", "02028", "2 tbsp"), table("garlic powder", "02020", "1 tbsp"))
AIOLI = dish("aioli", from_dish("base", "mayonnaise", "1/2 cup"), table("garlic", "11215", "3 cloves"))
MAYONNAISE = dish("mayonnaise", OIL, YOLK, VINEGAR, makes="1 1/4 cups")
