"""From column amounts back to food: printed grams and whole steps, in the order of the brief."""

from solver.formulate import Formulation
from solver.numerics import PRINTED_STEP_G, FloatArray
from solver.outcome import Quantity


def quantities(formulation: Formulation, amounts: FloatArray) -> tuple[Quantity, ...]:
    """The used items. amounts: (items,), printed, in column units.

    The items are those of the brief itself, so that nothing that was counted for a missing value goes with them.
    """
    brief, layout = formulation.brief, formulation.layout
    asked = {item.name: (place, item) for place, item in enumerate(brief.pantry)}
    found: list[tuple[int, Quantity]] = []
    for item, amount, unit_g, weighed in zip(layout.items, amounts, layout.unit_g, layout.weighed, strict=True):
        place, original = asked[item.name]
        if weighed:
            grams = round(round(amount * unit_g / PRINTED_STEP_G) * PRINTED_STEP_G, 1)
            steps = None if item.step is None else round(grams / item.step.grams)
        else:
            steps = round(amount)
            grams = steps * unit_g
        if grams > 0:
            found.append((place, Quantity(original, float(grams), steps)))
    return tuple(quantity for _, quantity in sorted(found, key=lambda pair: pair[0]))
