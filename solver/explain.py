"""A conflict with its reason, its proof and the nearest plan.

The elastic programme (every must may be missed at a price) always has a plan. Its least miss is the nearest plan's, and
the bound that its multipliers give proves, by arithmetic that anyone can repeat, that the musts cannot all be met.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from solver.answer import level_proof, plan_of_mixture, printed_dish
from solver.certificate import Bounds
from solver.chain import NO_MISS, Chain, Solved
from solver.conflict import Irreducible, accused, irreducible
from solver.deadline import Deadline
from solver.exactness import mixes_left, overstated
from solver.formulate import Formulation, formulate
from solver.levels import completed, least_miss
from solver.missing import count
from solver.notes import notes
from solver.numerics import BoolArray, FloatArray
from solver.outcome import Checked, Conflict, LevelProof, Member, MemberKind, Outcome, Plan, Undecided
from solver.printing import musts, rounded, rounding_margin, with_spoons_found
from solver.task import Task

#: Part of the time left that finding the nearest plan may take; the rest is for the reason.
NEAREST_SHARE = 0.4


def conflict_of(task: Task, *, on_grid: bool) -> Outcome:
    """Explain why a brief, which a solver calls infeasible, has no plan. on_grid: only in multiples of 0.1 g.

    Rows that take the worst of several sources of fat may call a brief infeasible that a dish meets after all; where
    the nearest dish does, it is the plan.
    """
    exact, mixtures = task.formulation.exact, task.formulation.mixtures
    counted = count(task.brief)
    formulation = formulate(task.brief, counted, grid=on_grid, relaxable=True, exact=exact, mixtures=mixtures)
    chain = Chain(task.backend, formulation)
    try:
        relaxed = _least_miss(chain, formulation, np.zeros_like(formulation.program.integer), task.deadline)
        certain = relaxed is not None and relaxed.bound is not None and relaxed.bound > NO_MISS
        nearest = relaxed
        if formulation.program.has_integers:
            deadline = task.deadline.share(NEAREST_SHARE)
            nearest = _least_miss(chain, formulation, formulation.program.integer, deadline)
        inexact = _inexact(formulation, nearest)
        if not inexact and not certain and not formulation.program.has_integers:
            return _on_the_edge(task)
        if not inexact:
            return _conflict(task, chain, formulation, relaxed if certain else None, nearest)
    finally:
        chain.close()
    return conflict_of(replace(task, formulation=replace(task.formulation, exact=inexact)), on_grid=on_grid)


def _inexact(formulation: Formulation, nearest: Solved | None) -> frozenset[str]:
    """The mixes to pose exactly, if the nearest plan pretends that more fat rendered than does; else none."""
    found = frozenset() if nearest is None else overstated(formulation, [nearest], frozenset(), musts_hold=False)
    return formulation.exact | found if found else found


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
    in_use = np.asarray((amounts > 0) & formulation.layout.weighed, dtype=np.bool_)
    margin = rounding_margin(formulation, in_use, musts(formulation))
    chain.restart(replace(opened, row_lower=opened.row_lower + margin), formulation.program.integer)
    end = chain.run([least_miss(formulation)], deadline)
    return with_spoons_found(formulation, amounts if end.x is None else rounded(formulation, end.x))


def _conflict(
    task: Task, chain: Chain, formulation: Formulation, certificate: Solved | None, nearest: Solved | None
) -> Conflict | Plan:
    layout = formulation.layout
    amounts = None
    if nearest is not None:
        amounts = _printable(chain, formulation, nearest, task.deadline.share(NEAREST_SHARE))
    dish = None if amounts is None else printed_dish(formulation, amounts)
    if dish is not None and not dish.missed:
        return plan_of_mixture(task, dish)
    proven = certificate or nearest
    levels: tuple[LevelProof, ...] = ()
    if proven is not None and amounts is not None:
        levels = (level_proof(proven, completed(formulation, amounts, frozenset())),)
    suspects = () if certificate is None else accused(formulation, certificate)
    reason = _reason(task, chain, formulation, suspects)
    return Conflict(
        brief=task.brief,
        members=reason.members,
        # By the best source of each row the rest may seem to have a plan that no dish is.
        irreducible=reason.proven and not formulation.mixtures.hopeful,
        checked=Checked.CLAIM
        if certificate is None or _is_guarded(formulation, reason.members)
        else Checked.CERTIFICATE,
        nearest=dish,
        proof=task.proof(*levels),
        left_out=layout.left_out,
        warnings=notes(task.brief, dish),
        others=reason.others,
    )


def _reason(task: Task, chain: Chain, formulation: Formulation, suspects: tuple[Member, ...]) -> Irreducible:
    """The irreducible set. It asks what has a plan, so mixes that could pretend are posed exactly for it."""
    loose = mixes_left(formulation)
    if not loose:
        return irreducible(chain.session, formulation, suspects, task.deadline)
    grid, exact = formulation.on_grid, formulation.exact | loose
    counted, mixtures = count(task.brief), formulation.mixtures
    posed = formulate(task.brief, counted, grid=grid, relaxable=True, exact=exact, mixtures=mixtures)
    own = Chain(task.backend, posed)
    try:
        return irreducible(own.session, posed, suspects, task.deadline)
    finally:
        own.close()


def _is_guarded(formulation: Formulation, members: Sequence[Member]) -> bool:
    """Whether a target of the conflict is counted by the worst of several sources of fat."""
    names = {member.name for member in members if member.kind is MemberKind.TARGET}
    return any(side.guarded and side.target.id in names for side in formulation.layout.sides)


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
