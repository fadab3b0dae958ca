"""One dish made anew, from the body of a request to its answer: what the HTTP face and the command line share."""

from service.beside import look_beside
from service.planner import Planner
from service.schemas.rework import ReworkAnswer, ReworkBody
from service.translate.rework import AskedRework, to_asked_rework
from service.translate.substitutes import search_of, to_substitutes, to_together
from service.translate.to_answer import to_answer
from service.translate.to_rework import to_rework
from solver.backends.base import Backend
from solver.backends.stop import Stop
from solver.deadline import Deadline
from solver.rework import rework
from solver.watch import Watch

#: Seconds that looking for substitutes may take, of what is left (our choice).
SUBSTITUTES_S = 1.0


def reworked(
    planner: Planner, body: ReworkBody, deadline: Deadline, stop: Stop | None = None, watch: Watch | None = None
) -> ReworkAnswer:
    """Make a dish anew. Raises UnusableBrief. stop: ends it before its deadline. watch: shown how far it is."""
    wanted = to_asked_rework(body, planner.reference, planner.settings)
    with planner.keeper.asked("rework", body, planner.backend, stop) as kept:
        answer = _answered(wanted, planner, kept.backend, deadline, watch)
        kept.undecided = answer if answer.outcome == "undecided" else None
    return answer


def _answered(
    wanted: AskedRework, planner: Planner, backend: Backend, deadline: Deadline, watch: Watch | None
) -> ReworkAnswer:
    found = rework(wanted.rework, backend, deadline, planner.solve, watch)
    limit_s = planner.settings.ways_out_time_s
    beside = look_beside(wanted.asked, found.outcome, planner.reference, backend, deadline, ways_out_time_s=limit_s)
    by = Deadline.after(min(deadline.remaining_s(), SUBSTITUTES_S))
    search = search_of(wanted, found, planner.reference)
    stand_ins = search.found(backend, by)
    together = search.together(stand_ins, backend, by)
    return to_rework(
        found,
        to_answer(wanted.asked, found.outcome, planner.reference, beside),
        asked=wanted.asked.brief,
        substitutes=to_substitutes(stand_ins, wanted, planner.reference),
        together=to_together(together, wanted, planner.reference),
        scaling=wanted.scaling,
    )
