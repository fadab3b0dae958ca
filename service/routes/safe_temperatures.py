"""GET /v1/safe-temperatures says how hot the centre of a food has to get, by whose chart."""

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query

from service.schemas.cautions import SafeTemperatures
from service.schemas.problem import ProblemDocument
from service.translate.cautions import TemperaturesOf

_REFUSED: dict[int | str, dict[str, Any]] = {
    422: {"model": ProblemDocument, "description": "The profile is none of the three, or the food is too long."},
}

_Profile = Annotated[
    Literal["us consumer", "us retail", "uk"],
    Query(description="Whose chart; charts are never mixed.", examples=["us consumer"]),
]
_Food = Annotated[
    str | None,
    Query(max_length=100, description="Only rows in which all these words stand.", examples=["chicken"]),
]


def safe_temperatures_router(temperatures_of: TemperaturesOf) -> APIRouter:
    """The route, over the charts."""
    router = APIRouter(prefix="/v1", tags=["foods"])

    @router.get("/safe-temperatures", summary="How hot the centre has to get", responses=_REFUSED)
    def show_safe_temperatures(profile: _Profile = "us consumer", food: _Food = None) -> SafeTemperatures:
        """Least temperatures by form and food, with times, edition and source. Local codes come first."""
        return temperatures_of(profile, food)

    return router
