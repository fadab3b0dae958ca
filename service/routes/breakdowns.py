"""POST /v1/breakdowns: the numbers of a dish as it is."""

from functools import partial
from typing import Annotated

from fastapi import APIRouter, Body, Request, Response
from fastapi.openapi.models import Example

from service.arrival import deadline_of
from service.capacity import Capacity
from service.intake import strict_json_route
from service.lanes import Kind
from service.planner import Planner
from service.represented import REPRESENTATIONS, InWantedForm
from service.routes.plans import BODY_REFUSALS, BUSY
from service.schemas.breakdown import BreakdownAnswer
from service.schemas.breakdown_body import BreakdownBody
from service.schemas.problem import ProblemDocument
from service.stages import stages_of

_REFUSALS = {**BODY_REFUSALS, 422: "The dish cannot be broken down as it is; every problem found is listed.", **BUSY}


def breakdowns_router(planner: Planner, capacity: Capacity, examples: dict[str, Example]) -> APIRouter:
    """The route, over what a planner holds. examples: the named dishes that the documentation shows."""
    router = APIRouter(prefix="/v1", tags=["dishes"], route_class=strict_json_route(planner.settings, capacity))

    @router.post(
        "/breakdowns",
        summary="The numbers of a dish as it is",
        response_model=BreakdownAnswer,
        responses={
            **REPRESENTATIONS,
            **{status: {"model": ProblemDocument, "description": text} for status, text in _REFUSALS.items()},
        },
    )
    async def break_down(
        body: Annotated[BreakdownBody, Body(openapi_examples=examples)], request: Request, wanted: InWantedForm
    ) -> BreakdownAnswer | Response:
        """Batch, portion and 100 g on every energy basis, who brings what, and an audit of declared numbers."""
        deadline = deadline_of(request, planner.settings.time_limit_ceiling_s)
        work = stages_of(request).around(partial(planner.broken_down, wanted.with_nutrition(body)))
        return await wanted.of(await capacity.run(work, deadline, Kind.LINEAR))

    return router
