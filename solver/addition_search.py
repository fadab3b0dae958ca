"""The least grams of one added food, over a whole table, best first.

All foods that may be added stand in one programme, each held at zero. Multipliers y of any infeasible or optimal solve
of it give a bound for every food at once: what the bounds of the programme leave, L(y) (see `certificate`), has to be
made good by the food, whose column a adds y'a for each unit of it. So at least L(y) / (y'a) of it is needed, and no
amount of it is enough where y'a is not above zero. The food with the smallest bound is opened and solved, its own
multipliers improve the bounds of all others, and when the smallest is one that is solved, nothing can be less.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from solver.backends.base import Backend, Limits, RawSolution, Status
from solver.brief import Brief
from solver.certificate import NEGLIGIBLE, Bounds, dual_bound, mended
from solver.chain import NO_MISS
from solver.deadline import Deadline
from solver.levels import least_miss
from solver.nearest_end import exactly_posed
from solver.numerics import FloatArray, IntArray

#: Grams that two bounds have to differ by to be different.
SAME_G = 1e-4

#: Foods of a stepped brief that are searched in whole numbers before the search gives up on a proof.
MOST_STEPPED = 24

#: Where a proof of the least grams may stop for stepped briefs, in units of 100 g.
STEPPED_GAP = 1e-3


@dataclass(frozen=True, slots=True)
class Found:
    """number: of the food. least_g: for the batch. proven: whether less of no other food will do."""

    number: int
    least_g: float
    proven: bool


class AdditionSearch:
    """A session on the brief with all foods, and what is known of each: bounds_g, and whether they are the answer."""

    def __init__(self, brief: Brief, names: Sequence[str], backend: Backend, deadline: Deadline) -> None:
        """names: of the items that may be added. Foods that lack a value which a target needs are none of them."""
        self._formulation = exactly_posed(brief)
        layout, self._program = self._formulation.layout, self._formulation.program
        place = {use.item.name: column for column, use in enumerate(layout.uses) if use.number is not None}
        self._columns: IntArray = np.array([place.get(name, -1) for name in names], dtype=np.int32)
        self._open_upper = self._program.column_upper
        shut = self._open_upper.copy()
        shut[self._columns[self._columns >= 0]] = 0.0
        self._bounds = Bounds(self._program.row_lower, self._program.row_upper, self._program.column_lower, shut)
        self._unit_g = np.where(self._columns >= 0, layout.unit_g[self._columns], 1.0)
        self.bounds_g: FloatArray = np.where(self._columns >= 0, 0.0, np.inf)
        self._settled = np.zeros(len(names), dtype=np.bool_)
        self._relaxed = np.zeros(len(names), dtype=np.bool_)
        self._stepped_left, self._proven = MOST_STEPPED, True
        self._deadline = deadline
        self._session = backend.open(self._program)
        self._learn_from_miss(None)

    def close(self) -> None:
        """Free the session."""
        self._session.close()

    def drop(self, numbers: Iterable[int]) -> None:
        """Look at these foods no more."""
        self.bounds_g[list(numbers)] = np.inf

    def best(self, allowed: Callable[[int], bool]) -> Found | None:
        """The food of which the fewest grams are enough, of equals the first; None when there is none, or no time."""
        while np.isfinite(least := self.bounds_g.min(initial=np.inf)) and self._deadline.remaining_s() > 0:
            number = int(np.argmax(self.bounds_g <= least + SAME_G))
            if self._settled[number]:
                return Found(number, float(self.bounds_g[number]), self._proven)
            if not self._relaxed[number] and not allowed(number):
                self.drop([number])
            elif not self._relaxed[number]:
                self._relax(number)
            else:
                self._settle(number)
        return None

    def _relax(self, number: int) -> None:
        """Solve for one food without whole numbers."""
        self._relaxed[number] = True
        raw = self._solve(number, self._cost_of(number), self._bounds.column_upper, whole=False)
        if raw.status is not Status.OPTIMAL or raw.objective is None:
            self.drop([number])
            self._learn_from_miss(number)
            return
        if raw.row_dual is not None:
            self._learn(raw.row_dual)
        # Its own cut may be above the optimum by what floats leave.
        self.bounds_g[number] = max(0.0, raw.objective * float(self._unit_g[number]))
        self._settled[number] = not self._program.has_integers

    def _settle(self, number: int) -> None:
        """Solve for one food in whole numbers."""
        self._settled[number] = True
        self._stepped_left -= 1
        if self._stepped_left < 0:
            self._proven = False
            self.bounds_g[~self._settled] = np.inf
            self.drop([number])
            return
        raw = self._solve(number, self._cost_of(number), self._bounds.column_upper, whole=True)
        if raw.x is None or raw.objective is None:
            self._proven = self._proven and raw.status is Status.INFEASIBLE
            self.drop([number])
            return
        self._proven = self._proven and raw.status is Status.OPTIMAL
        self.bounds_g[number] = max(0.0, raw.objective * float(self._unit_g[number]))

    def _learn_from_miss(self, number: int | None) -> None:
        """Bounds from the least miss of the musts, with one food or none."""
        upper = self._bounds.column_upper.copy()
        upper[self._formulation.layout.miss_columns] = np.inf
        raw = self._solve(number, least_miss(self._formulation).cost, upper, whole=False)
        if raw.row_dual is not None:
            self._learn(raw.row_dual)

    def _learn(self, row_dual: FloatArray) -> None:
        rows, nothing = self._program.rows, np.zeros(self._program.rows.width)
        y = mended(nothing, rows, self._bounds, row_dual)
        missing = dual_bound(nothing, rows, self._bounds, y)
        if missing <= NO_MISS:
            return
        brings = np.where(self._columns >= 0, rows.transposed_times(y)[self._columns], 0.0)
        needed = np.full(len(brings), np.inf)
        helps = brings > NEGLIGIBLE
        needed[helps] = missing / brings[helps] * self._unit_g[helps]
        most_g = self._open_upper[self._columns] * self._unit_g
        needed[needed > most_g * (1 + NEGLIGIBLE) + SAME_G] = np.inf
        self.bounds_g = np.where(self._settled, self.bounds_g, np.maximum(self.bounds_g, needed))

    def _cost_of(self, number: int) -> FloatArray:
        cost = np.zeros(self._program.rows.width)
        cost[self._columns[number]] = 1.0
        return cost

    def _solve(self, number: int | None, cost: FloatArray, upper: FloatArray, *, whole: bool) -> RawSolution:
        opened = upper.copy()
        if number is not None:
            opened[self._columns[number]] = self._open_upper[self._columns[number]]
        if self._program.has_integers:
            self._session.set_integer(self._program.integer if whole else np.zeros_like(self._program.integer))
        self._session.set_cost(cost)
        self._session.set_column_bounds(self._program.column_lower, opened)
        return self._session.solve(Limits(self._deadline, STEPPED_GAP))
