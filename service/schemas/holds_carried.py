"""How much of a tolerance a pantry can carry."""

from typing import Annotated

from pydantic import Field

from service.schemas.base import Outgoing
from service.schemas.dish import DishAnswer


class CarriedAnswer(Outgoing):
    """How much of the tolerance the pantry can carry."""

    percent: Annotated[float, Field(examples=[61.9])]
    """A plan holds within this percent of what was asked, rounded down; `dish` is that plan."""
    not_above_percent: Annotated[float, Field(examples=[62.1])]
    """No plan holds within this percent of it, rounded up."""
    proven: Annotated[bool, Field(examples=[True])]
    """False: a test was not decided in time, and the pantry may carry more."""
    text: Annotated[str, Field(examples=["holding within 61.9 percent of the EU tolerance"])]
    """In words."""
    dish: DishAnswer
    """The plan that holds within so much."""
