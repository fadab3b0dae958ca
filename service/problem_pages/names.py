"""Problems of names: of items, targets, quantities, nutrients and foods."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

NAMES: Mapping[str, Page] = MappingProxyType(
    {
        "blank": Page(
            "A blank text",
            "The text has no letter in it.",
            "The answer speaks in the brief's own names, and a blank one says nothing.",
            "Write at least one letter.",
        ),
        "not_printable": Page(
            "A text that cannot be printed",
            "The text holds a control character or a line break.",
            "It is printed on cards and terminals, where such characters do harm.",
            "Write it on one line, without control characters.",
        ),
        "repeated_name": Page(
            "Two items of one name",
            "Two items of the pantry are called the same; upper and lower case count as one.",
            "The answer could not say which of them it means.",
            "Give each item a name of its own.",
        ),
        "repeated_id": Page(
            "Two targets of one id",
            "Two targets have the same id. Without an id, a target is called what it is of.",
            "The answer could not say which of them it means.",
            "Give one of them an id of its own.",
        ),
        "repeated": Page(
            "The same entry twice",
            "A preference stands in the list twice.",
            "The second has nothing left to decide.",
            "Name each preference once, the most important first.",
        ),
        "unknown_quantity": Page(
            "There is no such quantity",
            "The target is of something that has no definition here.",
            "The nearest name may be another quantity: total_carbohydrate_g is not available_carbohydrate_g.",
            "Use a name from the list in /docs; the remedy gives those that are near.",
        ),
        "unknown_nutrient": Page(
            "There is no such nutrient",
            "The field is called like no nutrient of the table.",
            "A value under a misspelt name would be lost.",
            "Use a name from the list in /docs, with its unit, such as sodium_mg.",
        ),
        "unknown_food": Page(
            "There is no such food",
            "No reference food has this id.",
            "The nearest food may have quite another composition.",
            "Look the food up and take its id from there; ids look like sr28:01123.",
        ),
    }
)
