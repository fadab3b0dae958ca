"""An item in use, in plain numbers: what of each nutrient and of each energy comes to the plate.

Deliberately another path than the matrix that is optimised: one food, one number at a time.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from math import isnan

from solver.brief import Brief
from solver.components import Component
from solver.cook import Content, cook
from solver.cooked import CookedComponent
from solver.drippings import CHOLESTEROL_MG_PER_G_FAT, FATTY_ACIDS
from solver.foods import Food
from solver.nutrients import COLUMN, NUTRIENTS
from solver.outcome import Quantity


@dataclass(frozen=True, slots=True)
class Used:
    """quantity: raw. lost_fat_g: of its fat, what nobody eats. count_as: what missing values count, per 100 g."""

    quantity: Quantity
    count_as: Mapping[str, float]
    lost_fat_g: float = 0.0

    @property
    def grams(self) -> float:
        """Raw weight."""
        return self.quantity.grams

    @property
    def food(self) -> Food:
        """What it is."""
        return self.quantity.item.food

    @property
    def uncooked(self) -> "Used":
        """The same as it was weighed out."""
        placed = replace(self.quantity.placed, retention={})
        return replace(self, lost_fat_g=0.0, quantity=replace(self.quantity, placed=placed))

    def kept(self, nutrient: str) -> float:
        """The part of a nutrient that cooking leaves, apart from what goes with lost fat."""
        return self.quantity.placed.retention.get(nutrient, 1.0)

    def per_gram(self, nutrient: str) -> float | None:
        """A nutrient in 1 g, raw; None where missing and not counted."""
        value = self.food.value(nutrient)
        if isnan(value):
            counted = self.count_as.get(nutrient)
            return None if counted is None else counted / 100
        return value / 100

    def eaten(self, nutrient: str) -> float | None:
        """A nutrient on the plate, water before it evaporates; None where missing and not counted."""
        per_gram = self.per_gram(nutrient)
        if per_gram is None:
            return None
        return self.grams * per_gram * self.kept(nutrient) - self.lost_fat_g * self._in_fat(nutrient, per_gram)

    @property
    def is_as_weighed(self) -> bool:
        """Whether all of it comes to the plate, water apart."""
        return self.lost_fat_g == 0 and not self.quantity.placed.retention

    def eaten_row(self) -> list[float | None]:
        """Every nutrient on the plate as `eaten` has it, in the order of NUTRIENTS."""
        if not self.is_as_weighed:
            return [self.eaten(nutrient.name) for nutrient in NUTRIENTS]
        grams = self.grams
        row = [None if isnan(value) else grams * (value / 100) for value in self.food.per_100g.tolist()]
        for nutrient, counted in self.count_as.items():
            place = COLUMN[nutrient]
            row[place] = grams * (counted / 100) if row[place] is None else row[place]
        return row

    def _in_fat(self, nutrient: str, per_gram: float) -> float:
        """What 1 g of the item's own rendered fat holds of a nutrient."""
        if nutrient == "fat_g" or self.lost_fat_g == 0:
            return 1.0 if nutrient == "fat_g" else 0.0
        fat = self.per_gram("fat_g") or 0.0
        if nutrient in FATTY_ACIDS:
            return per_gram / fat
        return min(per_gram / fat, CHOLESTEROL_MG_PER_G_FAT) if nutrient == "cholesterol_mg" else 0.0


@dataclass(frozen=True, slots=True)
class Kitchen:
    """used: in the order of the quantities. cooked: every component in use, in the brief's order."""

    used: tuple[Used, ...]
    cooked: tuple[CookedComponent, ...]

    @property
    def is_as_weighed(self) -> bool:
        """Whether everything comes to the plate as it was weighed out."""
        return self.water_lost_g == 0 and all(used.is_as_weighed for used in self.used)

    @property
    def water_lost_g(self) -> float:
        """Water that left, g."""
        return sum(component.evaporated_g for component in self.cooked)


def in_kitchen(quantities: Sequence[Quantity], spoons: Mapping[str, int], brief: Brief) -> Kitchen:
    """Cook every component. spoons: name of a component to teaspoons of its drippings that are spooned back."""
    order = {component.name: place for place, component in enumerate(brief.parts)}
    numbered = sorted(enumerate(quantities), key=lambda pair: (order[pair[1].placed.component], pair[0]))
    used: dict[int, Used] = {}
    cooked: list[CookedComponent] = []
    for place, group in groupby(numbered, key=lambda pair: order[pair[1].placed.component]):
        numbers, inside = zip(*group, strict=True)
        done = _cooked(brief.parts[place], inside, spoons, brief.count_missing_as)
        cooked.append(done)
        for number, quantity, item in zip(numbers, inside, done.items, strict=True):
            used[number] = Used(quantity, brief.count_missing_as, item.lost_g)
    return Kitchen(tuple(used[number] for number in sorted(used)), tuple(cooked))


def _cooked(
    component: Component, inside: Sequence[Quantity], spoons: Mapping[str, int], count_as: Mapping[str, float]
) -> CookedComponent:
    missing = (count_as.get("fat_g", 0.0), count_as.get("protein_g", 0.0))
    contents = [Content(each.item.name, each.item.food, each.grams, each.placed, *missing) for each in inside]
    return cook(component, contents, spoons.get(component.name, 0))
