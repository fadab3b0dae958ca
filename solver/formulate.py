"""From a brief to a linear programme and the layout that reads its answer back.

Every row has the form  coefficients @ x >= least.  A must is a side whose miss is held at zero; a wish is one
whose miss is open. So the elastic form that conflicts need is the same programme with other bounds.
"""

import math
from dataclasses import dataclass

import numpy as np

from solver.bands import Centre, Posed, Side, centre, sides
from solver.brief import Brief, Preference
from solver.layout import Layout
from solver.missing import Counted
from solver.numerics import (
    LARGEST_PORTION_G,
    PRINTED_STEP_G,
    ROW_MAGNITUDE,
    BoolArray,
    FloatArray,
)
from solver.pantry import PantryItem
from solver.program import LinearProgram, Rows

#: Grams in one unit of the column of an item without a step.
WEIGHED_UNIT_G = 100.0


@dataclass(frozen=True, slots=True, eq=False)
class Formulation:
    """A programme, its layout and the brief they come from. The programme's own cost is zero: levels set it."""

    brief: Brief
    program: LinearProgram
    layout: Layout

    @property
    def on_grid(self) -> bool:
        """Whether weighed items are whole multiples of 0.1 g."""
        return bool(self.program.integer[self.layout.item_columns][self.layout.weighed].any())


def formulate(brief: Brief, counted: Counted, *, grid: bool = False, relaxable: bool = False) -> Formulation:
    """Pose a brief over the items that count.

    grid: weighed items become whole multiples of 0.1 g, as printed. relaxable: the rows of switches stay true when the
    upper bounds of items are dropped, as a conflict does; otherwise they are as tight as the bounds.
    """
    layout = _layout(brief, counted, grid=grid)
    lower, upper = column_bounds(brief, layout)
    most = np.full(len(layout.items), largest_g(brief)) / layout.unit_g if relaxable else upper[layout.item_columns]
    rows, least = _rows(layout, most)
    program = LinearProgram(
        cost=np.zeros(layout.width),
        rows=rows,
        row_lower=least,
        row_upper=np.full(len(least), np.inf),
        column_lower=lower,
        column_upper=upper,
        integer=_integer(layout, grid=grid),
    )
    return Formulation(brief, program, layout)


def is_weighed(item: PantryItem) -> bool:
    """Whether the item is weighed to 0.1 g; a step of just that is the same thing."""
    return item.step is None or math.isclose(item.step.grams, PRINTED_STEP_G, rel_tol=1e-9)


def _layout(brief: Brief, counted: Counted, *, grid: bool) -> Layout:
    posed = [
        (target, Posed.of(target.of, counted.matrix)) for target in sorted(brief.targets, key=lambda target: target.id)
    ]
    found_sides = tuple(side for target, quantity in posed for side in sides(target, quantity, brief))
    centres: tuple[Centre, ...] = ()
    if Preference.BALANCED in brief.prefer:
        found = (centre(target, quantity, brief) for target, quantity in posed)
        centres = tuple(middle for middle in found if middle is not None)
    weighed_unit = PRINTED_STEP_G if grid else WEIGHED_UNIT_G
    units = [weighed_unit if is_weighed(item) or item.step is None else item.step.grams for item in counted.items]
    return Layout(
        items=counted.items,
        unit_g=np.array(units, dtype=np.float64),
        weighed=np.array([is_weighed(item) for item in counted.items], dtype=np.bool_),
        switched=np.array([n for n, item in enumerate(counted.items) if _is_switched(item)], dtype=np.int32),
        sides=found_sides,
        centres=centres,
        row_scale=_row_scale(found_sides, centres, np.array(units, dtype=np.float64)),
        left_out=counted.left_out,
    )


def _is_switched(item: PantryItem) -> bool:
    smallest = PRINTED_STEP_G if item.step is None else item.step.grams
    return item.least_when_used_g is not None and item.least_when_used_g > max(item.at_least_g, smallest)


def _row_scale(found_sides: tuple[Side, ...], centres: tuple[Centre, ...], unit_g: FloatArray) -> FloatArray:
    # A power of two changes no digit of a coefficient.
    largest = [_largest(side.weights, unit_g, side.normaliser) for side in found_sides]
    largest += [_largest(middle.weights, unit_g, middle.half) for middle in centres for _ in range(2)]
    return np.array([2.0 ** math.floor(math.log2(ROW_MAGNITUDE / size)) for size in largest])


def _largest(weights: FloatArray, unit_g: FloatArray, extra: float) -> float:
    # The miss and the deviation may have a larger coefficient than the items, up to LARGEST_COEFFICIENT.
    return max(float(np.abs(weights * unit_g).max(initial=0.0)) / 100.0, extra / 64.0, 1e-9)


def _rows(layout: Layout, most: FloatArray) -> tuple[Rows, FloatArray]:
    dense = np.zeros((len(layout.row_scale), layout.width))
    least = np.zeros(len(layout.row_scale))
    for number, side in enumerate(layout.sides):
        dense[number, layout.item_columns] = side.weights * layout.unit_g / 100.0
        dense[number, layout.miss_columns.start + number] = side.normaliser
        least[number] = side.least
    for number, middle in enumerate(layout.centres):
        above, below = range(*layout.centre_rows(number).indices(len(least)))
        weights = middle.weights * layout.unit_g / 100.0
        dense[above, layout.item_columns], least[above] = -weights, -middle.middle
        dense[below, layout.item_columns], least[below] = weights, middle.middle
        dense[[above, below], layout.deviation_column] = middle.half
    scaled = Rows.from_dense(dense * layout.row_scale[:, None])
    return scaled.below(_switch_rows(layout, most[layout.switched])), np.append(
        least * layout.row_scale, np.zeros(2 * len(layout.switched))
    )


def _switch_rows(layout: Layout, most: FloatArray) -> Rows:
    """For each switched item x with switch b:  most b - x >= 0  and  x - least_when_used b >= 0."""
    count_ = len(layout.switched)
    columns = np.array([[item, layout.switch_columns.start + n] for n, item in enumerate(layout.switched)])
    least = np.array([_least_when_used(layout.items[n]) for n in layout.switched]) / layout.unit_g[layout.switched]
    most_scale, least_scale = (np.minimum(1.0, ROW_MAGNITUDE / amount) for amount in (most, least))
    values = np.stack((-most_scale, most * most_scale, least_scale, -least * least_scale), axis=1)
    return Rows(
        np.arange(0, 4 * count_ + 1, 2, dtype=np.int32),
        np.repeat(columns.reshape(-1, 2), 2, axis=0).ravel().astype(np.int32),
        values.ravel(),
        layout.width,
    )


def column_bounds(brief: Brief, layout: Layout) -> tuple[FloatArray, FloatArray]:
    """Bounds of all columns: items inside what can be printed, switches, misses of wishes open, of musts shut."""
    lower, upper = np.zeros(layout.width), np.ones(layout.width)
    for n, item in enumerate(layout.items):
        lower[n], upper[n] = _printable(item, largest_g(brief)) / layout.unit_g[n]
    open_miss = [np.inf if side.target.priority is not None else 0.0 for side in layout.sides]
    upper[layout.miss_columns] = open_miss
    upper[layout.deviation_column] = np.inf
    return lower, upper


def largest_g(brief: Brief) -> float:
    """Most grams of an item that the brief leaves without a limit."""
    return LARGEST_PORTION_G * brief.portions


def _printable(item: PantryItem, largest: float) -> FloatArray:
    """The least and most of an item in grams, moved inwards to amounts that can be printed."""
    step = PRINTED_STEP_G if item.step is None else item.step.grams
    most = min(most for most in (item.on_hand_g, item.at_most_g, largest) if most is not None)
    # A billionth of a step is noise of a conversion, not an amount.
    return np.array([math.ceil(item.at_least_g / step - 1e-9), math.floor(most / step + 1e-9)]) * step


def _least_when_used(item: PantryItem) -> float:
    step = PRINTED_STEP_G if item.step is None else item.step.grams
    return math.ceil((item.least_when_used_g or 0.0) / step - 1e-9) * step


def _integer(layout: Layout, *, grid: bool) -> BoolArray:
    integer = np.zeros(layout.width, dtype=np.bool_)
    integer[layout.item_columns] = ~layout.weighed | grid
    integer[layout.switch_columns] = True
    return integer
