"""A food of the reference table as a source."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Incoming


class FoodSource(Incoming):
    """A food of the reference table."""

    kind: Literal["food"]
    """Says that the item is a reference food."""
    id: Annotated[str, Field(min_length=1, max_length=60, examples=["sr28:23572"])]
    """Id in the reference table, as `GET /v1/foods/{id}` takes it."""
