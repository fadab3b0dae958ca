"""POST /v1/plans: a brief in, one of three answers out."""

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
from service.schemas.answer import Answer
from service.schemas.brief import BriefBody
from service.schemas.problem import ProblemDocument
from service.weight import kind_of
from service.work.answered import ACCEPTED, answered
from service.work.job import Job
from service.work.run import Runner
from solver.backends.stop import Stop
from solver.deadline import Deadline
from solver.watch import Watch

#: What any request with a body may be refused for.
BODY_REFUSALS = {
    400: "The body is no JSON that can be read.",
    406: "Accept allows none of the forms that answers have.",
    408: "The body did not come in time.",
    413: "The body is too large.",
    415: "The body is not declared as JSON.",
}

#: What any request for work may be told.
BUSY = {503: "Too many requests are waiting; ask again after the seconds in Retry-After."}

_REFUSALS = {
    **BODY_REFUSALS,
    422: "The brief cannot be used as it is; every problem found is listed.",
    **BUSY,
}


def plans_router(planner: Planner, runner: Runner, examples: dict[str, Example]) -> APIRouter:
    """The route, over a planner and who runs its work. examples: the named briefs that the documentation shows."""
    router = APIRouter(prefix="/v1", tags=["plans"], route_class=strict_json_route(planner.settings, runner.capacity))

    @router.post(
        "/plans",
        summary="Make a plan from a brief",
        response_description="An answer; `outcome` says which of the three it is.",
        response_model=Answer,
        responses={
            **REPRESENTATIONS,
            **ACCEPTED,
            **{status: {"model": ProblemDocument, "description": text} for status, text in _REFUSALS.items()},
        },
    )
    async def make_plan(
        body: Annotated[BriefBody, Body(openapi_examples=examples)],
        request: Request,
        wanted: InWantedForm,
        preference: InPreference,
    ) -> Carded | Response:
        """A verified plan, a conflict that says why there is none, or undecided within the time limit."""
        deadline = deadline_of(request, body.time_limit_s)
        work = partial(_answered, planner, wanted.with_nutrition(body), deadline)
        return await answered(request, Job("plan", work, deadline, kind_of(body)), wanted, preference, runner)

    return router


def _answered(planner: Planner, body: BriefBody, deadline: Deadline, stop: Stop, watch: Watch | None) -> Answer:
    """Reading the brief is part of the work: to look for names that are near a wrong one takes a while."""
    return planner.answer(planner.asked(body), deadline, stop, watch)
