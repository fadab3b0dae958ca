"""What makes two plans different: items of one food, or of one composition, count as one, and traces do not count."""

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from solver.brief import Brief
from solver.foods import Food
from solver.limits import largest_g, printable
from solver.missing import count
from solver.numerics import PRINTED_STEP_G
from solver.outcome import Dish
from solver.pantry import PantryItem

#: Part of the raw mass of the plan that a new item has to bring: what is less seasons the same dish (our choice).
REAL_PART = 0.05


@dataclass(frozen=True, slots=True)
class Pools:
    """of: name of an item to the number of its pool; `size` pools in all, of the items that count and can be used."""

    of: Mapping[str, int]
    size: int

    def used(self, names: Iterable[str]) -> frozenset[int]:
        """The pools that these items are of."""
        return frozenset(self.of[name] for name in names)


def pools_of(brief: Brief) -> Pools:
    """Pool the items that count, in their total order."""
    by_food: dict[tuple[object, ...], int] = {}
    by_id: dict[str, int] = {}
    of: dict[str, int] = {}
    size = 0
    for item in count(brief).items:
        if printable(item, largest_g(brief))[1] > 0:
            pool = by_id.get(item.food.id, by_food.get(_composition(item.food), size))
            size = max(size, pool + 1)
            by_food.setdefault(_composition(item.food), pool)
            by_id.setdefault(item.food.id, pool)
            of[item.name] = pool
    return Pools(of, size)


def grams_of(dish: Dish) -> dict[str, float]:
    """Name of each used item to its raw grams in all components."""
    grams: dict[str, float] = defaultdict(float)
    for quantity in dish.quantities:
        grams[quantity.item.name] += quantity.grams
    return dict(grams)


def differs_by(pools: Pools, one: Dish, other: Dish) -> tuple[str, ...]:
    """Names of the items that one dish uses and the other does not, nor anything identical; sorted."""
    first, second = set(grams_of(one)), set(grams_of(other))
    only = pools.used(first) ^ pools.used(second)
    return tuple(sorted(name for name in first | second if pools.of[name] in only))


def mass_share(pools: Pools, one: Dish, other: Dish) -> float:
    """The sum of the differences of raw grams, by pool, over the sum of both masses: 0 for equal, 1 for disjoint."""
    difference: dict[int, float] = defaultdict(float)
    total = 0.0
    for sign, dish in ((1.0, one), (-1.0, other)):
        for name, grams in grams_of(dish).items():
            difference[pools.of[name]] += sign * grams
            total += grams
    return sum(map(abs, difference.values())) / total


def least_to_count_g(item: PantryItem, dish: Dish, largest: float) -> float:
    """The least grams with which an item is really in a dish that is an alternative to this one; can be printed.

    That is REAL_PART of the raw mass of the dish, but no more than the dish itself has of the item, where it has some,
    and than there is of it.
    """
    grams = grams_of(dish)
    real = min(REAL_PART * sum(grams.values()), grams.get(item.name, math.inf))
    step = PRINTED_STEP_G if item.step is None else item.step.grams
    least, most = printable(item, largest)
    used_least = math.ceil((item.least_when_used_g or 0.0) / step - 1e-9) * step
    counts = max(math.floor(min(real, most) / step + 1e-9), 1) * step
    return max(least, used_least, counts)


def _composition(food: Food) -> tuple[object, ...]:
    return (food.per_100g.tobytes(), food.factors)
