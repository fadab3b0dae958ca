"""The musts of a brief held open, to ask how far any sum over its items can go.

Mixes are posed exactly as soon as their linear rows pretend something; where whose fat it is matters, each row takes
the source that is best for it, so that what is found is never too little.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np

from solver.backends.base import Backend, Status
from solver.brief import Brief
from solver.chain import Chain
from solver.deadline import Deadline
from solver.exactness import mixes_left, overstated
from solver.formulate import Formulation, formulate
from solver.levels import Level
from solver.missing import Counted
from solver.mixtures import CAREFUL, Mixtures
from solver.numerics import PRINTED_STEP_G, ROW_MAGNITUDE, BoolArray, FloatArray
from solver.posed import guarded, posed
from solver.program import Rows
from solver.solved import Solved
from solver.targets import WeightBasis

#: What each column of `as_eaten` counts.
Counts: TypeAlias = Mapping[str, float]

#: A row over all columns, (columns,), of the formulation that is posed.
Row: TypeAlias = Callable[[Formulation], FloatArray]

#: Rows, (columns,) each, that have to come to at least 0 besides those of a formulation.
Extra: TypeAlias = Callable[[Formulation], Sequence[FloatArray]]


@dataclass(frozen=True, slots=True)
class Sum:
    """A sum over the items for the batch. terms: what counts, and before or after cooking."""

    terms: tuple[tuple[Counts, WeightBasis], ...]

    def weights(self, formulation: Formulation) -> FloatArray:
        """Over all columns, (columns,), so that the sum is never too small where sources of fat differ."""
        layout = formulation.layout
        row = np.zeros(layout.width)
        for counts, basis in self.terms:
            uses, pans = posed(layout.board, counts, basis)
            row[layout.use_columns] += uses * layout.unit_g / 100.0
            row[layout.pan_columns] += pans[list(layout.pan_numbers)]
        return row

    def times(self, factor: float) -> "Sum":
        """The same, each count times a factor."""
        terms = ({name: factor * value for name, value in counts.items()} for counts, _ in self.terms)
        return Sum(tuple(zip(terms, (basis for _, basis in self.terms), strict=True)))

    def is_guarded(self, formulation: Formulation) -> bool:
        """Whether it depends on whose fat the drippings are."""
        board = formulation.layout.board
        return any(
            guarded(board, {name: value}, basis) for counts, basis in self.terms for name, value in counts.items()
        )


@dataclass(frozen=True, slots=True, eq=False)
class Farthest:
    """The most of a sum. most: at the point found. beyond: nothing is beyond it; None where nobody knows."""

    most: float
    beyond: float | None
    solved: Solved
    formulation: Formulation


class Search:
    """One brief, whose targets are all musts, held open in a solver. `close` it.

    formulation: as posed now. outer: whether rows take the best of several sources of fat. depends_on_source: whether a
    sum that was asked for does.
    """

    def __init__(
        self,
        brief: Brief,
        counted: Counted,
        backend: Backend,
        deadline: Deadline,
        asked: Sequence[Sum] = (),
        *,
        extra: Extra = lambda _: (),
        relaxed: bool = False,
    ) -> None:
        """asked: the sums that will be asked for. relaxed: whole numbers may be broken, and mixes may pretend."""
        self._backend, self._deadline, self._counted = backend, deadline, counted
        self._extra, self._relaxed = extra, relaxed
        careful = formulate(brief, counted)
        self.depends_on_source = any(each.is_guarded(careful) for each in asked)
        self.outer = self.depends_on_source or any(side.guarded for side in careful.layout.sides)
        self._held: tuple[float, float] | None = None
        self._mixtures = Mixtures(hopeful=True) if self.outer else CAREFUL
        self.formulation = formulate(brief, counted, mixtures=self._mixtures) if self.outer else careful
        self._chain = self._opened()

    def close(self) -> None:
        """Free the session."""
        self._chain.close()

    def fix(self, lower: float, upper: float) -> None:
        """Keep the last of the extra rows between two numbers."""
        self._held = lower, upper
        start = self._chain.start
        row_lower, row_upper = start.row_lower.copy(), start.row_upper.copy()
        row_lower[-1], row_upper[-1] = lower, upper
        self._chain.restart(replace(start, row_lower=row_lower, row_upper=row_upper), self._integer())

    def most(self, wanted: Sum | Row) -> Farthest | Status:
        """The most of a sum or row; the solver's status where no point was found."""
        found = self._farthest(wanted)
        if isinstance(found, Farthest) and self._pretends(found):
            self.pose_exactly()
            return self._farthest(wanted)
        return found

    def pose_exactly(self) -> None:
        """From now on no mix may pretend that more fat rendered than does."""
        left = mixes_left(self.formulation)
        if not left:
            return
        brief, exact = self.formulation.brief, left | self.formulation.exact
        self._chain.close()
        self.formulation = formulate(brief, self._counted, exact=exact, mixtures=self._mixtures)
        self._chain = self._opened()
        if self._held is not None:
            self.fix(*self._held)

    def _farthest(self, wanted: Sum | Row) -> Farthest | Status:
        row = wanted.weights(self.formulation) if isinstance(wanted, Sum) else wanted(self.formulation)
        row, scale = scaled(row)
        level = Level("reach", -row, self._gap(row))
        end = self._chain.run([level], self._deadline)
        if not end.solved:
            return end.status
        solved = end.solved[0]
        beyond = None if solved.bound is None else -solved.bound / scale
        return Farthest(-solved.value / scale, beyond, solved, self.formulation)

    def _gap(self, row: FloatArray) -> float:
        """Where a proof may stop with steps: what a tenth of a gram of the item that has most of it counts."""
        layout = self.formulation.layout
        per_g = np.abs(row[layout.use_columns]) / layout.unit_g
        return max(float(per_g.max(initial=0.0)) * PRINTED_STEP_G, 1e-9)

    def _pretends(self, found: Farthest) -> bool:
        loose = not self._relaxed and bool(mixes_left(self.formulation))
        return loose and bool(overstated(self.formulation, [found.solved], frozenset()))

    def _opened(self) -> Chain:
        program, rows = self.formulation.program, self._extra(self.formulation)
        if rows:
            endless = np.full(len(rows), np.inf)
            program = program.with_rows(Rows.from_dense(np.array(rows)), np.zeros(len(rows)), endless)
        return Chain(self._backend, replace(self.formulation, program=replace(program, integer=self._integer())))

    def _integer(self) -> BoolArray:
        integer = self.formulation.program.integer
        return np.zeros_like(integer) if self._relaxed else integer


def scaled(row: FloatArray) -> tuple[FloatArray, float]:
    """A row times a power of two, which changes no digit, so that solvers read it well; and that power."""
    scale = 2.0 ** math.floor(math.log2(ROW_MAGNITUDE / max(float(np.abs(row).max(initial=0.0)), 1e-9)))
    return row * scale, scale
