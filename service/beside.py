"""What is looked for beside a plan or a conflict: what limits are worth, other good plans, ways out."""

from service.translate.asked import Asked
from service.translate.beside import Beside, may_be_added
from service.translate.reference import Reference
from solver.alternatives import alternatives
from solver.backends.base import Backend
from solver.deadline import Deadline
from solver.outcome import Conflict, Outcome, Plan
from solver.ways_out import ways_out
from solver.worth import worth

#: Seconds that the ways out of a conflict may take, where the deadline leaves them.
WAYS_OUT_S = 0.5


def look_beside(asked: Asked, outcome: Outcome, reference: Reference, backend: Backend, deadline: Deadline) -> Beside:
    """All that was asked for and can be found by the deadline."""
    match outcome:
        case Plan():
            return _beside_plan(asked, outcome, backend, deadline)
        case Conflict():
            soon = Deadline.after(min(WAYS_OUT_S, deadline.remaining_s()))
            return Beside(ways_out=ways_out(outcome, may_be_added(asked, reference), backend, soon))
        case _:
            return Beside()


def _beside_plan(asked: Asked, plan: Plan, backend: Backend, deadline: Deadline) -> Beside:
    first = deadline.share(0.5) if asked.say_worth and asked.alternatives else deadline
    return Beside(
        worth=worth(plan, backend, first) if asked.say_worth else None,
        others=alternatives(plan, asked.alternatives, backend, deadline) if asked.alternatives else None,
    )
