"""What one of a unit weighs for a food, and which units a food can be measured in."""

from solver.errors import AmountError
from solver.foods import Food
from solver.measure_rows import SAME_ROW, SAME_WEIGHT, Row, Rows, Unweighable, agreed_g, matching, rows_of
from solver.measure_volumes import volume_g
from solver.unit_words import UnitWords, unit_in_front, unit_words
from solver.units import (
    FLUID_OUNCE,
    GRAM,
    KILOGRAM,
    MILLILITRE,
    OUNCE,
    POUND,
    TABLESPOON,
    TEASPOON,
    Dimension,
)

_OFFERED_WEIGHTS = (GRAM, KILOGRAM, OUNCE, POUND)
_OFFERED_VOLUMES = (TEASPOON, TABLESPOON, FLUID_OUNCE, MILLILITRE)

#: Measures that name a whole piece, in the form of `unit_words`.
_PIECE_WORDS = unit_words("large medium small jumbo each whole item fruit egg").words


def weigh_one(unit: str, food: Food) -> float:
    """Grams of one `unit` of a food: "g", "cup, shredded", "large", "[tbs_us]", or "" for a bare number.

    Weights are exact and need no measure. A volume is weighed as in `measure_volumes`, anything else by its words.
    Raises `AmountError`: unknown_measure, ambiguous_measure, no_density; the remedy lists the food's measures.
    """
    weight = _exact_g(unit_words(unit))
    if weight is not None:
        return weight  # without taking the food's measures apart
    try:
        return _weigh_one(unit, rows_of(food), food)
    except Unweighable as refusal:
        remedy = f"{food.name} can be measured in: {'; '.join(measures_of(food))}."
        raise AmountError(refusal.code, refusal.detail, remedy) from None


def measures_of(food: Food) -> tuple[str, ...]:
    """Units that the food can be measured in, each readable by `weigh_one`; never empty.

    First its own as the table writes them, then small volumes where its density is known, then weights.
    """
    rows = rows_of(food)
    names = [row.measure.unit for row in rows]
    names += [unit.name for unit in (*_OFFERED_VOLUMES, *_OFFERED_WEIGHTS)]
    return tuple(name for name in dict.fromkeys(names) if _can_weigh(name, rows, food))


def _can_weigh(unit: str, rows: Rows, food: Food) -> bool:
    try:
        return _weigh_one(unit, rows, food) > 0
    except Unweighable:
        return False


def _weigh_one(text: str, rows: Rows, food: Food) -> float:
    said = unit_words(text)
    if text in ("T", "t"):
        raise Unweighable("ambiguous_measure", f'"{text}" may be a tablespoon or a teaspoon.')
    if not text.strip():
        return _weigh_piece(rows, food)
    exact = _exact_g(said)
    return _weigh_by_measures(text, said, rows) if exact is None else exact


def _exact_g(said: UnitWords) -> float | None:
    """Grams of a plain unit of weight; None for any other text."""
    if said.unit is None or said.words or said.unit.dimension is not Dimension.MASS:
        return None
    return said.unit.size


def _weigh_by_measures(text: str, said: UnitWords, rows: Rows) -> float:
    as_written = tuple(row for row in rows if row.measure.unit.casefold() == text.casefold())
    if as_written:
        return agreed_g(as_written, SAME_ROW, f'"{text}"')
    if said.unit is None and not matching(said.words, rows):
        said = unit_words(unit_in_front(text))
    if said.unit is not None and said.is_volume:
        return volume_g(said.unit, said.words, rows)
    return _weigh_count(text, said, rows)


def _weigh_count(text: str, said: UnitWords, rows: Rows) -> float:
    """Counts ("large", "stick") and weights with a qualifier ("oz, boneless"), which are measures of their own."""
    found = matching(said.words, tuple(row for row in rows if row.said.unit is said.unit))
    if not found:
        raise Unweighable("unknown_measure", f'The food has no measure "{text}".')
    one_measure = len({row.said.words for row in found}) == 1
    return agreed_g(found, SAME_ROW if one_measure else SAME_WEIGHT, f'"{text}"')


def _weigh_piece(rows: Rows, food: Food) -> float:
    """A bare number counts pieces where the food comes in one kind of piece only; eggs come in five sizes."""
    piece_words = {*_PIECE_WORDS, *unit_words(food.name).words}
    pieces = tuple(row for row in rows if _is_piece(row, piece_words))
    if not pieces:
        raise Unweighable("unknown_measure", "A number without a unit does not say how much of this food.")
    return agreed_g(pieces, SAME_WEIGHT, "a number without a unit")


def _is_piece(row: Row, piece_words: set[str]) -> bool:
    return row.said.unit is None and len(row.said.bare) == 1 and row.said.bare[0] in piece_words
