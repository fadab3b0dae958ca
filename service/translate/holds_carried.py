"""How much of a tolerance a pantry can carry, as it goes out."""

from math import ceil, floor

from service.schemas.holds_carried import CarriedAnswer
from service.translate.holds import tolerance_name
from service.translate.to_dish import to_dish
from service.words import number
from solver.holds_carried import Carried


def to_carried(found: Carried | None) -> CarriedAnswer | None:
    """How much is carried; None where nobody asked or knows."""
    if found is None:
        return None
    percent = floor(1000 * found.part) / 10
    return CarriedAnswer(
        percent=percent,
        not_above_percent=ceil(1000 * found.not_above) / 10,
        proven=found.proven,
        text=f"holding within {number(percent)} percent of {tolerance_name(found.plan.brief)}",
        dish=to_dish(found.plan.dish),
    )
