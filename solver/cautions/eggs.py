"""Raw egg, sauces that never get hot enough, and halves of eggs."""

import re
from collections.abc import Iterator

from solver.cautions.book import Book
from solver.cautions.caution import Caution
from solver.cautions.facts import Content, Facts, Part
from solver.cautions.kinds import is_raw_egg
from solver.outcome import Quantity

#: Sauces and creams that are thickened with egg below the temperature of egg dishes; their names in kitchens.
_GENTLE = re.compile(r"hollandaise|b[eé]arnaise|sabayon|zabaglione|mousseline|cr[eè]me anglaise|maltaise|choron")

#: How far from a whole number of eggs still counts as whole.
_WHOLE = 0.02


def raw_egg(facts: Facts, book: Book) -> Iterator[Caution]:
    """Egg in what is not cooked, and in sauces of which the name says that they stay below 71 C."""
    for part in facts.parts:
        eggs = [content for content in part.contents if is_raw_egg(content)]
        gentle = [content for content in eggs if _is_gentle(facts, part, content)]
        if gentle:
            yield book.caution("egg_sauce_below_71", part.trigger(*gentle))
        uncooked = [] if part.is_cooked else [content for content in eggs if content not in gentle]
        if uncooked:
            yield book.caution("raw_egg", part.trigger(*uncooked, why="not cooked"))
        if uncooked or gentle:
            yield book.caution("keeping_raw_egg", part.trigger(*uncooked, *gentle))


def _is_gentle(facts: Facts, part: Part, content: Content) -> bool:
    names = f"{facts.brief.title} {part.component.name} {content.item}".lower()
    return _GENTLE.search(names) is not None


def half_egg(facts: Facts, book: Book) -> Iterator[Caution]:
    """An amount of shell eggs that is no whole number of them."""
    for quantity in facts.dish.quantities if facts.dish else ():
        content = Content(quantity.item.name, quantity.item.food, quantity.grams)
        if quantity.item.food.made is None and is_raw_egg(content) and not _is_whole(quantity):
            yield book.caution("half_egg", f"{quantity.item.name}: {quantity.grams:g} g")


def _is_whole(quantity: Quantity) -> bool:
    if quantity.grams == 0:
        return True
    one = _one_egg_g(quantity)
    count = 0.0 if one is None else quantity.grams / one
    return one is not None and round(count) > 0 and abs(count - round(count)) <= _WHOLE


def _one_egg_g(quantity: Quantity) -> float | None:
    """What one egg weighs: by the item's step, or by the food's own measure of a large one; None when neither says."""
    step = quantity.item.step
    if step is not None and step.unit not in {"g", "kg", "oz", "lb", "ml"}:
        return step.grams / step.amount
    large = (each for each in quantity.item.food.measures if each.unit.startswith("large"))
    return next((each.grams / each.amount for each in large), None)
