"""Amounts of the contract in grams of a food."""

from service.schemas.amounts import Amount as AmountField
from service.translate.place import Place
from solver.amounts import Amount, parse_amount
from solver.errors import AmountError
from solver.foods import Food
from solver.measures import grams
from solver.pantry import Step


def read_amount(amount: AmountField) -> tuple[Amount, ...]:
    """The parts of an amount in either form ("1 lb 4 oz" has two). Raises AmountError."""
    return parse_amount(amount) if isinstance(amount, str) else (Amount(amount.value, amount.unit),)


def grams_of(amount: AmountField | None, food: Food, place: Place) -> float | None:
    """Grams of an amount; None when there is none, or when it is refused at `place`."""
    if amount is None:
        return None
    try:
        return grams(read_amount(amount), food)
    except AmountError as error:
        place.refuse_amount(error)
        return None


def positive_grams_of(amount: AmountField | None, food: Food, place: Place) -> float | None:
    """The same; zero is refused as well."""
    weight = grams_of(amount, food, place)
    if weight is not None and weight <= 0:
        place.refuse("not_positive", "The amount is zero.", "Give an amount above zero, or leave the field out.")
        return None
    return weight


def step_of(amount: AmountField | None, food: Food, place: Place) -> Step | None:
    """A step keeps the words it was written in. An amount of several parts has none and is refused."""
    weight = positive_grams_of(amount, food, place)
    if amount is None or weight is None:
        return None
    parts = read_amount(amount)
    if len(parts) > 1:
        place.refuse(
            "several_parts", "A step is counted, so it needs one unit.", 'Write it in one unit, "5 g" or "1 tsp".'
        )
        return None
    return Step(parts[0].value, parts[0].unit, weight)
