"""What turns arrays back into food: which column is which use, which row is which side of which target.

Columns, in order: the uses; one on/off column for each item with a least amount when used; the fat that rendered in
each pan that needs a column; one selector for each line of each pan that is posed exactly; one miss for each side; the
deviation; with a base dish to stay close to, for each use how far it is from that, and whether it changed. Rows: the
sides; two for each centre; two for each on/off column; the choices; the stock of items with several uses; the lines of
pans, and what a spoon finds in them; the exact lines; four for each use with a base dish.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from solver.bands import Centre, Side
from solver.board import Board
from solver.choices import Choice
from solver.closest import Near
from solver.numerics import BoolArray, FloatArray
from solver.outcome import LeftOut
from solver.pans import Pan
from solver.pantry import PantryItem
from solver.uses import Use


@dataclass(frozen=True, eq=False)  # without slots, so that where things are is worked out once
class Layout:
    """Order and units, kept here alone.

    items: those that count, in the total order. unit_g: (uses,), grams in one unit of the column: the step, or 100.
    weighed: (uses,), True where the amount is printed to 0.1 g rather than counted in steps.
    switched: numbers of the items that have an on/off column, in the order of those columns.
    choices: by id. exact: numbers of the pans that are posed exactly.
    row_scale: (sides and centres,), what each of these rows was multiplied with.
    near: the base dish to stay close to; None where nothing asks for that.
    """

    items: tuple[PantryItem, ...]
    board: Board
    unit_g: FloatArray
    weighed: BoolArray
    switched: tuple[int, ...]
    choices: tuple[Choice, ...]
    exact: tuple[int, ...]
    sides: tuple[Side, ...]
    centres: tuple[Centre, ...]
    row_scale: FloatArray
    left_out: tuple[LeftOut, ...]
    near: Near | None = None

    @property
    def uses(self) -> tuple[Use, ...]:
        """The uses, in column order."""
        return self.board.uses

    @cached_property
    def use_columns(self) -> slice:
        """Columns of the uses."""
        return slice(0, len(self.board.uses))

    @cached_property
    def switch_columns(self) -> slice:
        """The on/off columns."""
        return self._after(self.use_columns, len(self.switched))

    @cached_property
    def pan_numbers(self) -> tuple[int, ...]:
        """The pans that have a column, in its order."""
        return tuple(number for number, pan in enumerate(self.board.pans) if pan.has_column)

    @cached_property
    def pan_columns(self) -> slice:
        """The fat that rendered in those pans, in units of 100 g."""
        return self._after(self.switch_columns, len(self.pan_numbers))

    @cached_property
    def selector_columns(self) -> slice:
        """Which line of an exact pan is the greatest."""
        return self._after(self.pan_columns, sum(len(pan.lines) for pan in self.exact_pans))

    @cached_property
    def miss_columns(self) -> slice:
        """The misses, one for each side."""
        return self._after(self.selector_columns, len(self.sides))

    @cached_property
    def deviation_column(self) -> int:
        """The largest deviation from the middle of a band."""
        return int(self.miss_columns.stop)

    @cached_property
    def width(self) -> int:
        """Number of columns."""
        return int(self.changed_columns.stop)

    @cached_property
    def away_columns(self) -> slice:
        """How far each use is from the base dish; none without one."""
        after = slice(self.deviation_column, self.deviation_column + 1)
        return self._after(after, 0 if self.near is None else len(self.uses))

    @cached_property
    def changed_columns(self) -> slice:
        """Whether each use changed."""
        return self._after(self.away_columns, 0 if self.near is None else len(self.uses))

    @cached_property
    def exact_pans(self) -> tuple[Pan, ...]:
        """The pans that are posed exactly."""
        return tuple(self.board.pans[number] for number in self.exact)

    @cached_property
    def shared(self) -> tuple[int, ...]:
        """Numbers of the items with several uses, whose stock is a row."""
        if self.board.is_one_each:
            return ()
        return tuple(number for number, uses in enumerate(self.board.by_item) if len(uses) > 1)

    @cached_property
    def switch_rows(self) -> slice:
        """Two rows for each on/off column."""
        return self._after(slice(0, len(self.row_scale)), 2 * len(self.switched))

    @cached_property
    def choice_rows(self) -> slice:
        """The rows of the choices, in their order."""
        return self._after(self.switch_rows, sum(len(choice.rows()) for choice in self.choices))

    @cached_property
    def most_rows(self) -> slice:
        """The most of each item with several uses."""
        return self._after(self.choice_rows, len(self.shared))

    @cached_property
    def least_rows(self) -> slice:
        """The least of each item with several uses."""
        return self._after(self.most_rows, len(self.shared))

    @cached_property
    def spoon_rows(self) -> slice:
        """What a spoon finds, for each pan that has one."""
        lines = sum(len(self.board.pans[number].rising) for number in self.pan_numbers)
        return self._after(self._after(self.least_rows, lines), sum(p.spoon is not None for p in self.board.pans))

    def centre_rows(self, centre: int) -> slice:
        """The two rows of a centre."""
        first = len(self.sides) + 2 * centre
        return slice(first, first + 2)

    def rendered100(self, amounts: FloatArray) -> FloatArray:
        """Fat that renders in every pan, (pans,), units of 100 g, by the exact curves. amounts: (uses,), in units."""
        grams = amounts * self.unit_g
        return np.array([pan.rendered_g(grams) / 100 for pan in self.board.pans])

    @staticmethod
    def _after(before: slice, count: int) -> slice:
        return slice(before.stop, before.stop + count)
