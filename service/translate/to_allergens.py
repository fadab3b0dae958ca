"""What is known of allergens in a dish, as it goes out."""

from collections.abc import Sequence
from types import MappingProxyType
from typing import get_args

from service.schemas.allergens import AllergenAnswer, AllergenCode
from solver.allergens import Allergen, AllergenRules, Statement, allergens_of
from solver.outcome import Quantity

_CODES = MappingProxyType({code: code for code in get_args(AllergenCode)})


def to_allergens(quantities: Sequence[Quantity], rules: AllergenRules) -> list[AllergenAnswer]:
    """Every allergen of either list, with the items that contain it."""
    told = {each.item.name: allergens_of(each.item.food, rules) for each in quantities}
    return [
        _answer(allergen, [name for name, of in told.items() if of[allergen.code] is Statement.CONTAINS])
        for allergen in rules.allergens.values()
    ]


def _answer(allergen: Allergen, items: list[str]) -> AllergenAnswer:
    return AllergenAnswer(
        allergen=_CODES[allergen.code],
        us_nine=allergen.us_nine,
        eu_fourteen=allergen.eu_fourteen,
        statement="contains" if items else "unknown",
        items=items,
    )
