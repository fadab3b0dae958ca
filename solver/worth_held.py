"""One level of a changed brief, with the levels above it held where the brief as asked has them.

What is sought stays as asked: the middles of bands, and what a missed wish is measured in, are those of the brief as
asked, and only the limit moves. So more room never makes a level worse, and less never makes it better.
A held level is a row: its cost may be no more than it was. The brief as asked is measured under the same rows.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from solver.backends.base import Backend, Status
from solver.brief import Brief
from solver.chain import Chain
from solver.deadline import Deadline
from solver.errors import VerificationError
from solver.exactness import overstated
from solver.formulate import Formulation, formulate
from solver.levels import Level, levels
from solver.missing import count
from solver.numerics import ROW_MAGNITUDE, VERIFICATION
from solver.program import LinearProgram, Rows
from solver.solved import ChainEnd, Solved

#: Where the proof of a stepped brief may stop: a difference of two values needs both of them.
TIGHT_GAP = 1e-7


@dataclass(frozen=True, slots=True, eq=False)
class Settled:
    """A brief as asked, solved level by level.

    formulation: as exact as its optimum needed. solved, status, freed: as of `ChainEnd`; FAILED where a solver lies.
    """

    formulation: Formulation
    solved: tuple[Solved, ...]
    status: Status
    freed: frozenset[int]
    backend: Backend

    @property
    def brief(self) -> Brief:
        """As asked."""
        return self.formulation.brief

    @property
    def preferred(self) -> tuple[tuple[int, str], ...]:
        """Number and name of each level that is a preference: no wish, and nothing that only breaks ties."""
        return _preferred(self.formulation)


def settled(brief: Brief, backend: Backend, deadline: Deadline) -> Settled:
    """Solve the levels of a brief down to its last preference.

    Mixes start linear; those whose rendered fat the optimum overstates are posed exactly, as for a plan.
    """
    counted, exact = count(brief), frozenset[str]()
    while True:
        formulation = formulate(brief, counted, exact=exact)
        wanted = [replace(level, absolute_gap=TIGHT_GAP, yields=False) for level in levels(formulation)]
        last, _ = _preferred(formulation)[-1]
        end = _end(backend, formulation, wanted[: last + 1], deadline)
        inexact = overstated(formulation, end.solved, end.freed) if end.solved else frozenset()
        if not inexact:
            return Settled(formulation, end.solved, end.status, end.freed, backend)
        exact |= inexact


def level_held(base: Settled, brief: Brief, number: int, deadline: Deadline, *, above: bool = True) -> Solved | Status:
    """The optimum of level `number` of a changed brief; the status where there is none, or a solver lies.

    above: whether the levels above are held. The exactness is that of the brief as asked, and more where the optimum
    overstates what renders.
    """
    exact = base.formulation.exact
    while True:
        posed = _measured(_as_exact(base, exact), formulate(brief, count(brief), exact=exact), base.freed)
        wanted = _wanted(base, posed)
        held = list(zip(wanted[:number], base.solved, strict=False)) if above else []
        end = _end(base.backend, _with_held(posed, held), [wanted[number]], deadline)
        if not end.solved:
            return end.status
        found = end.solved[0]
        as_solved = [replace(found, level=level, value=solved.value) for level, solved in held]
        inexact = overstated(posed, [*as_solved, found], base.freed)
        if not inexact:
            return found
        exact |= inexact


def _preferred(formulation: Formulation) -> tuple[tuple[int, str], ...]:
    misses = formulation.layout.miss_columns
    return tuple(
        (number, level.name)
        for number, level in enumerate(levels(formulation))
        if not level.breaks_ties and not level.cost[misses].any()
    )


def _as_exact(base: Settled, exact: frozenset[str]) -> Formulation:
    if exact == base.formulation.exact:
        return base.formulation
    return formulate(base.brief, count(base.brief), exact=exact)


def _measured(asked: Formulation, changed: Formulation, freed: frozenset[int]) -> Formulation:
    """The changed brief, with the middles of the brief as asked in place of its own."""
    if changed.layout.width != asked.layout.width:
        asked = changed  # an on/off column of an item came or went; then no target has changed
    row_lower = changed.program.row_lower.copy()
    for number in range(len(changed.layout.centres)):
        row_lower[changed.layout.centre_rows(number)] = -np.inf
    program = replace(changed.program, row_lower=row_lower)
    for number in range(len(asked.layout.centres)):
        if number not in freed:
            program = _with_rows_of(program, asked.program, asked.layout.centre_rows(number))
    return replace(changed, program=program, layout=replace(changed.layout, centres=asked.layout.centres))


def _with_rows_of(program: LinearProgram, other: LinearProgram, place: slice) -> LinearProgram:
    rows = other.rows
    first, last = rows.start[place.start], rows.start[place.stop]
    start = rows.start[place.start : place.stop + 1] - first
    part = Rows(start, rows.index[first:last], rows.value[first:last], rows.width)
    return program.with_rows(part, other.row_lower[place], other.row_upper[place])


def _wanted(base: Settled, posed: Formulation) -> list[Level]:
    """The levels, with misses counted in what the brief as asked measures them in."""
    sides = zip(posed.layout.sides, base.formulation.layout.sides, strict=True)
    as_asked = np.array([side.normaliser / asked.normaliser for side, asked in sides])
    found = []
    for level in levels(posed):
        cost = level.cost.copy()
        cost[posed.layout.miss_columns] *= as_asked
        found.append(replace(level, cost=cost, absolute_gap=TIGHT_GAP, yields=False))
    return found


def _with_held(posed: Formulation, held: list[tuple[Level, Solved]]) -> Formulation:
    program = posed.program
    for row, most in _rows_of(held):
        program = program.with_rows(row, np.array([-np.inf]), np.array([most]))
    return replace(posed, program=program)


def _rows_of(held: list[tuple[Level, Solved]]) -> Iterator[tuple[Rows, float]]:
    for level, solved in held:
        largest = float(np.abs(level.cost).max(initial=0.0))
        if largest > 0:
            scale = ROW_MAGNITUDE / largest
            most = solved.value * scale
            # No less slack than the chain has left a level that its row holds, else its own point would be outside.
            yield Rows.from_dense((level.cost * scale)[None, :]), most + VERIFICATION * max(1.0, scale, abs(most))


def _end(backend: Backend, posed: Formulation, wanted: list[Level], deadline: Deadline) -> ChainEnd:
    chain = Chain(backend, posed)
    try:
        return chain.run(wanted, deadline)
    except VerificationError:
        return ChainEnd((), Status.FAILED, frozenset())
    finally:
        chain.close()
