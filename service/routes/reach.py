"""POST /v1/reach: what a pantry can do under the musts of a brief."""

from functools import partial
from typing import Annotated

from fastapi import APIRouter, Body, Request, Response
from fastapi.openapi.models import Example

from service.arrival import deadline_of
from service.cards.formats import Carded
from service.intake import strict_json_route
from service.planner import Planner
from service.preference import InPreference
from service.reacher import reached
from service.represented import REPRESENTATIONS, InWrittenForm
from service.routes.plans import BODY_REFUSALS, BUSY
from service.schemas.problem import ProblemDocument
from service.schemas.reach import ReachAnswer, ReachBody
from service.work.answered import ACCEPTED, answered
from service.work.job import Job
from service.work.run import Runner

_REFUSALS = {
    **BODY_REFUSALS,
    422: "The brief cannot be used as it is; every problem found is listed.",
    **BUSY,
}


def reach_router(planner: Planner, runner: Runner, examples: dict[str, Example]) -> APIRouter:
    """The route, over a planner and who runs its work. examples: what the documentation shows."""
    router = APIRouter(prefix="/v1", tags=["plans"], route_class=strict_json_route(planner.settings, runner.capacity))

    @router.post(
        "/reach",
        summary="What can this pantry do?",
        response_model=ReachAnswer,
        responses={
            **REPRESENTATIONS,
            **ACCEPTED,
            **{status: {"model": ProblemDocument, "description": text} for status, text in _REFUSALS.items()},
        },
    )
    async def reach_of(
        body: Annotated[ReachBody, Body(openapi_examples=examples)],
        request: Request,
        wanted: InWrittenForm,
        preference: InPreference,
    ) -> Carded | Response:
        """The range of each target while the other musts hold, and two targets held against each other."""
        deadline = deadline_of(request, body.brief.time_limit_s)
        job = Job("reach", partial(reached, planner, body, deadline), deadline)
        return await answered(request, job, wanted, preference, runner)

    return router
