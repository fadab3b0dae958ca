"""What may stand in for an item that is left out, as it goes out."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.ways_out import Leads


class SubstituteAnswer(Leads):
    """A food that does in the dish what was left out of it, with the dish made anew that it leads to."""

    in_place_of: Annotated[str, Field(examples=["cream"])]
    """The item that is left out."""
    role: Annotated[Literal["fat", "protein", "binder", "liquid", "salt", "bulk"], Field(examples=["fat"])]
    """What both are in the dish for. What stands in for an egg binds, and neither foams nor sets like one."""
    food_id: Annotated[str, Field(examples=["sr28:04053"])]
    """The reference food."""
    name: Annotated[str, Field(examples=["Oil, olive, salad or cooking"])]
    """Its name in the food table."""
    component: Annotated[str, Field(examples=["the sauce"])]
    """Where it goes: where the item was."""
    grams: Annotated[float, Field(examples=[40.6])]
    """How much of it the dish takes, g for the batch."""
    about: Annotated[str | None, Field(examples=["about 3 tbsp"])]
    """The nearest kitchen measure; null when none fits."""
