"""What a reader of a dish's numbers must know: what was assumed of it, and what the sources of its ingredients say.

Every remark names what it is of, so that remarks of a dish inside a dish are handed on as they are.
"""

from collections.abc import Iterator, Mapping

from solver.dish_fixed import FixedDish
from solver.dish_pot import Pot
from solver.outcome import Quantity

#: Weights are written to 0.1 g; less than half of that is not worth a word.
_SHOWN_G = 0.05


def remarks(dish: FixedDish, pot: Pot, count_missing_as: Mapping[str, float]) -> tuple[str, ...]:
    """Sentences, each once."""
    own = (*_weights(dish, pot), *_taken_out(dish), *_counted(pot, count_missing_as))
    return tuple(dict.fromkeys((*own, *_of_sources(dish))))


def _weights(dish: FixedDish, pot: Pot) -> Iterator[str]:
    if dish.yield_g is not None and pot.evaporated_g >= _SHOWN_G:
        yield f"{pot.evaporated_g:.1f} g evaporated from {dish.name}, counted as water alone."
    if dish.yield_g is None and dish.measure is not None:
        weight = f"{pot.yield_g:.1f} g, what went into it and stayed,"
        yield f"{dish.name} is taken to weigh {weight} since its weight is not given."
    for cooked in pot.cooked:
        if dish.yield_g is None and cooked.component.method is not None:
            yield f"The weight of {cooked.component.name} in {dish.name} is {cooked.weight.value}: {cooked.why}."


def _taken_out(dish: FixedDish) -> Iterator[str]:
    if dish.strained_out:
        names = ", ".join(sorted(dish.strained_out))
        yield f"What dissolved out of what was strained from {dish.name} is not known and not counted: {names}."
    if dish.discarded:
        names = ", ".join(sorted({name for name, _ in dish.discarded}))
        yield f"What was discarded of {dish.name} is counted to be as it went in: {names}."


def _counted(pot: Pot, count_missing_as: Mapping[str, float]) -> Iterator[str]:
    ingredients = [used.quantity.item for used in pot.used]
    for nutrient, value in sorted(count_missing_as.items()):
        gaps = [item.name for item in ingredients if item.food.is_missing(nutrient)]
        if gaps:
            yield f"{nutrient} is missing and was counted as {value:g} in 100 g, as asked: {', '.join(gaps)}."


def _of_sources(dish: FixedDish) -> Iterator[str]:
    for quantity in dish.quantities:
        yield from _of_source(quantity)


def _of_source(quantity: Quantity) -> Iterator[str]:
    name, food = quantity.item.name, quantity.item.food
    for remark in food.remarks:
        yield remark if food.made is not None else f"{name}: {remark}"
