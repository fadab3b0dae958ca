"""How far from its aim a target may end when the brief does not say (common practice, no source)."""

from solver.quantities import QUANTITY

#: Percentage points around the aim of a share.
SHARE_POINTS = 1.0

#: Around the aim of a ketogenic ratio.
RATIO = 0.05

#: Part of the aim of an energy.
ENERGY_PART = 0.03

#: Part of the aim of any other amount.
AMOUNT_PART = 0.05


def default_within(of: str, aim: float) -> float:
    """Half the width of the band around `aim`, in the unit of the quantity `of`. KeyError for an unknown one."""
    quantity = QUANTITY[of]
    if quantity.unit == "%":
        return SHARE_POINTS
    if quantity.denominator is not None:
        return RATIO
    return aim * (ENERGY_PART if of == "energy_kcal" else AMOUNT_PART)
