"""A base dish as a dish: its quantities, and what they come to by the targets and rules of a brief."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from solver.brief import Brief
from solver.closest import Base, UseName
from solver.cook import SPOON_G
from solver.dish_pot import spoon_problems
from solver.errors import Problem, VerificationError
from solver.outcome import Dish, Quantity
from solver.pantry import Step
from solver.used import in_kitchen
from solver.uses import drippings_named
from solver.verify import dish_of


def base_dish(brief: Brief, base: Base) -> Dish:
    """What the base dish comes to. A target or rule that it lacks a value for is left out of its results."""
    quantities = tuple(base_quantities(brief, base))
    asked = replace(
        brief,
        pantry=tuple(quantity.item for quantity in quantities),
        choices=(),
        targets=tuple(target for target in brief.targets if _is_known(brief, quantities, target.id)),
    )
    return dish_of(quantities, asked, frozenset(), spoons_of_base(brief, base))


def base_dish_problems(brief: Brief, base: Base) -> Iterator[Problem]:
    """More spooned back than ran out."""
    cooked = in_kitchen(tuple(base_quantities(brief, base)), spoons_of_base(brief, base), brief).cooked
    for problem in spoon_problems(brief.components, cooked):
        yield replace(problem, pointer="/base")


def spoons_of_base(brief: Brief, base: Base) -> Mapping[str, int]:
    """Name of a component to the teaspoons of its drippings that were spooned back."""
    named = {drippings_named(part.name): part.name for part in brief.components}
    return {named[each.item]: round(each.grams / SPOON_G) for each in base.amounts if each.item in named}


def grams_by_use(dish: Dish) -> dict[UseName, float]:
    """Grams of each use of a dish, drippings that are spooned back among them."""
    found = {(each.item.name, each.placed.component): each.grams for each in dish.quantities}
    spooned = {
        (drippings_named(cooked.component.name), cooked.component.name): cooked.spoons * SPOON_G
        for cooked in dish.cooked
        if cooked.spoons
    }
    return found | spooned


def base_quantities(brief: Brief, base: Base) -> Iterator[Quantity]:
    """Its amounts, each of an item of which just that is there; without what there was none of."""
    amounts = base.by_use
    for item in brief.pantry:
        total = base.grams(item.name)
        for placed in item.placed:
            amount = amounts.get((item.name, placed.component))
            if amount is not None and amount.grams > 0:
                words = amount.words or Step(round(amount.grams, 6), "g", amount.grams)
                settled = replace(
                    item, on_hand_g=total, at_least_g=total, at_most_g=total, step=words, least_when_used_g=None
                )
                yield Quantity(settled, amount.grams, 1, placed)


def _is_known(brief: Brief, quantities: tuple[Quantity, ...], target: str) -> bool:
    one = tuple(each for each in brief.targets if each.id == target)
    pantry = tuple(quantity.item for quantity in quantities)
    try:
        dish_of(quantities, replace(brief, pantry=pantry, choices=(), rules=(), targets=one), frozenset())
    except VerificationError:
        return False
    return True
