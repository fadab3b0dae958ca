"""What a dish is said to come to: a weight, a measure, or both."""

from service.schemas.dish_source import DishBody
from service.translate.amounts import positive_grams_of, read_amount
from service.translate.label_food import unweighed
from service.translate.place import Place
from solver.amounts import Amount
from solver.errors import AmountError
from solver.foods import Measure
from solver.unit_words import unit_words
from solver.units import Dimension, Unit, find_unit

#: One of a measure weighs at least and at most this, g; beyond is a slip of the unit (our choice).
_LEAST_G, _MOST_G = 0.001, 100_000.0

#: Nothing eaten is denser, g/mL: honey has 339 g to the cup, 1.43 (USDA SR28, 19296).
_DENSEST_G_PER_ML = 1.5


def yield_of(body: DishBody, place: Place) -> tuple[float | None, tuple[float, str] | None]:
    """The weight in grams and the measure, each None where it is not said or refused at `place`."""
    weighs = positive_grams_of(body.weighs, unweighed(body.name), place / "weighs")
    made = _made(body, place / "makes")
    if made is None:
        return weighs, None
    units = [find_unit(part.unit) for part in made]
    if all(unit is not None and unit.dimension is Dimension.MASS for unit in units):
        _refuse_two_weights(body, place)
        return positive_grams_of(body.makes, unweighed(body.name), place / "makes"), None
    return weighs, _measure(made, units, place / "makes")


def refuse_slip(body: DishBody, measure: Measure, place: Place) -> None:
    """Refuse a measure of which one weighs what it cannot."""
    each_g = measure.grams / measure.amount
    weighty = f"One {measure.unit} of it would weigh {each_g:.6g} g"
    said = unit_words(measure.unit)
    too_dense = said.unit is not None and said.is_volume and each_g > _DENSEST_G_PER_ML * said.unit.size
    if not _LEAST_G <= each_g <= _MOST_G:
        (place / "makes").refuse("not_an_amount", f"{weighty}.", "Check the amount and its unit, and the weight.")
    elif too_dense and body.weighs is not None:
        detail = f"{weighty}, more than any food does."
        (place / "weighs").refuse("not_an_amount", detail, "Check the weight, and the measure in makes.")
    elif too_dense:
        detail = f"{weighty}, if it weighed what went into it; something has evaporated."
        (place / "makes").refuse("yield_needs_weight", detail, "Weigh the dish, and give its weight in weighs.")


def _made(body: DishBody, place: Place) -> tuple[Amount, ...] | None:
    if body.makes is None:
        return None
    try:
        parts = read_amount(body.makes)
    except AmountError as error:
        place.refuse_amount(error)
        return None
    if not all(part.unit for part in parts):
        detail = "A number without a unit does not say what the dish makes."
        place.refuse("unknown_measure", detail, 'Write it with its unit, "250 g", "1 1/2 cups" or "12 pieces".')
        return None
    return parts


def _refuse_two_weights(body: DishBody, place: Place) -> None:
    if body.weighs is not None:
        detail = "What the dish weighs is given twice."
        (place / "weighs").refuse("two_weights", detail, "Leave it out, or let makes be a measure.")


def _measure(parts: tuple[Amount, ...], units: list[Unit | None], place: Place) -> tuple[float, str] | None:
    """Several volumes come together in the first of them: 1 cup + 2 tbsp are 1.125 cups."""
    first = units[0]
    if len(parts) == 1:
        amount, unit = parts[0].value, parts[0].unit if first is None else first.name
    elif first is not None and all(unit is not None and unit.dimension is Dimension.VOLUME for unit in units):
        sizes = [unit.size for unit in units if unit is not None]
        amount = sum(part.value * size for part, size in zip(parts, sizes, strict=True)) / first.size
        unit = first.name
    else:
        place.refuse("several_parts", "What it makes is in units that do not add up.", "Write it in one unit.")
        return None
    if amount <= 0:
        place.refuse("not_positive", "The amount is zero.", "Give an amount above zero, or leave the field out.")
        return None
    return amount, unit
