"""What is in the pot when a dish is done: weights that cannot be true are refused here.

raw = eaten + drippings not eaten + skimmed + evaporated, in grams, apart from what was strained out or discarded.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from solver.brief import Brief
from solver.components import Component
from solver.cooked import CookedComponent
from solver.dish_fixed import FixedDish
from solver.errors import Problem, UnusableBrief
from solver.outcome import Quantity
from solver.usable_components import component_problems
from solver.used import Kitchen, Used, in_kitchen

#: Nothing lighter than this is a dish, g: no kitchen scale shows less.
LEAST_DISH_G = 0.1

#: Weights that differ by no more than this share are the same number, written twice.
_SAME = 1e-9

_GRAMS = ("protein_g", "fat_g", "ash_g", "alcohol_g")


@dataclass(frozen=True, slots=True, eq=False)
class Pot:
    """used: what stayed, with all the fat that nobody eats. removed: what was strained out or discarded whole.

    yield_g: weight as eaten. evaporated_g: raw weight that left as steam and juices. water_lost_g: water of that.
    """

    used: tuple[Used, ...]
    removed: tuple[Quantity, ...]
    cooked: tuple[CookedComponent, ...]
    yield_g: float
    evaporated_g: float
    water_lost_g: float


def pot_of(dish: FixedDish, count_missing_as: Mapping[str, float]) -> Pot:
    """Cook a dish. Raises UnusableBrief with pointers inside the dish."""
    kept, removed = _kept(dish)
    brief = _brief(dish, kept, count_missing_as)
    _refuse([*_discarded_problems(dish), *component_problems(brief)])
    kitchen = in_kitchen(kept, dish.spoons, brief)
    _refuse([*spoon_problems(dish.components, kitchen.cooked), *_skimmed_problems(dish, kitchen)])
    used = _skimmed(kitchen.used, dish.skimmed_fat_g)
    most = sum(each.grams for each in used) - sum(each.lost_fat_g for each in used)
    cooked = sum(part.eaten_g for part in kitchen.cooked) - dish.skimmed_fat_g
    weight = cooked if dish.yield_g is None else dish.yield_g
    _refuse(_yield_problems(dish, weight, most, used))
    evaporated = max(most - weight, 0.0)
    water = kitchen.water_lost_g if dish.yield_g is None else max(evaporated - _alcohol_lost_g(used), 0.0)
    return Pot(used, removed, kitchen.cooked, weight, evaporated, water)


def _kept(dish: FixedDish) -> tuple[list[Quantity], tuple[Quantity, ...]]:
    """What stays, in an order that depends on no order of the ingredients, and what does not stay at all."""
    quantities = sorted(dish.quantities, key=lambda each: (each.item.food.id, each.grams, each.item.name))
    left = [replace(each, grams=_left_g(dish, each)) for each in quantities]
    return [each for each in left if each.grams > 0], tuple(each for each in left if each.grams <= 0)


def _left_g(dish: FixedDish, quantity: Quantity) -> float:
    if quantity.item.name in dish.strained_out:
        return 0.0
    return quantity.grams - sum(grams for name, grams in dish.discarded if name == quantity.item.name)


def _brief(dish: FixedDish, kept: Sequence[Quantity], count_missing_as: Mapping[str, float]) -> Brief:
    settled = tuple(
        replace(each.item, at_least_g=each.grams, at_most_g=each.grams, placed=(each.placed,)) for each in kept
    )
    return Brief(dish.name, 1, settled, (), count_missing_as=count_missing_as, components=dish.components)


def _skimmed(used: Sequence[Used], skimmed_g: float) -> tuple[Used, ...]:
    """Fat goes off the top of the pot in the proportion that each ingredient has brought it there."""
    pooled = sum(each.eaten("fat_g") or 0.0 for each in used)
    if skimmed_g <= 0:
        return tuple(used)
    part = min(skimmed_g / pooled, 1.0)
    return tuple(replace(each, lost_fat_g=each.lost_fat_g + part * (each.eaten("fat_g") or 0.0)) for each in used)


def _alcohol_lost_g(used: Sequence[Used]) -> float:
    return sum((each.uncooked.eaten("alcohol_g") or 0.0) - (each.eaten("alcohol_g") or 0.0) for each in used)


def _refuse(problems: Sequence[Problem] | Iterator[Problem]) -> None:
    found = tuple(problems)
    if found:
        raise UnusableBrief(found)


def _discarded_problems(dish: FixedDish) -> Iterator[Problem]:
    for quantity in dish.quantities:
        name, left = quantity.item.name, _left_g(dish, quantity)
        if left < -_SAME * quantity.grams:
            detail = f"More {name} is discarded than the {quantity.grams:g} g that went in."
            remedy = "Give what was thrown away of it, or how much went in."
            yield Problem("/discarded", "discarded_exceeds_ingredient", detail, remedy)


def spoon_problems(components: Sequence[Component], cooked: Sequence[CookedComponent]) -> Iterator[Problem]:
    """Components of which more is spooned back than ran out."""
    for number, component in enumerate(components):
        for each in cooked:
            if each.component is component and each.returned_g > each.rendered_g * (1 + _SAME):
                detail = f"{each.spoons} teaspoons are spooned back, and {each.rendered_g:.1f} g of fat ran out."
                remedy = "Spoon back less, or give the weight of the drippings."
                yield Problem(f"/components/{number}", "spoons_exceed_drippings", detail, remedy)


def _skimmed_problems(dish: FixedDish, kitchen: Kitchen) -> Iterator[Problem]:
    pooled = sum(each.eaten("fat_g") or 0.0 for each in kitchen.used)
    if dish.skimmed_fat_g > pooled * (1 + _SAME):
        detail = f"{dish.skimmed_fat_g:g} g of fat were skimmed off, and {pooled:.1f} g were there."
        remedy = "Fat of what was strained out does not count, so do not skim it; weigh fat without broth."
        yield Problem("/skimmed_fat", "skimmed_exceeds_fat", detail, remedy)


def _yield_problems(dish: FixedDish, weight: float, most: float, used: Sequence[Used]) -> Iterator[Problem]:
    if weight < LEAST_DISH_G:
        detail, remedy = f"Less than {LEAST_DISH_G:g} g of the dish are left.", "Let something stay in it."
        yield Problem("", "dish_of_nothing", detail, remedy)
    elif dish.yield_g is not None and weight > most * (1 + _SAME):
        detail = f"The dish weighs {weight:.1f} g, and what went into it and stayed {most:.1f} g."
        remedy = f"Add what is missing, such as water, as an ingredient, or give {_down(most):.1f} g or less."
        yield Problem("/makes", "yield_exceeds_ingredients", detail, remedy)
    elif dish.yield_g is not None and weight < _dry_g(most, used) * (1 - _SAME):
        least = _dry_g(most, used)
        detail = f"The dish weighs {weight:.1f} g, and at least {least:.1f} g of it cannot evaporate."
        remedy = f"Give {_up(least):.1f} g or more. What stuck to a bowl did not evaporate: leave the weight out then."
        yield Problem("/makes", "yield_below_dry_matter", detail, remedy)


def _dry_g(most: float, used: Sequence[Used]) -> float:
    """What stays when all water that there can be is gone, g; never less than a thousandth (our choice)."""
    return max(most - sum(_most_water_g(each) for each in used) - _alcohol_lost_g(used), most / 1000)


def _most_water_g(used: Used) -> float:
    """Water of an ingredient; where it is missing, whatever is not known to be something else."""
    known = used.per_gram("water_g")
    if known is not None:
        return used.grams * known
    carbohydrate = used.per_gram("total_carbohydrate_g") or used.per_gram("available_carbohydrate_g") or 0.0
    solid = sum(used.per_gram(nutrient) or 0.0 for nutrient in _GRAMS) + carbohydrate
    return used.grams * max(1.0 - solid, 0.0)


def _down(grams: float) -> float:
    return math.floor(grams * 10) / 10


def _up(grams: float) -> float:
    return math.ceil(grams * 10) / 10
