"""GET /v1/cooking-methods says what cooking does to a food, by which method, and on what evidence."""

from typing import Annotated, Any

from fastapi import APIRouter, Query

from service.problems import UnknownFoodError
from service.schemas.cooking import CookingMethods
from service.schemas.problem import ProblemDocument
from service.search.index import FoodSearch
from service.search.nearest import nearest_foods
from service.translate.to_cooking import CookingOf
from solver.catalogue import Catalogue

_REFUSED: dict[int | str, dict[str, Any]] = {
    404: {"model": ProblemDocument, "description": "No reference food has this id; the nearest are named."},
    422: {"model": ProblemDocument, "description": "The food is missing, or too long to be an id."},
}

_Food = Annotated[
    str, Query(min_length=1, max_length=200, description="Id in the reference table.", examples=["sr28:23572"])
]


def cooking_router(catalogue: Catalogue, search: FoodSearch, cooking_of: CookingOf) -> APIRouter:
    """The route, over a catalogue, its index, and what the cooking table says of a food."""
    router = APIRouter(prefix="/v1", tags=["foods"])

    @router.get("/cooking-methods", summary="What cooking does to a food", responses=_REFUSED)
    def show_cooking_methods(food: _Food) -> CookingMethods:
        """Yield and fat retention by every method that applies, each with its evidence and its 90 % interval.

        A raw food of the reference table, or the reason why nothing applies.
        """
        if food not in catalogue:
            raise UnknownFoodError(nearest_foods(food, catalogue, search), "food")
        return cooking_of(catalogue.food(food))

    return router
