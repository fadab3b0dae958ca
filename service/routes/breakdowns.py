"""POST /v1/breakdowns: the numbers of a dish as it is."""

from typing import Annotated

import anyio.to_thread
from fastapi import APIRouter, Body
from fastapi.openapi.models import Example

from service.intake import strict_json_route
from service.planner import Planner
from service.routes.plans import BODY_REFUSALS
from service.schemas.breakdown import BreakdownAnswer
from service.schemas.breakdown_body import BreakdownBody
from service.schemas.problem import ProblemDocument

_REFUSALS = {**BODY_REFUSALS, 422: "The dish cannot be broken down as it is; every problem found is listed."}


def breakdowns_router(planner: Planner, examples: dict[str, Example]) -> APIRouter:
    """The route, over what a planner holds. examples: the named dishes that the documentation shows."""
    router = APIRouter(prefix="/v1", tags=["dishes"], route_class=strict_json_route(planner.settings))

    @router.post(
        "/breakdowns",
        summary="The numbers of a dish as it is",
        responses={
            status: {"model": ProblemDocument, "description": description} for status, description in _REFUSALS.items()
        },
    )
    async def break_down(body: Annotated[BreakdownBody, Body(openapi_examples=examples)]) -> BreakdownAnswer:
        """Batch, portion and 100 g on every energy basis, who brings what, and an audit of declared numbers."""
        return await anyio.to_thread.run_sync(planner.broken_down, body)

    return router
