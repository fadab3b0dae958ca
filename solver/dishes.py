"""A dish as a food of another dish: what 100 g of it hold as eaten, and what it is made of.

What went in is summed as a plan's numbers are, from the raw rows, cooked by component. Then fat that was skimmed off
goes, and water evaporates until the dish weighs what it is said to yield: water alone, since nothing else of it does.
A value that one ingredient lacks is missing in the dish, however little of the ingredient there is.
"""

from collections.abc import Mapping
from math import fsum, nan

import numpy as np

from solver.dish_fixed import FixedDish
from solver.dish_identity import dish_id
from solver.dish_made import half_interval, made_of, polyols_of, standard_error
from solver.dish_pot import Pot, pot_of
from solver.dish_remarks import remarks
from solver.energy_eaten import energy_lost_kcal
from solver.foods import Food, Measure
from solver.numerics import FloatArray
from solver.nutrients import NUTRIENTS

__all__ = ["FixedDish", "food_of_dish"]

_SOURCE = "dish as given in the brief"


def food_of_dish(dish: FixedDish, count_missing_as: Mapping[str, float]) -> Food:
    """The dish as a food. count_missing_as: what missing values of ingredients count, per 100 g, by nutrient.

    Its id depends on what is in it and not on names or order. Its measures are the one that it comes to, if any.
    Raises UnusableBrief, with pointers inside the dish, where its weights cannot be true.
    """
    pot = pot_of(dish, count_missing_as)
    foods = [quantity.item.food for quantity in dish.quantities]
    contains = frozenset[str]().union(*(food.contains for food in foods))
    return Food(
        id=dish_id(dish, count_missing_as),
        name=dish.name,
        group=None,
        per_100g=_composition(pot),
        measures=() if dish.measure is None else (Measure(*dish.measure, grams=pot.yield_g),),
        standard_error=standard_error(pot),
        source=_SOURCE,
        total_carbohydrate_counted=any(used.food.total_carbohydrate_counted for used in pot.used),
        polyols=polyols_of(pot),
        made=made_of(dish, pot),
        half_interval=half_interval(pot),
        contains=contains,
        without=frozenset.intersection(*(food.without for food in foods)) - contains,
        remarks=remarks(dish, pot, count_missing_as),
    )


def _composition(pot: Pot) -> FloatArray:
    totals = {nutrient.name: _sum(pot, nutrient.name) for nutrient in NUTRIENTS}
    totals["water_g"] -= pot.water_lost_g
    totals["energy_kcal"] -= fsum(energy_lost_kcal(used) for used in pot.used)
    row: FloatArray = np.array([totals[nutrient.name] for nutrient in NUTRIENTS])
    return np.maximum(row, 0.0) * (100 / pot.yield_g)


def _sum(pot: Pot, nutrient: str) -> float:
    amounts = [used.eaten(nutrient) for used in pot.used]
    known = [amount for amount in amounts if amount is not None]
    return fsum(known) if len(known) == len(amounts) else nan
