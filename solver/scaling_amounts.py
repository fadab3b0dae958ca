"""An amount times a factor, as a kitchen can take it: whole eggs, spoons and cups that there are, weights otherwise.

All of it is common practice, no source, and our choice of numbers.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from solver.foods import Food
from solver.kitchen_measure import kitchen_measure, text_of
from solver.pantry import Step
from solver.unit_words import unit_words
from solver.units import DECILITRE, GRAM, LITRE, MILLILITRE, Dimension, Unit

#: How far whole pieces, or a spoon, may be from the amount that the factor gives, as a part of it; else it is weighed.
MOST_OFF = 0.10

#: What is further off than this, as a part of the amount, is told.
TOLD_OFF = 0.005

#: What a piece is cut into at most where the recipe cuts it: halves, and quarters.
_CUTS = (1.0, 0.5, 0.25)

#: Weights from here on, g, and volumes, mL, are written to this digit; smaller ones to three significant digits.
_FULL_FROM, _DIGITS = 10.0, 1

_METRIC = (MILLILITRE, DECILITRE, LITRE)
_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class ScaledAmount:
    """grams: raw, edible portion. exact_g: what the factor alone gives.

    words: the amount as a single step; None where it was not written in words. note: what the cook has to know of it.
    """

    grams: float
    exact_g: float
    words: Step | None = None
    note: str | None = None

    @property
    def off(self) -> float:
        """How far it is from the exact amount, as a part of that; below zero where it is less."""
        return self.grams / self.exact_g - 1 if self.exact_g > 0 else 0.0


def scaled_amount(food: Food, grams: float, words: Step | None, factor: float) -> ScaledAmount:
    """An amount of a food, as it was written, times a factor; without words it is exact."""
    exact = grams * factor
    if words is None or factor == 1:
        return ScaledAmount(exact, exact, words)
    unit = unit_words(words.unit).unit
    if unit is not None and unit.dimension is Dimension.MASS:
        return _weighed(exact)
    if unit in _METRIC:
        return _poured(words, unit, factor)
    ways = _pieces(words, factor) if unit is None else _spooned(food, words, factor)
    near = (way for way in ways if abs(way.off) <= MOST_OFF + _NOISE)
    found = next(near, None)
    return as_weight(food, exact, words, factor) if found is None else _told(found, words, factor)


def as_weight(food: Food, exact_g: float, words: Step, factor: float) -> ScaledAmount:
    """The amount by weight, where no whole piece and no spoon is near enough."""
    found, asked = _weighed(exact_g), text_of(_sensible(words.amount * factor), words.unit)
    how = "beat enough of it and weigh" if _is_egg(food) else "weigh"
    note = f"{asked} cannot be measured closely enough: {how} {found.grams:g} g"
    return ScaledAmount(found.grams, exact_g, found.words, note)


def is_counted(words: Step | None) -> bool:
    """Whether an amount is counted in pieces."""
    return words is not None and unit_words(words.unit).unit is None


def _pieces(words: Step, factor: float) -> Iterator[ScaledAmount]:
    """The nearest whole number of pieces, or of such parts as the recipe cuts them into; none where that is nothing."""
    whole = (cut for cut in _CUTS if math.isclose(words.amount / cut, round(words.amount / cut), abs_tol=_NOISE))
    cut = next(whole, None)
    if cut is not None:
        yield from _of_unit(words, factor, cut)


def _spooned(food: Food, words: Step, factor: float) -> Iterator[ScaledAmount]:
    """A kitchen measure of volume; else quarters of the unit that it was written in."""
    exact = words.grams * factor
    measure = kitchen_measure(exact, food)
    if measure is not None and unit_words(measure.unit).unit is not None:
        step = Step(measure.amount, measure.unit, measure.grams)
        yield ScaledAmount(measure.grams, exact, step)
    yield from _of_unit(words, factor, _CUTS[-1])


def _of_unit(words: Step, factor: float, cut: float) -> Iterator[ScaledAmount]:
    amount = math.floor(words.amount * factor / cut + 0.5) * cut
    if amount > 0:
        grams = amount * words.grams / words.amount
        yield ScaledAmount(grams, words.grams * factor, Step(amount, words.unit, grams))


def _poured(words: Step, unit: Unit, factor: float) -> ScaledAmount:
    millilitres = _sensible(words.amount * unit.size * factor)
    grams = millilitres * words.grams / (words.amount * unit.size)
    return ScaledAmount(grams, words.grams * factor, Step(millilitres, MILLILITRE.name, grams))


def _weighed(exact_g: float) -> ScaledAmount:
    grams = _sensible(exact_g)
    return ScaledAmount(grams, exact_g, Step(grams, GRAM.name, grams))


def _told(found: ScaledAmount, words: Step, factor: float) -> ScaledAmount:
    if abs(found.off) < TOLD_OFF or found.words is None:
        return found
    text, asked = (text_of(*each) for each in (_pair(found.words), (_sensible(words.amount * factor), words.unit)))
    note = f"{text} in place of {asked}, {abs(100 * found.off):.0f} % {'more' if found.off > 0 else 'less'}"
    return ScaledAmount(found.grams, found.exact_g, found.words, note)


def _pair(step: Step) -> tuple[float, str]:
    return step.amount, step.unit


def _sensible(value: float) -> float:
    digits = _DIGITS if value >= _FULL_FROM or value <= 0 else 2 - math.floor(math.log10(value))
    return round(value, digits)


def _is_egg(food: Food) -> bool:
    return food.name.casefold().startswith("egg,")
