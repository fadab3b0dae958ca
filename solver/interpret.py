"""From column amounts back to food: printed grams and whole steps, in the order of the brief."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from solver.closest_rows import kept_of_base
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

    The items are those of the brief itself, so that nothing that was counted for a missing value goes with them. What
    is as it was in a base dish is one step of that amount, in its own words.
    """
    brief, layout = formulation.brief, formulation.layout
    steps: int | None
    used = sorted({*np.flatnonzero(amounts).tolist(), *layout.board.spoons})
    named = {layout.uses[n].item.name for n in used}
    asked = {item.name: (place, item) for place, item in enumerate(brief.pantry) if item.name in named}
    parts = {component.name: place for place, component in enumerate(brief.parts)}
    found: list[tuple[tuple[int, int], Quantity]] = []
    spoons: dict[str, int] = {}
    for n in used:
        use = layout.uses[n]
        if use.is_spoon:
            spoons[use.component.name] = round(amounts[n])
            continue
        place, original = asked[use.item.name]
        kept = kept_of_base(layout, n, float(amounts[n]))
        if kept is not None:
            original, grams, steps = replace(original, step=kept), kept.grams, 1
        else:
            grams, steps = _printed(formulation, n, float(amounts[n]))
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
