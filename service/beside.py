"""What is looked for beside a plan or a conflict: what limits are worth, other good plans, ways out."""

from service.translate.asked import Asked
from service.translate.beside import Beside, may_be_added
from service.translate.reference import Reference
from solver.alternatives import alternatives
from solver.backends.base import Backend
from solver.deadline import Deadline
from solver.holds_carried import carried
from solver.in_the_way import in_the_way as wishes_in_the_way
from solver.outcome import Conflict, Outcome, Plan
from solver.ways_out import ways_out
from solver.worth import worth

#: Seconds that it may take to find how much of a tolerance a pantry can carry, and the part of the time left.
CARRIED_S, CARRIED_SHARE = 1.0, 0.6

#: Seconds that it may take to find what stands in the way of wishes, and the part of the time left.
IN_THE_WAY_S, IN_THE_WAY_SHARE = 0.5, 0.4


def look_beside(
    asked: Asked,
    outcome: Outcome,
    reference: Reference,
    backend: Backend,
    deadline: Deadline,
    *,
    ways_out_time_s: float,
) -> Beside:
    """All that was asked for and can be found by the deadline; the ways out of a conflict within their own limit."""
    match outcome:
        case Plan():
            return _beside_plan(asked, outcome, backend, deadline)
        case Conflict():
            held = Deadline.after(min(CARRIED_S, CARRIED_SHARE * deadline.remaining_s()))
            much = None if asked.brief.holds is None else carried(asked.brief, backend, held)
            soon = Deadline.after(min(ways_out_time_s, deadline.remaining_s()))
            ways = ways_out(outcome, may_be_added(asked, reference), backend, soon)
            return Beside(ways_out=ways, carried=much)
        case _:
            return Beside()


def _beside_plan(asked: Asked, plan: Plan, backend: Backend, deadline: Deadline) -> Beside:
    soon = Deadline.after(min(IN_THE_WAY_S, IN_THE_WAY_SHARE * deadline.remaining_s()))
    in_the_way = wishes_in_the_way(plan, backend, soon)
    first = deadline.share(0.5) if asked.say_worth and asked.alternatives else deadline
    return Beside(
        in_the_way=in_the_way,
        worth=worth(plan, backend, first) if asked.say_worth else None,
        others=alternatives(plan, asked.alternatives, backend, deadline) if asked.alternatives else None,
    )
