"""What is in a dish, component by component, with dishes in the dish taken apart."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import fsum, isnan

from solver.brief import Brief
from solver.components import Component
from solver.eater import Eater
from solver.foods import Food
from solver.outcome import Dish
from solver.pantry import PantryItem


@dataclass(frozen=True, slots=True, eq=False)
class Content:
    """A food in a component. item: the brief's name for it, or for the dish that it is in. grams: raw, of the batch.

    inside: it is an ingredient of a dish; cooked: and was cooked there.
    """

    item: str
    food: Food
    grams: float
    inside: bool = False
    cooked: bool = False

    @property
    def called(self) -> str:
        """How a trigger names it."""
        return f"{self.item} ({self.food.name})" if self.inside else self.item

    @property
    def words(self) -> str:
        """All that is known of what it is, in lower case: the food's name, and the brief's name of an item."""
        return self.food.name.lower() if self.inside else f"{self.item}, {self.food.name}".lower()

    def holds(self, nutrient: str) -> float:
        """A nutrient in it, raw; 0 where the source has no value."""
        value = self.food.value(nutrient)
        return 0.0 if isnan(value) else self.grams * value / 100


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """A component and what is in it."""

    component: Component
    contents: tuple[Content, ...]

    @property
    def is_cooked(self) -> bool:
        """Whether it is heated."""
        return self.component.method is not None

    @property
    def grams(self) -> float:
        """Raw weight of all contents."""
        return fsum(content.grams for content in self.contents)

    def trigger(self, *contents: Content, why: str = "") -> str:
        """The component, what in it sets a caution off, and why."""
        names = dict.fromkeys(content.called for content in contents)
        what = ", ".join((*names, why) if why else names)
        return f"{self.component.name}: {what}" if what else self.component.name


@dataclass(frozen=True, slots=True, eq=False)
class Facts:
    """Everything that cautions are drawn from.

    dish: None where nothing was planned; then `parts` hold only what the brief itself puts in: items with a least
    amount that may go into one component only.
    """

    brief: Brief
    dish: Dish | None
    eater: Eater | None
    parts: tuple[Part, ...]

    @property
    def known(self) -> Eater:
        """The eater; somebody of whom nothing is known when none is given."""
        return self.eater or Eater()

    @property
    def contents(self) -> Iterator[tuple[Part, Content]]:
        """All contents with their component."""
        return ((part, content) for part in self.parts for content in part.contents)


def facts_of(brief: Brief, dish: Dish | None, eater: Eater | None) -> Facts:
    """Take the dish apart, or what the brief alone puts in."""
    used = list(_settled(brief)) if dish is None else _used(dish)
    parts = (
        Part(component, tuple(content for name, content in used if name == component.name)) for component in brief.parts
    )
    return Facts(brief, dish, eater, tuple(part for part in parts if part.contents))


def _used(dish: Dish) -> list[tuple[str, Content]]:
    amounts = ((each.placed.component, each.item, each.grams) for each in dish.quantities if each.grams > 0)
    return [(where, content) for where, item, grams in amounts for content in contents_of(item, grams)]


def _settled(brief: Brief) -> Iterator[tuple[str, Content]]:
    for item in brief.pantry:
        if item.at_least_g > 0 and len(item.placed) == 1:
            yield from ((item.placed[0].component, content) for content in contents_of(item, item.at_least_g))


def contents_of(item: PantryItem, grams: float) -> Iterator[Content]:
    """An item as one content, or as the ingredients of the dish that it is."""
    if item.food.made is None:
        yield Content(item.name, item.food, grams)
        return
    for each in item.food.made.ingredients:
        yield Content(item.name, each.food, grams * each.grams / 100, inside=True, cooked=each.cooked)
