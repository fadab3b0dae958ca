"""Two targets against each other: a polygon of two amounts, or a curve of a ratio against an amount."""

from solver.reach import Pantry
from solver.reach_curve import curve_of
from solver.reach_outcome import Frontier
from solver.reach_polygon import is_amount, polygon_of
from solver.targets import Target


def frontier_of(pantry: Pantry, x: Target, y: Target) -> Frontier:
    """The frontier of two different targets while the other musts hold; at least one has to be an amount.

    Raises ValueError for two ratios: what is reachable of them has neither straight edges nor one parameter.
    """
    if is_amount(x) and is_amount(y):
        return polygon_of(pantry, x, y)
    if is_amount(x):
        return curve_of(pantry, x, y)
    if is_amount(y):
        return curve_of(pantry, y, x)
    raise ValueError("a frontier of two ratios")
