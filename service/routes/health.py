"""GET /healthz: whether the process answers."""

from typing import Literal

from fastapi import APIRouter

from service.schemas.base import Outgoing


class Health(Outgoing):
    """The process answers."""

    status: Literal["ok"]
    """Always `ok`; a process that is not does not answer."""


def health_router() -> APIRouter:
    """The route. It never waits for a solve."""
    router = APIRouter(tags=["health"])

    @router.get("/healthz", summary="Whether the process answers")
    async def healthz() -> Health:
        """Answers at once."""
        return Health(status="ok")

    return router
