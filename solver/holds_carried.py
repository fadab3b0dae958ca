"""How much of what a brief has to hold within its pantry can carry.

The boxes of smaller parts lie in those of larger ones, so that what holds for a part holds for all smaller ones, and
the greatest part is found by halving. Each test is a whole solve: the answer is a part that a verified plan holds
for, and a part above it, by no more than `GAP`, that has none.
"""

from dataclasses import dataclass, replace

from solver.backends.base import Backend
from solver.brief import Brief
from solver.deadline import Deadline
from solver.outcome import Conflict, Outcome, Plan
from solver.solve import solve

#: Part of the tolerance that may lie between what is carried and what is not.
GAP = 1e-3

#: Part of the time left that one test may take.
SHARE_OF_TIME = 0.25


@dataclass(frozen=True, slots=True)
class Carried:
    """part: of what was asked, 0 to 1, that `plan` holds for. not_above: a part for which there is no plan.

    proven: whether every test was decided in time; otherwise the pantry may carry more than `part`.
    """

    part: float
    not_above: float
    plan: Plan
    proven: bool


def carried(brief: Brief, backend: Backend, deadline: Deadline) -> Carried | None:
    """The greatest part that has a plan, to GAP; None where even the composition as stated has none, or time is up."""
    plan = _at(brief, 0.0, backend, deadline)
    if brief.holds is None or not isinstance(plan, Plan):
        return None
    part, not_above, proven = 0.0, 1.0, True
    while not_above - part > GAP and deadline.remaining_s() > 0:
        middle = (part + not_above) / 2
        found = _at(brief, middle, backend, deadline)
        if isinstance(found, Plan):
            part, plan = middle, found
        else:
            not_above, proven = middle, proven and isinstance(found, Conflict)
    return Carried(part, not_above, plan, proven and not_above - part <= GAP)


def _at(brief: Brief, part: float, backend: Backend, deadline: Deadline) -> Outcome | None:
    if brief.holds is None or deadline.remaining_s() <= 0:
        return None
    holds = replace(brief.holds, scale=brief.holds.scale * part)
    return solve(replace(brief, holds=holds), backend, deadline.share(SHARE_OF_TIME))
