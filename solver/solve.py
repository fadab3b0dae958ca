"""The one way through: a usable brief is formulated, solved level by level, printed, verified and answered.

Whatever happens in between, amounts leave only through `verify`; a conflict leaves with a checked proof or is marked
as the solver's claim; when the clock ends first, the best plan so far is the answer.
"""

from dataclasses import replace

from solver.answer import plan_of, printed_dish, undecided_of, undecided_of_tolerance
from solver.backends.base import Backend, Status
from solver.brief import Brief
from solver.by_mixture import by_mixture, is_careful
from solver.chain import Chain
from solver.conflict import NO_PLAN
from solver.deadline import Deadline
from solver.errors import BackendError
from solver.exactness import mixes_left, overstated
from solver.explain import conflict_of
from solver.formulate import formulate
from solver.levels import levels
from solver.missing import count
from solver.outcome import Conflict, Outcome
from solver.printing import print_amounts
from solver.solved import ChainEnd
from solver.task import Task
from solver.usable import refuse_left_out, refuse_unusable
from solver.watch import Watch

#: Part of the time that the levels may take, so that some is left for printing and for explaining.
LEVELS_SHARE = 0.8


def solve(brief: Brief, backend: Backend, deadline: Deadline | None = None, *, watch: Watch | None = None) -> Outcome:
    """Answer a brief.

    deadline: when all must be done; by default the brief's own time limit from now. watch: shown how far it is.
    Raises UnusableBrief for a brief to mend, BackendError or VerificationError when a solver breaks or lies.
    """
    refuse_unusable(brief)
    counted = count(brief)
    refuse_left_out(brief, counted)
    task = Task.started(formulate(brief, counted), backend, deadline or Deadline.after(brief.time_limit_s), watch)
    while True:
        found = _attempt(task)
        if isinstance(found, Conflict) and brief.holds is None and is_careful(task.formulation):
            return by_mixture(task)
        if not isinstance(found, frozenset):
            return found
        exact = formulate(brief, counted, exact=task.formulation.exact | found)
        task = replace(task, formulation=exact)


def _attempt(task: Task) -> Outcome | frozenset[str]:
    """The answer, or the mixes that have to be posed exactly first."""
    chain = Chain(task.backend, task.formulation)
    try:
        end = chain.run(levels(task.formulation), task.deadline.share(LEVELS_SHARE), task.watch)
        inexact = overstated(task.formulation, end.solved, end.freed) if end.solved else frozenset()
        return inexact or _outcome(task, chain, end)
    finally:
        chain.close()


def _outcome(task: Task, chain: Chain, end: ChainEnd) -> Outcome | frozenset[str]:
    if end.x is None:
        return _without_plan(task, end.status, on_grid=False)
    printed = print_amounts(chain, end, task.formulation, task.backend, task.deadline)
    if printed.amounts is None:
        # Printing looks no further than the linear rows do; with the curves posed exactly it may find more.
        return mixes_left(task.formulation) or _without_plan(task, printed.status, on_grid=True)
    pans = task.brief.holds is not None and bool(task.formulation.layout.pan_numbers)
    if pans and printed_dish(task.formulation, printed.amounts).missed:
        return undecided_of_tolerance(task)
    return plan_of(task, end, printed.amounts, printed.freed)


def _without_plan(task: Task, status: Status, *, on_grid: bool) -> Outcome:
    if status in NO_PLAN:
        return conflict_of(task, on_grid=on_grid)
    if status in {Status.FAILED, Status.UNBOUNDED}:
        raise BackendError(f"{task.backend.name} ended a solve as {status.value}")
    return undecided_of(task, on_grid=on_grid)
