"""GET /healthz and /readyz: whether the process answers, and whether it can plan."""

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Response
from pydantic import Field

from service.capacity import Capacity
from service.lanes import Busy
from service.planner import Planner
from service.schemas.base import Outgoing
from service.schemas.problem import ProblemDocument

#: What was true a moment ago is of no use; RFC 9111, section 5.2.2.5.
_NEVER_KEPT = {"Cache-Control": "no-store"}

_ENDING: dict[int | str, dict[str, Any]] = {
    503: {"model": ProblemDocument, "description": "The service is about to end, and takes no more briefs."}
}


class Health(Outgoing):
    """The process answers."""

    status: Literal["ok"]
    """Always `ok`; a process that is not does not answer."""


class Readiness(Outgoing):
    """What a plan needs is loaded: the food table and a solver."""

    status: Literal["ready"]
    """Always `ready`: the service listens only once it is. When every place is taken it still is; a brief then waits,
    or is sent away with 503. A service that is about to end answers 503 here as well."""
    foods: Annotated[int, Field(examples=[6784])]
    """How many reference foods are loaded."""
    solver: Annotated[str, Field(examples=["highs"])]
    """The solver."""
    solver_version: Annotated[str, Field(examples=["1.16.0"])]
    """Its version."""


def health_router(planner: Planner, capacity: Capacity) -> APIRouter:
    """The routes. They never wait for a solve."""
    router = APIRouter(tags=["health"])
    ready = Readiness(
        status="ready",
        foods=len(planner.catalogue),
        solver=planner.backend.name,
        solver_version=planner.backend.version,
    )

    @router.get("/healthz", summary="Whether the process answers")
    async def healthz(response: Response) -> Health:
        """Answers at once."""
        response.headers.update(_NEVER_KEPT)
        return Health(status="ok")

    @router.get("/readyz", summary="Whether the service can plan", responses=_ENDING)
    async def readyz(response: Response) -> Readiness:
        """Answers at once, whatever is being solved."""
        if capacity.is_closed:
            raise Busy
        response.headers.update(_NEVER_KEPT)
        return ready

    return router
