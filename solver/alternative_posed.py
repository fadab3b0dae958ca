"""The programme that seeks the items most different from those of the plans at hand.

It is the brief's own programme with an on/off column for every item, a column for every pool, on where an item of the
pool is on, and the distance: the least number of pools in which it differs from any of the plans. The levels
down to the first preference are held by rows, each at what it may come to at most.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from solver.alternative_pools import Pools
from solver.brief import Brief
from solver.choices import Choice
from solver.formulate import Formulation, formulate
from solver.levels import Level, levels
from solver.missing import count
from solver.numerics import ROW_MAGNITUDE, VERIFICATION, FloatArray
from solver.program import LinearProgram, Rows

#: Pools that an alternative may use beyond those of the plan: else a little of everything would be most different.
MORE_POOLS = 1

#: A distance has nothing between whole numbers, so proof of one stops short of the next.
WHOLE = 0.5

#: A column that is 0 or 1, to a tolerance, is on from here.
ON = 0.5


@dataclass(frozen=True, slots=True, eq=False)
class Posed:
    """formulation: its programme has the pools and the distance after the columns of its layout, which are as ever.

    held: the levels that rows hold, and the most of each. freed: the centres that do not count.
    """

    formulation: Formulation
    pools: Pools
    held: tuple[tuple[Level, float], ...]
    freed: frozenset[int]

    @property
    def pool_columns(self) -> slice:
        """One column for each pool."""
        width = self.formulation.layout.width
        return slice(width, width + self.pools.size)

    @property
    def distance(self) -> Level:
        """What is sought: the greatest distance."""
        cost = np.zeros(self.pool_columns.stop + 1)
        cost[-1] = -1.0
        return Level("most different", cost, WHOLE)

    def used(self, x: FloatArray) -> frozenset[str]:
        """Names of the items that are on."""
        layout = self.formulation.layout
        on = x[layout.switch_columns] > ON
        return frozenset(layout.items[n].name for n, is_on in zip(layout.switched, on, strict=True) if is_on)


def posed(brief: Brief, pools: Pools, most: dict[str, float], missed: frozenset[str], exact: frozenset[str]) -> Posed:
    """Pose the search for a brief whose items have their least amounts to count as `least_when_used_g`.

    most: name of each level to hold to the most that it may come to. missed: ids of the wishes that the plan
    misses, whose middles do not count.
    """
    every = Choice(_free_id(brief), frozenset(pools.of), lower=0)
    formulation = formulate(replace(brief, choices=(*brief.choices, every)), count(brief), exact=exact)
    layout = formulation.layout
    freed = frozenset(n for n, middle in enumerate(layout.centres) if middle.target.id in missed)
    held = tuple((level, most[level.name]) for level in levels(formulation) if level.name in most)
    program = _widened(formulation, pools.size + 1, freed)
    found = Posed(formulation, pools, held, freed)
    program = _with_held(program, held)
    return replace(found, formulation=replace(formulation, program=_with_pools(program, found)))


def seeking(search: Posed, plans: Sequence[frozenset[str]], ruled_out: Sequence[frozenset[str]]) -> Formulation:
    """The programme that is furthest from these plans. plans: the items of each, the plan itself first.

    ruled_out: items that lead to no plan; just these together are not sought again.
    """
    program = search.formulation.program
    width, first, size = program.rows.width, search.pool_columns.start, search.pools.size
    for plan in plans:
        row, signs = np.zeros(width), np.ones(size)
        signs[list(search.pools.used(plan))] = -1.0
        row[first : first + size], row[-1] = signs, -1.0
        program = _row(program, row, -float(np.sum(signs < 0)), np.inf)
    row = np.zeros(width)
    row[first : first + size] = 1.0
    program = _row(program, row, 0.0, float(len(search.pools.used(plans[0])) + MORE_POOLS))
    for names in ruled_out:
        program = _row(program, *_not_these(search, names, width))
    return replace(search.formulation, program=program)


def _not_these(search: Posed, names: frozenset[str], width: int) -> tuple[FloatArray, float, float]:
    layout, row = search.formulation.layout, np.zeros(width)
    row[layout.switch_columns] = [-1.0 if layout.items[n].name in names else 1.0 for n in layout.switched]
    return row, 1.0 - len(names), np.inf


def _free_id(brief: Brief) -> str:
    taken = {choice.id for choice in brief.choices}
    return next(name for name in (f"every item {n}" for n in range(len(taken) + 1)) if name not in taken)


def _widened(formulation: Formulation, more: int, freed: frozenset[int]) -> LinearProgram:
    program, layout = formulation.program, formulation.layout
    row_lower = program.row_lower.copy()
    for number in freed:
        row_lower[layout.centre_rows(number)] = -np.inf
    upper = np.append(np.ones(more - 1), np.inf)
    return replace(
        program,
        cost=np.zeros(layout.width + more),
        rows=replace(program.rows, width=layout.width + more),
        row_lower=row_lower,
        column_lower=np.concatenate((program.column_lower, np.zeros(more - 1), [1.0])),
        column_upper=np.concatenate((program.column_upper, upper)),
        integer=np.concatenate((program.integer, np.zeros(more, dtype=np.bool_))),
    )


def _with_held(program: LinearProgram, held: Sequence[tuple[Level, float]]) -> LinearProgram:
    for level, most in held:
        largest = float(np.abs(level.cost).max(initial=0.0))
        if largest > 0:
            scale, row = ROW_MAGNITUDE / largest, np.zeros(program.rows.width)
            row[: len(level.cost)] = level.cost * scale
            program = _row(program, row, -np.inf, most * scale + VERIFICATION)
    return program


def _with_pools(program: LinearProgram, found: Posed) -> LinearProgram:
    """Each pool is on with any of its items, and off without."""
    layout, pools = found.formulation.layout, found.pools
    with_any = np.zeros((len(layout.switched), program.rows.width))
    only_with = np.zeros((pools.size, program.rows.width))
    for place, number in enumerate(layout.switched):
        pool = pools.of[layout.items[number].name]
        switch, column = layout.switch_columns.start + place, found.pool_columns.start + pool
        with_any[place, column], with_any[place, switch] = 1.0, -1.0
        only_with[pool, switch], only_with[pool, column] = 1.0, -1.0
    rows = Rows.from_dense(np.vstack((with_any, only_with)))
    return program.with_rows(rows, np.zeros(rows.height), np.full(rows.height, np.inf))


def _row(program: LinearProgram, row: FloatArray, lower: float, upper: float) -> LinearProgram:
    return program.with_rows(Rows.from_dense(row[None, :]), np.array([lower]), np.array([upper]))
