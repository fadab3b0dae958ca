"""Whether a programme that bounds rendered fat only from below has pretended that more of it ran out than does.

That pays where fat or energy has an upper bound, or a spoon wants more than there is. Then the mixes concerned are
posed exactly, with whole numbers; everywhere else the linear rows are enough, and faster.
"""

from collections.abc import Sequence

from solver.formulate import Formulation
from solver.levels import completed
from solver.meets import meets_musts
from solver.numerics import VERIFICATION, FloatArray
from solver.solved import Solved


def overstated(
    formulation: Formulation, solved: Sequence[Solved], freed: frozenset[int], *, musts_hold: bool = True
) -> frozenset[str]:
    """Names of the mixes to pose exactly; none where the same amounts are as good on the curves themselves.

    solved: at least one level. musts_hold: False for an elastic programme, whose misses are its cost.
    """
    x, layout = solved[-1].x, formulation.layout
    amounts = x[layout.use_columns]
    pretended = _pretended(formulation, x)
    if not pretended:
        return pretended
    true = completed(formulation, amounts, freed)
    if musts_hold and not meets_musts(formulation, amounts):
        return pretended
    as_good = all(
        float(each.level.cost @ true) <= each.value + VERIFICATION * max(1.0, abs(each.value)) for each in solved
    )
    return frozenset() if as_good else pretended


def mixes_left(formulation: Formulation) -> frozenset[str]:
    """Names of the mixes whose rendered fat is bounded from below only."""
    board = formulation.layout.board
    open_mixes = (board.pans[number] for number in formulation.layout.pan_numbers)
    return frozenset(pan.component.name for pan in open_mixes if len(pan.rising)) - formulation.exact


def _pretended(formulation: Formulation, x: FloatArray) -> frozenset[str]:
    layout = formulation.layout
    true = layout.rendered100(x[layout.use_columns])
    return (
        frozenset(
            layout.board.pans[number].component.name
            for place, number in enumerate(layout.pan_numbers)
            if x[layout.pan_columns.start + place] > true[number] + VERIFICATION
        )
        - formulation.exact
    )
