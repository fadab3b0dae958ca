"""A base dish, amount by amount: what a plan is to stay close to."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.amounts import Amount
from service.schemas.base import Incoming


class BaseAmountBody(Incoming):
    """How much of one item there was in one component, or how many teaspoons of drippings were spooned back."""

    item: Annotated[str | None, Field(min_length=1, max_length=200, examples=["butter"])] = None
    """An item of the pantry, by its name."""
    goes_in: Annotated[str | None, Field(min_length=1, max_length=100, examples=["patties"])] = None
    """The component that it was in; needed where the item may go into several."""
    amount: Annotated[Amount | None, Field(examples=["37.3 g", "1/3 cup"])] = None
    """How much there was for the whole batch, raw edible portion. What stays unchanged is printed in these words."""
    drippings_of: Annotated[str | None, Field(min_length=1, max_length=100, examples=["patties"])] = None
    """In place of `item`: a component whose drippings were spooned back."""
    teaspoons: Annotated[int | None, Field(ge=0, le=10_000, examples=[3])] = None
    """With `drippings_of`, in place of `amount`: how many whole teaspoons."""
    known: Annotated[Literal["measured", "tasted"], Field(examples=["tasted"])] = "measured"
    """`tasted`: nobody measured it, so it is not known well, and a change of it counts half."""
