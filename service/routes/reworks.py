"""POST /v1/reworks: a dish that was tasted in, the least change that mends it out."""

from functools import partial
from typing import Annotated

from fastapi import APIRouter, Body, Request, Response
from fastapi.openapi.models import Example

from service.arrival import deadline_of
from service.capacity import Capacity
from service.departure import unless_the_client_leaves
from service.intake import strict_json_route
from service.planner import Planner
from service.represented import REPRESENTATIONS, InWantedForm
from service.reworker import reworked
from service.routes.plans import BODY_REFUSALS, BUSY
from service.schemas.problem import ProblemDocument
from service.schemas.rework import ReworkAnswer, ReworkBody
from solver.backends.stop import Stop

_REFUSALS = {
    **BODY_REFUSALS,
    422: "The dish, or what is said of it, cannot be used as it is; every problem found is listed.",
    **BUSY,
}


def reworks_router(planner: Planner, capacity: Capacity, examples: dict[str, Example]) -> APIRouter:
    """The route, over a planner and its capacity. examples: what the documentation shows."""
    router = APIRouter(prefix="/v1", tags=["plans"], route_class=strict_json_route(planner.settings, capacity))

    @router.post(
        "/reworks",
        summary="Make a dish anew after tasting",
        response_model=ReworkAnswer,
        responses={
            **REPRESENTATIONS,
            **{status: {"model": ProblemDocument, "description": text} for status, text in _REFUSALS.items()},
        },
    )
    async def make_anew(
        body: Annotated[ReworkBody, Body(openapi_examples=examples)], request: Request, wanted: InWantedForm
    ) -> ReworkAnswer | Response:
        """The dish with the least change that does what the cook says, and why each amount changed."""
        deadline = deadline_of(request, body.brief.time_limit_s)
        stop = Stop()
        work = partial(capacity.run, partial(reworked, planner, body, deadline, stop), deadline)
        answer = await unless_the_client_leaves(request.receive, work, stop.set)
        request.state.outcome = answer.outcome  # for the log's line about this request
        return await wanted.of(answer)

    return router
