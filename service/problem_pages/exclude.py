"""Problems of what a brief leaves out."""

from collections.abc import Mapping
from types import MappingProxyType

from service.problem_pages.page import Page

EXCLUDE: Mapping[str, Page] = MappingProxyType(
    {
        "unknown_allergen": Page(
            "There is no such allergen",
            "The entry names an allergen that is on neither list, that of the United States or that of the EU.",
            "An allergen that is not recognised would leave nothing out, and nobody would notice.",
            "Use a name from the remedy; to leave out anything else, name it as a food.",
        ),
        "unknown_food_group": Page(
            "There is no such food group",
            "The entry names a group that the food table does not have.",
            "A group that is not recognised would leave nothing out, and nobody would notice.",
            "Use the group's whole name, as GET /v1/foods/{id} gives it with a food.",
        ),
        "excluded_item_needed": Page(
            "An item is both asked for and left out",
            "The item has an at_least above zero, and an entry of exclude leaves it out.",
            "Both cannot be had. Where nobody has said what an item contains, it counts as left out: unknown is never "
            '"free from".',
            "Take at_least away, or take the entry out of exclude. Keep the entry where somebody has an allergy.",
        ),
        "contains_and_without": Page(
            "The label states both",
            "The label states that it contains an allergen, and that it does not.",
            "One of the two is wrong, and which of them nobody here knows.",
            "Read the label again, and keep the one that it states.",
        ),
    }
)
