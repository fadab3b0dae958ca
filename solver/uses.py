"""A use: an item in one of the components that it may go into. Drippings that are spooned back are a use as well."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from solver.components import Component, Drippings, Placed
from solver.cook import SPOON_G
from solver.foods import Food
from solver.nutrients import NUTRIENTS
from solver.pantry import PantryItem, Step


class Use(NamedTuple):  # a pantry of thousands has thousands of them, and tuples are made ten times as fast
    """item: number of its item in the total order is `number`; None for drippings, whose `item` only has the spoon."""

    item: PantryItem
    placed: Placed
    component: Component
    number: int | None

    @property
    def is_spoon(self) -> bool:
        """Whether this is the drippings of the component, spooned back."""
        return self.number is None


def uses_of(items: Sequence[PantryItem], components: Sequence[Component]) -> tuple[Use, ...]:
    """Every item in every component that it may go into, in the order of the items, then the spoons."""
    by_name = {component.name: component for component in components}
    placed = [
        Use(item, place, by_name[place.component], number)
        for number, item in enumerate(items)
        for place in (item.placed if len(item.placed) == 1 else sorted(item.placed, key=_component_of))
    ]
    spooned = [component for component in components if _is_spooned(component, placed)]
    return (*placed, *(Use(_drippings(component), Placed(component.name), component, None) for component in spooned))


def _component_of(place: Placed) -> str:
    return place.component


def _is_spooned(component: Component, placed: Sequence[Use]) -> bool:
    in_use = component.method is not None and component.drippings is Drippings.SPOONED_BACK
    return in_use and any(use.component is component for use in placed)


def drippings_named(component: str) -> str:
    """What the drippings of a component are called."""
    return f"drippings of {component}"


def _drippings(component: Component) -> PantryItem:
    """What they are made of depends on what renders, so only the pan knows it."""
    nothing = np.full(len(NUTRIENTS), np.nan)
    name = drippings_named(component.name)
    return PantryItem(name, Food(name, name, None, nothing), step=Step(1, "tsp", SPOON_G), price_per_g=0.0)
