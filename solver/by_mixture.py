"""A brief that has no plan by the worst source of its drippings may have one all the same.

First the best source of each row is taken: what has no plan even then has none, and that is proven. Else a dish is
sought by its own mixture: assume one, choose the amounts, see what they mix, and again. What is found is verified as
every plan is, but nothing is proven of it; where nothing is found, nothing is decided.
"""

from dataclasses import replace

import numpy as np

from solver.answer import plan_of_mixture, printed_dish, undecided_of_mixture
from solver.chain import Chain
from solver.conflict import NO_PLAN
from solver.exactness import mixes_left
from solver.explain import conflict_of
from solver.formulate import Formulation, formulate
from solver.levels import levels
from solver.missing import count
from solver.mixtures import Mixtures, mixture
from solver.numerics import FloatArray
from solver.outcome import Outcome, Plan
from solver.printing import print_amounts
from solver.solved import ChainEnd
from solver.task import Task

#: How often a mixture is assumed and counted again.
ROUNDS = 6

#: Part of the time left that one round may take.
SHARE_OF_TIME = 0.3


def is_careful(formulation: Formulation) -> bool:
    """Whether a must takes the worst of several sources."""
    return any(side.guarded for side in formulation.layout.sides if side.target.priority is None)


def by_mixture(task: Task) -> Outcome:
    """The answer to a brief that has no plan by the worst source of its drippings."""
    hopeful = _formulation(task, Mixtures(hopeful=True))
    end = _end(replace(task, formulation=hopeful))
    if end.x is None:
        if end.status in NO_PLAN:
            return conflict_of(replace(task, formulation=hopeful), on_grid=False)
        return undecided_of_mixture(task)
    grams = _grams(hopeful, end.x)
    for _ in range(ROUNDS):
        found = _round(task, grams)
        if not isinstance(found, np.ndarray):
            return found or undecided_of_mixture(task)
        grams = found
    return undecided_of_mixture(task)


def _round(task: Task, grams: FloatArray) -> Plan | FloatArray | None:
    """A plan; or the grams whose mixture to assume next; None where the mixture of `grams` has no plan."""
    board = task.formulation.layout.board
    mixed = {pan.component.name: mixture(pan, board.raw, grams) for pan in board.pans}
    given = {name: row for name, row in mixed.items() if row is not None}
    posed = _formulation(task, Mixtures(given=given))
    chain = Chain(task.backend, posed)
    try:
        end = chain.run(levels(posed), task.deadline.share(SHARE_OF_TIME))
        if end.x is None:
            return None
        printed = print_amounts(chain, end, posed, task.backend, task.deadline.share(SHARE_OF_TIME))
    finally:
        chain.close()
    if printed.amounts is None:
        return _grams(posed, end.x)
    dish = printed_dish(posed, printed.amounts)
    if not dish.missed:
        return plan_of_mixture(task, dish)
    return printed.amounts * posed.layout.unit_g


def _formulation(task: Task, mixtures: Mixtures) -> Formulation:
    """All mixes are posed exactly, so that no round pretends anything but the mixture."""
    brief = task.brief
    exact = task.formulation.exact | mixes_left(task.formulation)
    return formulate(brief, count(brief), exact=exact, mixtures=mixtures)


def _end(task: Task) -> ChainEnd:
    chain = Chain(task.backend, task.formulation)
    try:
        return chain.run(levels(task.formulation), task.deadline.share(SHARE_OF_TIME))
    finally:
        chain.close()


def _grams(formulation: Formulation, x: FloatArray) -> FloatArray:
    layout = formulation.layout
    return np.asarray(x[layout.use_columns] * layout.unit_g)
