"""What a mix may keep of its fat within a tolerance, beyond what it keeps at the ends that all items share.

A mix keeps the least of the lines of its curve. The least of that over all compositions is at a vertex, where each item
is at its own worst end of each line; the most may be between the vertices, and is no more than the least of what each
line comes to with every item at its best end.
"""

from collections.abc import Sequence
from math import fsum

from solver.brief import Brief
from solver.components import Component, Drippings
from solver.cook import Content
from solver.cooking_curves import Segment
from solver.energy import GENERAL_KCAL, factors_kcal
from solver.foods import Food
from solver.holds_cooking import half_kept_g_per_g, half_settled_g
from solver.outcome import Quantity
from solver.tally import Tally

#: The same quantities at each end; each tuple is one end.
AtEnds = Sequence[Sequence[Quantity]]


def fat_slack_g(at_ends: AtEnds, tallies: Sequence[Tally], brief: Brief) -> tuple[float, float]:
    """How much less and more fat of mixes may be eaten, g, than at any of the ends. tallies: of the same ends."""
    less = more = _open_g(tallies, brief)
    for component in brief.parts:
        if component.curve is not None and not component.is_weighed and component.drippings is not Drippings.SERVED:
            kept = [part.kept_g for each in tallies for part in each.cooked if part.component.name == component.name]
            if kept:
                least, most = _kept_g(component, component.curve.segments, at_ends, brief)
                less, more = less + max(min(kept) - least, 0.0), more + max(most - max(kept), 0.0)
    return less, more


def _open_g(tallies: Sequence[Tally], brief: Brief) -> float:
    """What the cooking table leaves open of the fat of mixes and of weighed pans."""
    parts = [part for part in tallies[0].cooked if part.component.drippings is not Drippings.SERVED]
    mixes = (half_kept_g_per_g(part.component, brief.holds) * part.raw_g for part in parts if _is_open(part.component))
    weighed = (half_settled_g(part, brief.holds) for part in parts if part.component.is_weighed)
    return fsum(mixes) + fsum(weighed)


def _is_open(component: Component) -> bool:
    return component.curve is not None and not component.is_weighed


def kcal_per_g_fat(foods: Sequence[Food], brief: Brief) -> float:
    """The most energy that a gram of fat of any of these brings on the brief's basis."""
    return max((_kcal_per_g_fat(food, brief) for food in foods), default=GENERAL_KCAL.fat)


def _kcal_per_g_fat(food: Food, brief: Brief) -> float:
    of_food = factors_kcal(food, brief.energy_basis).fat
    if food.made is None or not food.value("fat_g") > 0:
        return of_food
    return max(of_food, float(food.made.kcal[brief.energy_basis.value][1]) / food.value("fat_g"))


def _kept_g(component: Component, segments: Sequence[Segment], at_ends: AtEnds, brief: Brief) -> tuple[float, float]:
    inside = [[_content(each, brief) for each in end if each.placed.component == component.name] for end in at_ends]
    items = list(zip(*inside, strict=True))
    lines = (Segment(0.0, 1.0), *segments)
    of_lines = [[[_on(line, at_end) for at_end in item] for item in items] for line in lines]
    least = min(fsum(min(ends) for ends in of_line) for of_line in of_lines)
    most = min(fsum(max(ends) for ends in of_line) for of_line in of_lines)
    return max(least, 0.0), most


def _on(line: Segment, content: Content) -> float:
    return line.a_g_per_g * content.holding_g + line.b_g_per_g * content.fat_g


def _content(each: Quantity, brief: Brief) -> Content:
    missing = (brief.count_missing_as.get("fat_g", 0.0), brief.count_missing_as.get("protein_g", 0.0))
    return Content(each.item.name, each.item.food, each.grams, each.placed, *missing)
