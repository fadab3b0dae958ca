"""A base dish for another number of portions than it made, so that it is made anew for as many as are wanted.

It is scaled as any dish is (`scaling`): whole pieces where they are near, spoons that there are, and a weighed pan that
loses as much steam as before. Only an item with a step of its own comes in whole steps, at least one, however far those
are, since the cook takes nothing else of it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from math import isclose

from solver.brief import Brief
from solver.closest import Base, BaseAmount
from solver.components import Component
from solver.cook import SPOON_G
from solver.measures import text_of
from solver.pantry import PantryItem, Step, is_in_already
from solver.rework_base import base_quantities, spoons_of_base
from solver.scaling import TIMES, ScaledDish, scaled_dish
from solver.uses import drippings_named


def with_scaled_base(brief: Brief, base: Base, made_portions: int) -> tuple[Brief, tuple[str, ...]]:
    """The brief with its base dish, which made so many portions, scaled to its own number; and what the cook must know.

    What is in already, and what the scale said of it, was of the base dish, so it is scaled with it.
    """
    if made_portions == brief.portions:
        return brief, ()
    quantities, spoons = tuple(base_quantities(brief, base)), spoons_of_base(brief, base)
    pantry = tuple({each.item.name: each.item for each in quantities}.values())
    made = replace(brief, portions=made_portions, pantry=pantry, targets=(), choices=())
    words = {each.use: each.words for each in base.amounts if each.words is not None}
    scaled = scaled_dish(quantities, spoons, made, brief.portions, words)
    stepped = {item.name: item.step for item in brief.pantry if item.step is not None and not is_in_already(item)}
    found = replace(base, amounts=tuple(_in_steps(each, stepped) for each in _amounts(scaled, base)))
    parts = {part.name: part for part in scaled.brief.components}
    items = {item.name: item for item in scaled.brief.pantry}
    return replace(
        brief,
        base=found,
        components=tuple(_weighed(part, parts[part.name]) for part in brief.components),
        pantry=tuple(_settled(item, items) if is_in_already(item) else item for item in brief.pantry),
    ), tuple(_notes(scaled, found, stepped))


def _in_steps(amount: BaseAmount, stepped: Mapping[str, Step]) -> BaseAmount:
    step = stepped.get(amount.item)
    if step is None:
        return amount
    steps = max(int(amount.grams / step.grams + 0.5), 1)
    grams = steps * step.grams
    return replace(amount, grams=grams, words=Step(steps * step.amount, step.unit, grams))


def _notes(scaled: ScaledDish, base: Base, stepped: Mapping[str, Step]) -> Iterator[str]:
    """What was said of amounts, but for those that then came in whole steps, of which their own is said; times last."""
    own = tuple(f"{name}: " for name in stepped)
    yield from (note for note in scaled.notes if not note.startswith(own) and note != TIMES)
    for each in scaled.quantities:
        after = base.by_use[each.item.name, each.placed.component]
        if each.item.name in stepped and after.words is not None and not isclose(after.grams, each.grams):
            words = text_of(after.words.amount, after.words.unit)
            amounts = f"{words}, {after.grams:g} g, in place of {each.grams:g} g"
            yield f"{each.item.name}: {amounts}, as it comes in whole steps."
    yield TIMES


def _amounts(scaled: ScaledDish, base: Base) -> Iterator[BaseAmount]:
    for each in scaled.quantities:
        before = base.by_use[each.item.name, each.placed.component]
        words = each.item.step if before.words is not None else None
        yield replace(before, grams=each.grams, words=words)
    for component, spoons in scaled.spoons.items():
        before = base.by_use[drippings_named(component), component]
        yield replace(before, grams=spoons * SPOON_G)


def _weighed(part: Component, scaled: Component) -> Component:
    return replace(part, cooked_g=scaled.cooked_g, drippings_g=scaled.drippings_g)


def _settled(item: PantryItem, scaled: Mapping[str, PantryItem]) -> PantryItem:
    new = scaled.get(item.name)
    if new is None:
        return item
    return replace(item, on_hand_g=new.on_hand_g, at_least_g=new.at_least_g, at_most_g=new.at_most_g, step=new.step)
