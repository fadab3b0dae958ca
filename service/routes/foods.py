"""GET /v1/foods/{id}: one food of the reference table."""

from typing import Annotated

from fastapi import APIRouter, Path
from starlette.exceptions import HTTPException

from service.schemas.food import FoodAnswer
from service.schemas.problem import ProblemDocument
from service.translate.to_food import to_food
from solver.catalogue import Catalogue


def foods_router(catalogue: Catalogue) -> APIRouter:
    """The route, over a catalogue."""
    router = APIRouter(prefix="/v1", tags=["foods"])

    @router.get(
        "/foods/{id}",
        summary="One reference food",
        responses={404: {"model": ProblemDocument, "description": "No reference food has this id."}},
    )
    async def show_food(food_id: Annotated[str, Path(alias="id", examples=["sr28:01123"])]) -> FoodAnswer:
        """Composition per 100 g edible portion, energy factors, measures and source."""
        if food_id not in catalogue:
            raise HTTPException(404, "No reference food has this id.")
        return to_food(catalogue.food(food_id))

    return router
