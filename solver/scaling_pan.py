"""What a pan does when more or less goes into it: the fat that renders follows the food, the steam follows the pan.

As much evaporates from the same pan in the same time, however much is in it (common practice, no source), so what was
weighed keeps the grams that evaporated:

    cooked = scaled raw - scaled rendered - the same evaporated

Pieces that lie side by side lose water each for itself; the note says what would be left then. Where the smaller
amount has not as much water, it leaves the pan earlier, and its loss is scaled.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from solver.components import Component
from solver.cook import SPOON_G
from solver.cooked import CookedComponent
from solver.used import Kitchen, Used

#: A loss that is told, g.
_TOLD_G = 0.05


@dataclass(frozen=True, slots=True)
class ScaledPan:
    """component: with the weights that it comes to. note: a sentence; None where nothing of it was weighed."""

    component: Component
    note: str | None = None


def scaled_pans(before: Kitchen, after: Kitchen, components: Sequence[Component]) -> tuple[ScaledPan, ...]:
    """Every component with the weights that it comes to. after: what goes in, of which only raw weights are read."""
    old = {each.component.name: each for each in before.cooked}
    new = {each.component.name: each for each in after.cooked}
    return tuple(
        _scaled(old[part.name], new[part.name], _water_g(after.used, part))
        if part.is_weighed and part.name in old
        else ScaledPan(part)
        for part in components
    )


def scaled_spoons(spoons: Mapping[str, int], factor: float, kitchen: Kitchen) -> dict[str, int]:
    """Whole teaspoons of drippings, no more than ran out. kitchen: with what is scaled."""
    rendered = {each.component.name: each.rendered_g for each in kitchen.cooked}
    return {name: min(int(factor * n + 0.5), int(rendered.get(name, 0.0) / SPOON_G)) for name, n in spoons.items()}


def _scaled(before: CookedComponent, after: CookedComponent, water_g: float) -> ScaledPan:
    part, fat = before.component, after.fat_g / before.fat_g if before.fat_g > 0 else 1.0
    found = part if part.drippings_g is None else replace(part, drippings_g=part.drippings_g * fat)
    if part.cooked_g is None:
        return ScaledPan(found)
    rendered, evaporated = before.rendered_g * fat, before.evaporated_g
    by_food = after.raw_g * (1 - evaporated / before.raw_g) - rendered
    cooked = after.raw_g - rendered - evaporated
    if evaporated > water_g or cooked < after.fat_g - rendered:
        return ScaledPan(replace(found, cooked_g=by_food), _too_dry(part.name, evaporated, water_g, by_food))
    return ScaledPan(replace(found, cooked_g=cooked), _note(part.name, evaporated, cooked, by_food))


def _note(name: str, evaporated: float, cooked: float, by_food: float) -> str | None:
    if evaporated < _TOLD_G:
        return None
    return (
        f"{name}: from the same pan in the same time as much evaporates as before, {evaporated:.0f} g, which leaves "
        f"{cooked:.0f} g; pieces that lie side by side lose each their own, which leaves {by_food:.0f} g. Weigh it."
    )


def _too_dry(name: str, evaporated: float, water_g: float, by_food: float) -> str:
    return (
        f"{name}: {evaporated:.0f} g evaporated, and only {water_g:.0f} g of water go in now, so it would burn in the "
        f"same pan in the same time: take it off at {by_food:.0f} g, which the numbers count."
    )


def _water_g(used: Sequence[Used], part: Component) -> float:
    """The most water that goes into a component, g: all of what nobody knows the water of."""
    inside = (each for each in used if each.quantity.placed.component == part.name)
    found = ((each.grams, each.per_gram("water_g")) for each in inside)
    return sum(grams * (1.0 if water is None else water) for grams, water in found)
