"""One dish made anew, from the body of a request to its answer: what the HTTP face and the command line share."""

from service.beside import look_beside
from service.planner import Planner
from service.schemas.rework import ReworkAnswer, ReworkBody
from service.translate.rework import to_asked_rework
from service.translate.substitutes import search_of, to_substitutes
from service.translate.to_answer import to_answer
from service.translate.to_rework import to_rework
from solver.backends.stop import Stop
from solver.deadline import Deadline
from solver.rework import rework

#: Seconds that looking for substitutes may take, of what is left (our choice).
SUBSTITUTES_S = 1.0


def reworked(planner: Planner, body: ReworkBody, deadline: Deadline, stop: Stop | None = None) -> ReworkAnswer:
    """Make a dish anew. Raises UnusableBrief. stop: ends it before its deadline."""
    wanted = to_asked_rework(body, planner.reference, planner.settings)
    backend = planner.backend if stop is None else stop.watching(planner.backend)
    found = rework(wanted.rework, backend, deadline, planner.solve)
    limit_s = planner.settings.ways_out_limit_s
    beside = look_beside(wanted.asked, found.outcome, planner.reference, backend, deadline, ways_out_limit_s=limit_s)
    by = Deadline.after(min(deadline.remaining_s(), SUBSTITUTES_S))
    stand_ins = search_of(wanted, found, planner.reference).found(backend, by)
    answer = to_answer(wanted.asked, found.outcome, planner.reference, beside)
    return to_rework(found, answer, to_substitutes(stand_ins, wanted, planner.reference))
