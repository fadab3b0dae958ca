"""POST /v1/reach: what a pantry can do under the musts of a brief."""

from functools import partial
from typing import Annotated

import anyio.to_thread
from fastapi import APIRouter, Body, Request
from fastapi.openapi.models import Example

from service.capacity import Capacity
from service.departure import unless_the_client_leaves
from service.intake import strict_json_route
from service.planner import Planner
from service.routes.plans import BODY_REFUSALS
from service.schemas.problem import ProblemDocument
from service.schemas.reach import ReachAnswer, ReachBody
from service.translate.reach import AskedReach, to_asked_reach, to_reach
from solver.backends.stop import Stop
from solver.deadline import Deadline
from solver.reach_whole import reach

_REFUSALS = {
    **BODY_REFUSALS,
    422: "The brief cannot be used as it is; every problem found is listed.",
    503: "Too many briefs are waiting; ask again after the seconds in Retry-After.",
}


def reach_router(planner: Planner, capacity: Capacity, examples: dict[str, Example]) -> APIRouter:
    """The route, over a planner and its capacity. examples: what the documentation shows."""
    router = APIRouter(prefix="/v1", tags=["plans"], route_class=strict_json_route(planner.settings))

    @router.post(
        "/reach",
        summary="What can this pantry do?",
        responses={
            status: {"model": ProblemDocument, "description": description} for status, description in _REFUSALS.items()
        },
    )
    async def reach_of(body: Annotated[ReachBody, Body(openapi_examples=examples)], request: Request) -> ReachAnswer:
        """The range of each target while the other musts hold, and two targets held against each other."""
        deadline = Deadline.after(body.brief.time_limit_s)
        wanted = await anyio.to_thread.run_sync(to_asked_reach, body, planner.reference, planner.settings)
        stop = Stop()
        work = partial(capacity.run, partial(_reached, planner, wanted, deadline, stop), deadline)
        return await unless_the_client_leaves(request.receive, work, stop.set)

    return router


def _reached(planner: Planner, wanted: AskedReach, deadline: Deadline, stop: Stop) -> ReachAnswer:
    backend = stop.watching(planner.backend)
    found = reach(wanted.asked.brief, wanted.targets, wanted.frontier, backend, deadline)
    return to_reach(wanted, found, planner.reference)
