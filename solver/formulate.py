"""From a brief to a linear programme and the layout that reads its answer back.

Every row has the form  coefficients @ x >= least.  A must is a side whose miss is held at zero; a wish is one
whose miss is open. So the elastic form that conflicts need is the same programme with other bounds.
"""

from dataclasses import dataclass

import numpy as np

from solver.bands import Centre, centre, sides
from solver.board import Board, board_of
from solver.brief import Brief, Preference
from solver.closest_rows import near_of, with_base
from solver.item_rows import choice_rows, switch_rows, with_pans, with_stock
from solver.layout import Layout
from solver.limits import StockLimits, column_bounds, largest_g, stock_limits
from solver.missing import Counted
from solver.mixtures import CAREFUL, Mixtures
from solver.numerics import PRINTED_STEP_G, BoolArray, FloatArray
from solver.pantry import PantryItem
from solver.program import LinearProgram, Rows
from solver.rule_sides import rule_sides
from solver.side_rows import SideRows

#: Grams in one unit of the column of an item without a step.
WEIGHED_UNIT_G = 100.0


@dataclass(frozen=True, slots=True, eq=False)
class Formulation:
    """A programme, its layout and the brief they come from. The programme's own cost is zero: levels set it.

    exact: names of the mixes whose rendered fat is posed exactly. mixtures: whose fat drippings are taken for.
    """

    brief: Brief
    program: LinearProgram
    layout: Layout
    exact: frozenset[str] = frozenset()
    mixtures: Mixtures = CAREFUL

    @property
    def on_grid(self) -> bool:
        """Whether weighed items are whole multiples of 0.1 g."""
        return bool(self.program.integer[self.layout.use_columns][self.layout.weighed].any())


def formulate(
    brief: Brief,
    counted: Counted,
    *,
    grid: bool = False,
    relaxable: bool = False,
    exact: frozenset[str] = frozenset(),
    mixtures: Mixtures = CAREFUL,
) -> Formulation:
    """Pose a brief over the items that count.

    grid: weighed items become whole multiples of 0.1 g, as printed. relaxable: the rows of switches stay true when the
    upper bounds of items are dropped, as a conflict does; otherwise they are as tight as the bounds.
    exact: names of the mixes whose rendered fat is posed exactly, with whole numbers, and not only from below.
    """
    layout = _layout(brief, counted, board_of(brief, counted, mixtures), grid=grid, exact=exact)
    stock, largest = stock_limits(brief, layout), largest_g(brief)
    most_g = np.full(len(layout.uses), largest) if relaxable else stock.most_of_uses(layout, largest)
    lower, upper = column_bounds(layout, stock, most_g)
    rows, least = _rows(layout, stock, most_g)
    program = LinearProgram(
        cost=np.zeros(layout.width),
        rows=rows,
        row_lower=least,
        row_upper=np.full(len(least), np.inf),
        column_lower=lower,
        column_upper=upper,
        integer=_integer(layout, lower, upper, grid=grid),
    )
    return Formulation(brief, program, layout, exact, mixtures)


def _layout(brief: Brief, counted: Counted, board: Board, *, grid: bool, exact: frozenset[str]) -> Layout:
    ordered = sorted(brief.targets, key=lambda target: target.id)
    found_sides = tuple(side for target in ordered for side in sides(target, board, brief))
    rules = sorted(brief.rules, key=lambda rule: rule.id)
    found_sides += tuple(side for rule in rules for side in rule_sides(rule, board, brief))
    centres: tuple[Centre, ...] = ()
    if Preference.BALANCED in brief.prefer:
        found = (centre(target, board, brief) for target in ordered)
        centres = tuple(middle for middle in found if middle is not None)
    chosen = frozenset[str]().union(*(choice.names for choice in brief.choices))
    if Preference.FEWEST_INGREDIENTS in brief.prefer:
        chosen = frozenset(item.name for item in counted.items)
    elif Preference.FEWEST_PURCHASES in brief.prefer:
        chosen |= frozenset(item.name for item in counted.items if item.to_buy)
    weighed_unit = PRINTED_STEP_G if grid else WEIGHED_UNIT_G
    items = [use.item for use in board.uses]
    # What has no step is weighed to 0.1 g; a step of just that is the same thing.
    step_g = np.array([np.nan if item.step is None else item.step.grams for item in items], dtype=np.float64)
    weighed = np.isnan(step_g) | np.isclose(step_g, PRINTED_STEP_G, rtol=1e-9, atol=0.0)
    unit_g = np.where(weighed, weighed_unit, step_g)
    return Layout(
        items=counted.items,
        board=board,
        unit_g=unit_g,
        weighed=weighed,
        switched=tuple(
            n
            for n, item in enumerate(counted.items)
            if (item.least_when_used_g is not None and _is_switched(item)) or (chosen and item.name in chosen)
        ),
        choices=tuple(sorted(brief.choices, key=lambda choice: choice.id)),
        exact=tuple(n for n, pan in enumerate(board.pans) if pan.component.name in exact),
        sides=found_sides,
        centres=centres,
        row_scale=SideRows.of(found_sides, centres, unit_g, len(board.pans)).scale(),
        left_out=counted.left_out,
        near=near_of(brief, board.uses, unit_g, weighed, grid=grid),
    )


def _is_switched(item: PantryItem) -> bool:
    smallest = PRINTED_STEP_G if item.step is None else item.step.grams
    return item.least_when_used_g is not None and item.least_when_used_g > max(item.at_least_g, smallest)


def _rows(layout: Layout, stock: StockLimits, most_g: FloatArray) -> tuple[Rows, FloatArray]:
    rows, least = _side_rows(layout)
    rows = rows.below(switch_rows(layout, most_g))
    chosen, ends = choice_rows(layout)
    rows = rows.below(chosen)
    least = np.concatenate((least, np.zeros(2 * len(layout.switched)), ends))
    rows, least = with_pans(layout, *with_stock(layout, rows, least, stock), most_g)
    return with_base(layout, rows, least, most_g)


def _side_rows(layout: Layout) -> tuple[Rows, FloatArray]:
    """Those of the sides and of the centres, scaled."""
    posed = SideRows.of(layout.sides, layout.centres, layout.unit_g, len(layout.board.pans))
    sides = len(layout.sides)
    dense = np.zeros((len(posed.least), layout.width))
    dense[:, layout.use_columns] = posed.weights
    dense[:, layout.pan_columns] = posed.pans[:, layout.pan_numbers]
    dense[:sides, layout.miss_columns] = np.diag(posed.extra[:sides])
    dense[sides:, layout.deviation_column] = posed.extra[sides:]
    return Rows.from_dense(dense * layout.row_scale[:, None]), posed.least * layout.row_scale


def _integer(layout: Layout, lower: FloatArray, upper: FloatArray, *, grid: bool) -> BoolArray:
    integer = np.zeros(layout.width, dtype=np.bool_)
    # What is fixed needs no search, and no proof that a solver only claims.
    integer[layout.use_columns] = (~layout.weighed | grid) & (lower < upper)[layout.use_columns]
    integer[layout.switch_columns] = True
    integer[layout.selector_columns] = True
    integer[layout.changed_columns] = True
    return integer
