"""Which foods and measures stay: those that name no manufacturer, no restaurant and no brand.

In SR28 the names of companies and brands are written in capitals, with few exceptions; the exceptions were
found by reading every capitalised and every unusual word of what was left. They are listed by food number only.
"""

import re
from enum import Enum

from reference_data.from_sr28.ascii_files import FoodRow


class Dropped(Enum):
    """Why a food is dropped."""

    MANUFACTURER = "the manufacturer field is filled"
    RESTAURANT = "restaurant dishes, and dishes of a restaurant kind or chain"
    BRAND = "the description names a company or a brand in capitals"
    BRAND_READ = "the description names a brand in other letters (found by reading)"


_RESTAURANT_GROUP = "3600"

#: "restaurant" and "chain" as words; "restaurant-prepared" only says how strong a coffee is.
_RESTAURANT = re.compile(r"\brestaurant\b(?!-)|\bchain\b", re.IGNORECASE)

_CAPITALS = re.compile(r"[A-Z][A-Z0-9'&.\N{RIGHT SINGLE QUOTATION MARK}-]+")

#: Capitals that are no brand: an agency and its school-kitchen institute, a flavour, a fatty acid, "not further
#: specified", vegetable protein product, vitamins, a recipe number.
_PLAIN_CAPITALS = frozenset({"USDA", "NFSMI", "BBQ", "DHA", "NFS", "VPP", "B12", "D2", "C-32"})

_BRANDS_READ = frozenset(
    {"01200", "01223", "01224", "01302", "03000", "08580", "09451", "14462", "14599", "19401", "22963", "42204"}
)

_CAPITALISED = re.compile(r"[A-Z][A-Za-z'-]*")

#: Capitalised words of measures that are no brand.
_PLAIN_MEASURE_WORDS = frozenset(
    {
        "Arrowroot",
        "Bag",
        "California",
        "Florida",
        "From",
        "Fudge",
        "Gherkin",
        "Italian",
        "Jigger",
        "Marshmallow",
        "NFS",
        "NLEA",
        "NS",
        "Norwegian",
        "Potato",
        "Roll",
        "Serving",
        "Sum",
        "TBSP",
        "Tbsp",
        "Yield",
    }
)


def why_dropped(food: FoodRow) -> Dropped | None:
    """The first reason to drop a food, None when it stays."""
    if food.manufacturer:
        return Dropped.MANUFACTURER
    if food.group == _RESTAURANT_GROUP or _RESTAURANT.search(food.description):
        return Dropped.RESTAURANT
    if not _PLAIN_CAPITALS.issuperset(_CAPITALS.findall(food.description)):
        return Dropped.BRAND
    return Dropped.BRAND_READ if food.number in _BRANDS_READ else None


def names_a_brand(measure: str) -> bool:
    """Whether the text of a measure names a brand: a capitalised word that is none of the plain ones."""
    return not _PLAIN_MEASURE_WORDS.issuperset(_CAPITALISED.findall(measure))
