"""A conflict with its reason, its proof and the nearest plan.

The elastic programme (every must may be missed at a price) always has a plan. Its least miss is the nearest plan's, and
the bound that its multipliers give proves, by arithmetic that anyone can repeat, that the musts cannot all be met.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from solver.answer import level_proof, plan_of_mixture, printed_dish, undecided_of_mixture
from solver.brief import Brief
from solver.certificate import Bounds
from solver.chain import NO_MISS, Chain
from solver.conflict import NO_PLAN, Irreducible, accused, irreducible
from solver.deadline import Deadline
from solver.errors import BackendError
from solver.exactness import mixes_left, overstated
from solver.formulate import Formulation, formulate
from solver.levels import completed, least_miss
from solver.meets import musts
from solver.missing import count
from solver.notes import notes
from solver.numerics import BoolArray, FloatArray
from solver.outcome import Checked, Conflict, Dish, LevelProof, Member, MemberKind, Outcome, Plan, Undecided
from solver.printing import rounded, rounding_margin, with_spoons_found
from solver.solved import Solved
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
    if end.status in NO_PLAN and not formulation.program.has_integers:
        raise BackendError("a solver called infeasible what always has a plan")
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
) -> Outcome:
    layout = formulation.layout
    amounts = None
    if nearest is not None:
        amounts = _printable(chain, formulation, nearest, task.deadline.share(NEAREST_SHARE))
    dish = None if amounts is None else printed_dish(formulation, amounts)
    if dish is not None and not dish.missed:
        return _unseen(task, formulation, dish)
    proven = certificate or nearest
    levels: tuple[LevelProof, ...] = ()
    if proven is not None and amounts is not None:
        levels = (level_proof(proven, completed(formulation, amounts, frozenset())),)
    suspects = () if certificate is None else accused(formulation, certificate)
    reason = _reason(task, chain, formulation, suspects)
    if reason.proven and not reason.members:
        raise BackendError(f"{task.backend.name} calls infeasible what nothing stands in the way of")
    return Conflict(
        brief=task.brief,
        members=reason.members,
        # By the best source of each row the rest may seem to have a plan that no dish is.
        irreducible=reason.proven and not formulation.mixtures.hopeful,
        checked=Checked.CLAIM
        if certificate is None or _is_guarded(formulation, reason.members) or _is_bounded(formulation)
        else Checked.CERTIFICATE,
        nearest=dish,
        proof=task.proof(*levels),
        left_out=layout.left_out,
        warnings=notes(task.brief, dish),
        others=reason.others,
    )


def _unseen(task: Task, formulation: Formulation, dish: Dish) -> Plan | Undecided:
    """A dish that meets what the rows, which take the worst of several sources, say it does not.

    Within a tolerance the mixture of the sources may be another, and then the rows alone can vouch for it.
    """
    if task.brief.holds is not None and any(side.guarded for side in formulation.layout.sides):
        return undecided_of_mixture(task)
    return plan_of_mixture(task, dish)


def _reason(task: Task, chain: Chain, formulation: Formulation, suspects: tuple[Member, ...]) -> Irreducible:
    """The irreducible set. It asks what has a plan, so mixes that could pretend are posed exactly for it."""
    loose = mixes_left(formulation)
    own = Chain(task.backend, _posed_again(task.brief, formulation, loose)) if loose else chain
    held = task.brief.holds is not None
    stated = _posed_again(replace(task.brief, holds=None), formulation, loose) if held else None
    beside = None if stated is None else Chain(task.backend, stated)
    as_stated = None if stated is None or beside is None else (beside.session, stated)
    try:
        return irreducible(own.session, own.formulation, suspects, task.deadline, as_stated)
    finally:
        for each in (own, beside):
            if each is not None and each is not chain:
                each.close()


def _posed_again(brief: Brief, formulation: Formulation, loose: frozenset[str]) -> Formulation:
    """The same formulation with these mixes posed exactly as well, of a brief that may hold within less."""
    grid, exact, mixtures = formulation.on_grid, formulation.exact | loose, formulation.mixtures
    return formulate(brief, count(brief), grid=grid, relaxable=True, exact=exact, mixtures=mixtures)


def _is_guarded(formulation: Formulation, members: Sequence[Member]) -> bool:
    """Whether a target of the conflict is counted by the worst of several sources of fat."""
    names = {member.name for member in members if member.kind is MemberKind.TARGET}
    return any(side.guarded and side.target.id in names for side in formulation.layout.sides)


def _is_bounded(formulation: Formulation) -> bool:
    """Whether rows hold within a tolerance by more than the worst composition takes, as those of pans do."""
    return formulation.brief.holds is not None and bool(formulation.layout.pan_numbers)


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
