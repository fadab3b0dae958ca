"""A conflict with its reason, its proof and the nearest plan.

The elastic programme (every must may be missed at a price) always has a plan. Its least miss is the nearest plan's, and
the bound that its multipliers give proves, by arithmetic that anyone can repeat, that the musts cannot all be met.
"""

from dataclasses import replace

import numpy as np

from solver.answer import level_proof, printed_dish
from solver.certificate import Bounds
from solver.chain import NO_MISS, Chain, Solved
from solver.conflict import accused, irreducible
from solver.deadline import Deadline
from solver.formulate import Formulation, formulate
from solver.levels import completed, least_miss
from solver.missing import count
from solver.notes import notes
from solver.numerics import BoolArray, FloatArray
from solver.outcome import Checked, Conflict, LevelProof, Undecided
from solver.printing import rounded, rounding_margin
from solver.task import Task

#: Part of the time left that finding the nearest plan may take; the rest is for the reason.
NEAREST_SHARE = 0.4


def conflict_of(task: Task, *, on_grid: bool) -> Conflict | Undecided:
    """Explain why a brief, which a solver calls infeasible, has no plan. on_grid: only in multiples of 0.1 g."""
    formulation = formulate(task.brief, count(task.brief), grid=on_grid, relaxable=True)
    chain = Chain(task.backend, formulation)
    try:
        relaxed = _least_miss(chain, formulation, np.zeros_like(formulation.program.integer), task.deadline)
        certain = relaxed is not None and relaxed.bound is not None and relaxed.bound > NO_MISS
        if not certain and not formulation.program.has_integers:
            return _on_the_edge(task)
        nearest = relaxed
        if formulation.program.has_integers:
            deadline = task.deadline.share(NEAREST_SHARE)
            nearest = _least_miss(chain, formulation, formulation.program.integer, deadline)
        return _conflict(task, chain, formulation, relaxed if certain else None, nearest)
    finally:
        chain.close()


def _least_miss(chain: Chain, formulation: Formulation, integer: BoolArray, deadline: Deadline) -> Solved | None:
    """The elastic programme's optimum; None when the clock ends first."""
    chain.restart(_opened(chain, formulation), integer)
    end = chain.run([least_miss(formulation)], deadline)
    return end.solved[0] if end.solved else None


def _opened(chain: Chain, formulation: Formulation) -> Bounds:
    """The programme's bounds with every miss allowed."""
    upper = chain.start.column_upper.copy()
    upper[formulation.layout.miss_columns] = np.inf
    return replace(chain.start, column_upper=upper)


def _printable(chain: Chain, formulation: Formulation, nearest: Solved, deadline: Deadline) -> FloatArray:
    """Item amounts of the nearest plan, re-solved inside narrowed bands: rounding then breaks no must that it meets."""
    amounts = rounded(formulation, nearest.x)
    opened = _opened(chain, formulation)
    margin = rounding_margin(formulation, np.asarray((amounts > 0) & formulation.layout.weighed, dtype=np.bool_))
    chain.restart(replace(opened, row_lower=opened.row_lower + margin), formulation.program.integer)
    end = chain.run([least_miss(formulation)], deadline)
    return amounts if end.x is None else rounded(formulation, end.x)


def _conflict(
    task: Task, chain: Chain, formulation: Formulation, certificate: Solved | None, nearest: Solved | None
) -> Conflict:
    layout = formulation.layout
    amounts = None
    if nearest is not None:
        amounts = _printable(chain, formulation, nearest, task.deadline.share(NEAREST_SHARE))
    dish = None if amounts is None else printed_dish(formulation, amounts)
    proven = certificate or nearest
    levels: tuple[LevelProof, ...] = ()
    if proven is not None and amounts is not None:
        levels = (level_proof(proven, completed(formulation, amounts, frozenset())),)
    suspects = () if certificate is None else accused(formulation, certificate)
    reason = irreducible(chain.session, formulation, suspects, task.deadline)
    return Conflict(
        brief=task.brief,
        members=reason.members,
        irreducible=reason.proven,
        checked=Checked.CLAIM if certificate is None else Checked.CERTIFICATE,
        nearest=dish,
        proof=task.proof(*levels),
        left_out=layout.left_out,
        warnings=notes(task.brief, dish),
    )


def _on_the_edge(task: Task) -> Undecided:
    """The solver sees no plan, but the least miss is smaller than floats can tell from none."""
    return Undecided(
        brief=task.brief,
        reason="The targets meet in a single point, to within what floating-point numbers can tell.",
        advice="Widen the narrowest band a little.",
        proof=task.proof(),
        left_out=task.formulation.layout.left_out,
        warnings=notes(task.brief, None),
    )
