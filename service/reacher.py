"""What a pantry can do, from the body of a request to its answer: what the HTTP face and the command line share."""

from service.planner import Planner
from service.schemas.reach import ReachAnswer, ReachBody
from service.translate.reach import to_asked_reach, to_reach
from solver.backends.stop import Stop
from solver.deadline import Deadline
from solver.reach_whole import reach


def reached(planner: Planner, body: ReachBody, deadline: Deadline, stop: Stop | None = None) -> ReachAnswer:
    """Look for what can be reached. Raises UnusableBrief. stop: ends it before its deadline."""
    wanted = to_asked_reach(body, planner.reference, planner.settings)
    backend = planner.backend if stop is None else stop.watching(planner.backend)
    found = reach(wanted.asked.brief, wanted.targets, wanted.frontier, backend, deadline)
    return to_reach(wanted, found, planner.reference)
