"""GET /v1/foods finds foods by what people call them; GET /v1/foods/{id} shows one."""

from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, Path, Query
from pydantic import AfterValidator
from pydantic_core import PydanticCustomError

from service.problems import UnknownFoodError
from service.schemas.food import FoodAnswer, FoundFoods
from service.schemas.problem import ProblemDocument
from service.search.index import FoodSearch
from service.search.nearest import nearest_foods
from service.search.words import split
from service.translate.to_food import to_food, to_found
from solver.catalogue import Catalogue

_REFUSED: dict[int | str, dict[str, Any]] = {
    422: {"model": ProblemDocument, "description": "A parameter is missing or out of range."}
}
_UNKNOWN: dict[int | str, dict[str, Any]] = {
    404: {"model": ProblemDocument, "description": "No reference food has this id; the nearest are named."}
}


def _with_a_word(query: str) -> str:
    if not split(query):
        raise PydanticCustomError("blank", "The query has no word in it")
    return query


_Text = Annotated[
    str,
    Query(min_length=1, max_length=200, description="What one calls the food.", examples=["ground beef 80/20"]),
    AfterValidator(_with_a_word),
]
_Limit = Annotated[int, Query(ge=1, le=50, description="Most foods in one answer.")]
_Offset = Annotated[int, Query(ge=0, le=100_000, description="How many of the best matches to skip.")]


def foods_router(catalogue: Catalogue, search: FoodSearch) -> APIRouter:
    """The routes, over a catalogue and its index."""
    router = APIRouter(prefix="/v1", tags=["foods"])

    @router.get("/foods", summary="Find a food", responses=_REFUSED)
    async def find_foods(query: _Text, limit: _Limit = 10, offset: _Offset = 0) -> FoundFoods:
        """Best match first, plain raw foods before dishes.

        British and American words, plurals, percent fat ("mince 20%", "80/20"), any order of words, and a slip of
        the pen are understood.
        """
        found = search.find(query, limit, offset)
        following = {"query": query, "limit": limit, "offset": offset + limit}
        return FoundFoods(
            items=[to_found(catalogue.food(food_id)) for food_id in found.ids],
            total=found.total,
            next=f"/v1/foods?{urlencode(following)}" if offset + limit < found.total else None,
        )

    @router.get("/foods/{id}", summary="One reference food", responses=_UNKNOWN)
    async def show_food(
        food_id: Annotated[str, Path(alias="id", description="Id in the reference table.", examples=["sr28:01123"])],
    ) -> FoodAnswer:
        """Composition per 100 g edible portion, energy factors, measures and source."""
        if food_id not in catalogue:
            raise UnknownFoodError(nearest_foods(food_id, catalogue, search))
        return to_food(catalogue.food(food_id))

    return router
