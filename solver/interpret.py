"""From column amounts back to food: printed grams and whole steps, in the order of the brief."""

from collections.abc import Mapping
from dataclasses import dataclass

from solver.formulate import Formulation
from solver.numerics import PRINTED_STEP_G, FloatArray
from solver.outcome import Quantity


@dataclass(frozen=True, slots=True)
class Amounts:
    """The used items, and the teaspoons of drippings that are spooned back, by the name of the component."""

    quantities: tuple[Quantity, ...]
    spoons: Mapping[str, int]


def amounts_of(formulation: Formulation, amounts: FloatArray) -> Amounts:
    """What printed column amounts, (uses,), say.

    The items are those of the brief itself, so that nothing that was counted for a missing value goes with them.
    """
    brief, layout = formulation.brief, formulation.layout
    asked = {item.name: (place, item) for place, item in enumerate(brief.pantry)}
    parts = {component.name: place for place, component in enumerate(brief.parts)}
    found: list[tuple[tuple[int, int], Quantity]] = []
    spoons: dict[str, int] = {}
    for n, use in enumerate(layout.uses):
        if use.is_spoon:
            spoons[use.component.name] = round(amounts[n])
            continue
        grams, steps = _printed(formulation, n, float(amounts[n]))
        place, original = asked[use.item.name]
        if grams > 0:
            found.append(((place, parts[use.component.name]), Quantity(original, grams, steps, use.placed)))
    return Amounts(tuple(quantity for _, quantity in sorted(found, key=lambda pair: pair[0])), spoons)


def _printed(formulation: Formulation, use: int, amount: float) -> tuple[float, int | None]:
    layout = formulation.layout
    item, unit_g = layout.uses[use].item, float(layout.unit_g[use])
    if not layout.weighed[use]:
        return round(amount) * unit_g, round(amount)
    grams = round(round(amount * unit_g / PRINTED_STEP_G) * PRINTED_STEP_G, 1)
    return grams, None if item.step is None else round(grams / item.step.grams)
