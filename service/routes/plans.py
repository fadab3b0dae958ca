"""POST /v1/plans: a brief in, one of three answers out."""

from functools import partial
from typing import Annotated

import anyio.to_thread
from fastapi import APIRouter, Body, Request
from fastapi.openapi.models import Example

from service.capacity import Capacity
from service.departure import unless_the_client_leaves
from service.intake import strict_json_route
from service.planner import Planner
from service.schemas.answer import Answer
from service.schemas.brief import BriefBody
from service.schemas.problem import ProblemDocument
from solver.backends.stop import Stop
from solver.deadline import Deadline

#: What any request with a body may be refused for.
BODY_REFUSALS = {
    400: "The body is no JSON that can be read.",
    408: "The body did not come in time.",
    413: "The body is too large.",
    415: "The body is not declared as JSON.",
}

_REFUSALS = {
    **BODY_REFUSALS,
    422: "The brief cannot be used as it is; every problem found is listed.",
    503: "Too many briefs are waiting; ask again after the seconds in Retry-After.",
}


def plans_router(planner: Planner, capacity: Capacity, examples: dict[str, Example]) -> APIRouter:
    """The route, over a planner and its capacity. examples: the named briefs that the documentation shows."""
    router = APIRouter(prefix="/v1", tags=["plans"], route_class=strict_json_route(planner.settings))

    @router.post(
        "/plans",
        summary="Make a plan from a brief",
        response_description="An answer; `outcome` says which of the three it is.",
        responses={
            status: {"model": ProblemDocument, "description": description} for status, description in _REFUSALS.items()
        },
    )
    async def make_plan(body: Annotated[BriefBody, Body(openapi_examples=examples)], request: Request) -> Answer:
        """A verified plan, a conflict that says why there is none, or undecided within the time limit."""
        deadline = Deadline.after(body.time_limit_s)
        asked = await anyio.to_thread.run_sync(planner.asked, body)  # looking for near names takes a while
        stop = Stop()
        work = partial(capacity.run, partial(planner.answer, asked, deadline, stop), deadline)
        answer = await unless_the_client_leaves(request.receive, work, stop.set)
        request.state.outcome = answer.outcome  # for the log's line about this request
        return answer

    return router
