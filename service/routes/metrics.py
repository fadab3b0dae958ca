"""GET /metrics: what the service has done, for Prometheus."""

from fastapi import APIRouter
from fastapi.responses import Response

from service.metrics import Metrics
from service.metrics_text import MEDIA_TYPE, as_text


def metrics_router(metrics: Metrics) -> APIRouter:
    """The route."""
    router = APIRouter(include_in_schema=False)

    @router.get("/metrics")
    async def show_metrics() -> Response:
        """Over all workers."""
        return Response(as_text(metrics), media_type=MEDIA_TYPE, headers={"Cache-Control": "no-store"})

    return router
