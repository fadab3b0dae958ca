"""What turns arrays back into food: which column is which item, which row is which side of which target.

Columns, in order: the items; one on/off column for each item with a least amount when used; one miss for each
side; the deviation. Rows: the sides; two for each centre; two for each on/off column.
"""

from dataclasses import dataclass

from solver.bands import Centre, Side
from solver.numerics import BoolArray, FloatArray, IntArray
from solver.outcome import LeftOut
from solver.pantry import PantryItem


@dataclass(frozen=True, slots=True, eq=False)
class Layout:
    """Order and units, kept here alone.

    items: in column order. unit_g: (items,), grams in one unit of the column: the step, or 100.
    weighed: (items,), True where the amount is printed to 0.1 g rather than counted in steps.
    switched: item numbers that have an on/off column, in the order of those columns.
    row_scale: (rows,), what each row was multiplied with.
    """

    items: tuple[PantryItem, ...]
    unit_g: FloatArray
    weighed: BoolArray
    switched: IntArray
    sides: tuple[Side, ...]
    centres: tuple[Centre, ...]
    row_scale: FloatArray
    left_out: tuple[LeftOut, ...]

    @property
    def item_columns(self) -> slice:
        """Columns of the items."""
        return slice(0, len(self.items))

    @property
    def switch_columns(self) -> slice:
        """The on/off columns."""
        return slice(len(self.items), len(self.items) + len(self.switched))

    @property
    def miss_columns(self) -> slice:
        """The misses, one for each side."""
        first = self.switch_columns.stop
        return slice(first, first + len(self.sides))

    @property
    def deviation_column(self) -> int:
        """The largest deviation from the middle of a band."""
        return int(self.miss_columns.stop)

    @property
    def width(self) -> int:
        """Number of columns."""
        return self.deviation_column + 1

    def centre_rows(self, centre: int) -> slice:
        """The two rows of a centre."""
        first = len(self.sides) + 2 * centre
        return slice(first, first + 2)
