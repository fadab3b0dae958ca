"""POST /v1/reach: what a pantry can do under the musts of a brief."""

from functools import partial
from typing import Annotated

from fastapi import APIRouter, Body, Request, Response
from fastapi.openapi.models import Example

from service.arrival import deadline_of
from service.capacity import Capacity
from service.departure import unless_the_client_leaves
from service.intake import strict_json_route
from service.planner import Planner
from service.reacher import reached
from service.represented import REPRESENTATIONS, InWantedForm
from service.routes.plans import BODY_REFUSALS, BUSY
from service.schemas.problem import ProblemDocument
from service.schemas.reach import ReachAnswer, ReachBody
from solver.backends.stop import Stop

_REFUSALS = {
    **BODY_REFUSALS,
    422: "The brief cannot be used as it is; every problem found is listed.",
    **BUSY,
}


def reach_router(planner: Planner, capacity: Capacity, examples: dict[str, Example]) -> APIRouter:
    """The route, over a planner and its capacity. examples: what the documentation shows."""
    router = APIRouter(prefix="/v1", tags=["plans"], route_class=strict_json_route(planner.settings, capacity))

    @router.post(
        "/reach",
        summary="What can this pantry do?",
        response_model=ReachAnswer,
        responses={
            **REPRESENTATIONS,
            **{status: {"model": ProblemDocument, "description": text} for status, text in _REFUSALS.items()},
        },
    )
    async def reach_of(
        body: Annotated[ReachBody, Body(openapi_examples=examples)], request: Request, wanted: InWantedForm
    ) -> ReachAnswer | Response:
        """The range of each target while the other musts hold, and two targets held against each other."""
        deadline = deadline_of(request, body.brief.time_limit_s)
        stop = Stop()
        work = partial(capacity.run, partial(reached, planner, body, deadline, stop), deadline)
        return await wanted.of(await unless_the_client_leaves(request.receive, work, stop.set))

    return router
