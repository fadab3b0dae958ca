"""The id of a dish: a digest of what is in it, so that equal dishes are one food, whatever their order and names."""

import hashlib
import json
from collections.abc import Mapping

from solver.components import Component
from solver.dish_fixed import FixedDish
from solver.outcome import Quantity


def dish_id(dish: FixedDish, count_missing_as: Mapping[str, float]) -> str:
    """The letters "dish:" and twelve hexadecimal digits of a SHA-256."""
    content = [
        sorted(_of_quantity(dish, quantity) for quantity in dish.quantities),
        sorted(_of_component(dish, component) for component in dish.components),
        [dish.yield_g, dish.measure, dish.skimmed_fat_g],
        sorted(count_missing_as.items()),
    ]
    return "dish:" + hashlib.sha256(json.dumps(content).encode()).hexdigest()[:12]


def _of_quantity(dish: FixedDish, quantity: Quantity) -> tuple[str, float, str, bool, float]:
    name = quantity.item.name
    discarded = sum(grams for of, grams in dish.discarded if of == name)
    where = quantity.placed.component
    return (quantity.item.food.id, quantity.grams, where, name in dish.strained_out, discarded)


def _of_component(dish: FixedDish, component: Component) -> tuple[str, ...]:
    said = (component.method, component.drippings.value, component.cooked_g, component.drippings_g, component.minutes)
    return (component.name, *map(repr, said), repr(dish.spoons.get(component.name, 0)))
