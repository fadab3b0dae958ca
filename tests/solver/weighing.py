"""Foods known by their measures alone, and what amounts of them weigh."""

import numpy as np
import pytest

from solver.amounts import parse_amount
from solver.errors import AmountError
from solver.foods import Food, Measure
from solver.measures import grams
from solver.nutrients import NUTRIENTS

BUTTER, EGG, CHEDDAR, OLIVE_OIL = "sr28:01001", "sr28:01123", "sr28:01009", "sr28:04053"
TALLOW, GARLIC, SALT, HEAVY_CREAM = "sr28:04001", "sr28:11215", "sr28:02047", "sr28:01053"
FOODS = (BUTTER, EGG, CHEDDAR, OLIVE_OIL, TALLOW, GARLIC, SALT, HEAVY_CREAM)


def measured(*measures: tuple[float, str, float], name: str = "invented food") -> Food:
    """A food of which only the measures are known: amount, unit, grams."""
    composition = np.full(len(NUTRIENTS), np.nan)
    return Food("test:1", name, None, composition, tuple(Measure(*measure) for measure in measures))


def weigh(text: str, food: Food) -> float:
    """Grams of an amount as written."""
    return grams(parse_amount(text), food)


def weighed_or_refused(text: str, food: Food) -> float | AmountError:
    """Grams of an amount as written, or why there are none."""
    try:
        return weigh(text, food)
    except AmountError as refused:
        return refused


def refusal(text: str, food: Food) -> AmountError:
    """Why an amount is refused."""
    with pytest.raises(AmountError) as refused:
        weigh(text, food)
    return refused.value
