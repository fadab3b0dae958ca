"""POST /v1/reworks: a dish that was tasted in, the least change that mends it out."""

from functools import partial
from typing import Annotated

from fastapi import APIRouter, Body, Request, Response
from fastapi.openapi.models import Example

from service.arrival import deadline_of
from service.cards.formats import Carded
from service.intake import strict_json_route
from service.planner import Planner
from service.preference import InPreference
from service.represented import REPRESENTATIONS, InWantedForm
from service.reworker import reworked
from service.routes.plans import BODY_REFUSALS, BUSY
from service.schemas.problem import ProblemDocument
from service.schemas.rework import ReworkAnswer, ReworkBody
from service.work.answered import ACCEPTED, answered
from service.work.job import Job
from service.work.run import Runner

_REFUSALS = {
    **BODY_REFUSALS,
    422: "The dish, or what is said of it, cannot be used as it is; every problem found is listed.",
    **BUSY,
}


def reworks_router(planner: Planner, runner: Runner, examples: dict[str, Example]) -> APIRouter:
    """The route, over a planner and who runs its work. examples: what the documentation shows."""
    router = APIRouter(prefix="/v1", tags=["plans"], route_class=strict_json_route(planner.settings, runner.capacity))

    @router.post(
        "/reworks",
        summary="Make a dish anew after tasting",
        response_model=ReworkAnswer,
        responses={
            **REPRESENTATIONS,
            **ACCEPTED,
            **{status: {"model": ProblemDocument, "description": text} for status, text in _REFUSALS.items()},
        },
    )
    async def make_anew(
        body: Annotated[ReworkBody, Body(openapi_examples=examples)],
        request: Request,
        wanted: InWantedForm,
        preference: InPreference,
    ) -> Carded | Response:
        """The dish with the least change that does what the cook says, and why each amount changed."""
        deadline = deadline_of(request, body.brief.time_limit_s)
        job = Job("rework", partial(reworked, planner, wanted.with_nutrition(body), deadline), deadline)
        return await answered(request, job, wanted, preference, runner)

    return router
