"""What may run out of a pan within a tolerance, where that is no sum over its items.

A mix keeps the least of the lines of its curve. The least of that over all compositions is at a vertex, where each item
is at its own worst end of each line; the most may be between the vertices, and is no more than the least of what each
line comes to with every item at its best end. A weight when cooked bounds both: the food holds no more fat than it
weighs, and no more ran out than it got lighter by. What runs out rises with the fat of every item and falls with its
protein, so its own ends are where all items are at the same end.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import fsum

from solver.brief import Brief
from solver.components import Component
from solver.cook import Content
from solver.cooked import CookedComponent
from solver.cooking_curves import Segment
from solver.energy import factors_kcal
from solver.foods import Food
from solver.holds_cooking import half_kept_g
from solver.label_rounding import Interval
from solver.outcome import Quantity
from solver.used import Used

#: The same quantities at each end; each tuple is one end.
AtEnds = Sequence[Sequence[Quantity]]


@dataclass(frozen=True, slots=True, eq=False)
class PanEnds:
    """One component with a pan at each end, and what is spooned back. cooked: in the order of the ends."""

    component: Component
    at_ends: AtEnds
    cooked: Sequence[CookedComponent]
    brief: Brief
    spooned_g: float

    @property
    def half_g(self) -> float:
        """By how much what stays of the fat is open besides."""
        return half_kept_g(self.component, self.cooked[0].raw_g, self.brief.holds)

    def eaten_g(self) -> Interval:
        """Fat of the component that may be eaten, with what is spooned back."""
        low, high = self._kept_g()
        fat = [part.fat_g for part in self.cooked]
        return Interval(min(low + self.spooned_g, *fat), min(high + self.spooned_g, max(fat)))

    def lost_g(self) -> Interval:
        """Fat of the component that may be lost."""
        rendered = [part.rendered_g - self.spooned_g for part in self.cooked]
        return Interval(max(min(rendered) - self.half_g, 0.0), max(max(rendered) + self.half_g, 0.0))

    def per_g_fat(self, nutrient: str, most: float) -> Interval:
        """What a gram of fat that runs out takes along; most: the most that any fat holds."""
        return _spread(
            min(of / fat, most) if fat > 0 else most for fat, of in self._fat_and(nutrient) if fat > 0 or of > 0
        )

    def kcal_per_g_fat(self) -> Interval:
        """The energy that comes with a gram of fat."""
        return _spread(_kcal_per_g_fat(each.item.food, self.brief) for end in self.at_ends for each in end)

    def _fat_and(self, nutrient: str) -> Iterator[tuple[float, float]]:
        for end in self.at_ends:
            for each in end:
                used = Used(each, self.brief.count_missing_as)
                yield used.per_gram("fat_g") or 0.0, used.per_gram(nutrient) or 0.0

    def _kept_g(self) -> tuple[float, float]:
        """The least and the most fat that stays in the food."""
        kept = [part.kept_g for part in self.cooked]
        if self.component.curve is None or self.component.drippings_g is not None:
            return min(kept), max(kept)
        low, high = self._by_lines(self.component.curve.segments)
        low, high = low - self.half_g, high + self.half_g
        cooked_g = self.component.cooked_g
        if cooked_g is None:
            return max(low, 0.0), high
        fat, lighter_g = [part.fat_g for part in self.cooked], max(self.cooked[0].raw_g - cooked_g, 0.0)
        low, high = (max(min(low, cooked_g), min(fat) - lighter_g), max(min(high, cooked_g), max(fat) - lighter_g))
        return max(low, 0.0), high

    def _by_lines(self, segments: Sequence[Segment]) -> tuple[float, float]:
        items = list(zip(*([_content(each, self.brief) for each in end] for end in self.at_ends), strict=True))
        lines = (Segment(0.0, 1.0), *segments)
        of_lines = [[[_on(line, at_end) for at_end in item] for item in items] for line in lines]
        least = min(fsum(min(ends) for ends in of_line) for of_line in of_lines)
        return least, min(fsum(max(ends) for ends in of_line) for of_line in of_lines)


def _spread(values: Iterator[float]) -> Interval:
    found = list(values)
    return Interval(min(found, default=0.0), max(found, default=0.0))


def _kcal_per_g_fat(food: Food, brief: Brief) -> float:
    of_food = factors_kcal(food, brief.energy_basis).fat
    if food.made is None or not food.value("fat_g") > 0:
        return of_food
    return float(food.made.kcal[brief.energy_basis.value][1]) / food.value("fat_g")


def _on(line: Segment, content: Content) -> float:
    return line.a_g_per_g * content.holding_g + line.b_g_per_g * content.fat_g


def _content(each: Quantity, brief: Brief) -> Content:
    missing = (brief.count_missing_as.get("fat_g", 0.0), brief.count_missing_as.get("protein_g", 0.0))
    return Content(each.item.name, each.item.food, each.grams, each.placed, *missing)
