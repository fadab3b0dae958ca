"""Whether amounts that can be printed are inside every row that counts: counted side by side, not by a solver."""

import numpy as np

from solver.formulate import Formulation
from solver.layout import Layout
from solver.numerics import VERIFICATION, FloatArray

#: An amount this near to a printable one is that one.
NOISE = 1e-9


def musts(formulation: Formulation) -> frozenset[int]:
    """Numbers of the sides of musts."""
    sides = formulation.layout.sides
    return frozenset(number for number, side in enumerate(sides) if side.target.priority is None)


def meets_musts(formulation: Formulation, amounts: FloatArray) -> bool:
    """Whether amounts (uses,) are inside every must, stock, pan and least amount, to half of `verify`'s tolerance."""
    return meets(formulation, amounts, musts(formulation))


def meets(formulation: Formulation, amounts: FloatArray, sides: frozenset[int]) -> bool:
    """The same of these sides in place of the musts."""
    layout = formulation.layout
    grams100, rendered100 = amounts * layout.unit_g / 100.0, layout.rendered100(amounts)
    return (
        all(
            side.left(grams100, rendered100) >= side.least - VERIFICATION / 2 * max(1.0, abs(side.least))
            for number, side in enumerate(layout.sides)
            if number in sides
        )
        and _spoons_hold(layout, grams100, rendered100)
        and all(_stock_holds(layout, number, grams100) for number in {*layout.switched, *layout.shared})
        and _choices_hold(layout, amounts)
    )


def _spoons_hold(layout: Layout, grams100: FloatArray, rendered100: FloatArray) -> bool:
    return all(
        pan.spoon is None or grams100[pan.spoon] <= pan.spoonable * rendered + NOISE
        for pan, rendered in zip(layout.board.pans, rendered100, strict=True)
    )


def _choices_hold(layout: Layout, amounts: FloatArray) -> bool:
    if not layout.choices:
        return True
    used = {use.item.name for use, amount in zip(layout.uses, amounts, strict=True) if amount > 0 and not use.is_spoon}
    return all(choice.holds(used) for choice in layout.choices)


def _stock_holds(layout: Layout, number: int, grams100: FloatArray) -> bool:
    item, grams = layout.items[number], 100 * float(grams100[list(layout.board.by_item[number])].sum())
    most = min((most for most in (item.on_hand_g, item.at_most_g) if most is not None), default=np.inf)
    if not item.at_least_g - NOISE <= grams <= most + NOISE:
        return False
    return grams <= NOISE or grams >= (item.least_when_used_g or 0.0) - NOISE
