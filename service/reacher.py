"""What a pantry can do, from the body of a request to its answer: what the HTTP face and the command line share."""

from service.planner import Planner
from service.schemas.reach import ReachAnswer, ReachBody
from service.translate.reach import to_asked_reach, to_reach
from solver.backends.stop import Stop
from solver.deadline import Deadline
from solver.reach_whole import reach
from solver.watch import Watch


def reached(
    planner: Planner, body: ReachBody, deadline: Deadline, stop: Stop | None = None, _: Watch | None = None
) -> ReachAnswer:
    """Look for what can be reached: many short solves, so there is nothing to watch. Raises UnusableBrief.

    stop: ends it before its deadline.
    """
    wanted = to_asked_reach(body, planner.reference, planner.settings)
    with planner.keeper.asked("reach", body, planner.backend, stop) as kept:
        found = reach(wanted.asked.brief, wanted.targets, wanted.frontier, kept.backend, deadline)
        answer = to_reach(wanted, found, planner.reference)
        kept.undecided = answer if _is_undecided(answer) else None
    return answer


def _is_undecided(answer: ReachAnswer) -> bool:
    """Whether the clock ended the search for an end of a range, or of the frontier."""
    ends = [end for each in answer.ranges for end in (each.least, each.most)]
    partly = answer.frontier is not None and not answer.frontier.complete
    return partly or any(end.status == "best_found" for end in ends)
