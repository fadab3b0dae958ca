"""What amounts weigh for a food, and the way back from grams to the measure a cook would use.

The parts: `units` (exact sizes), `unit_words` (the words of a unit's text), `measure_rows` (a food's measures and
which of them words mean), `measure_volumes`, `measure_lookup` (one of a unit), `kitchen_measure` (the way back).
"""

from solver.amounts import Amount
from solver.errors import AmountError
from solver.foods import Food
from solver.kitchen_measure import KitchenMeasure, kitchen_measure, text_of
from solver.measure_lookup import measures_of, weigh_one

__all__ = ["KitchenMeasure", "grams", "kitchen_measure", "measures_of", "text_of", "weigh_one"]


def grams(amounts: tuple[Amount, ...], food: Food) -> float:
    """Weight of the amounts together, grams, of the food as its measures weigh it.

    Raises `AmountError`: unknown_measure (the remedy lists the food's measures), ambiguous_measure (several weights
    could be meant), no_density (a volume, but the food has no measured volume), unreadable_amount (no amount at all).
    """
    if not amounts:
        raise AmountError("unreadable_amount", "There is no amount.", 'Write a number and a unit, such as "250 g".')
    return sum(amount.value * weigh_one(amount.unit, food) for amount in amounts)
