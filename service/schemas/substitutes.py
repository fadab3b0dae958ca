"""What may stand in for an item that is left out, as it goes out."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Outgoing
from service.schemas.ways_out import Leads


class SubstitutePlaceAnswer(Outgoing):
    """How much of it goes into one component."""

    component: Annotated[str, Field(examples=["the sauce"])]
    """The component, one that the item was in."""
    grams: Annotated[float, Field(examples=[28.2])]
    """How much of it goes there, g for the batch."""


class StandInAnswer(Outgoing):
    """A food that does in the dish what was left out of it."""

    in_place_of: Annotated[str, Field(examples=["cream"])]
    """The item that is left out."""
    role: Annotated[Literal["fat", "protein", "binder", "liquid", "salt", "bulk"], Field(examples=["fat"])]
    """What both are in the dish for. What stands in for an egg binds, and neither foams nor sets like one."""
    food_id: Annotated[str, Field(examples=["sr28:04053"])]
    """The food, as in the amounts of a dish."""
    name: Annotated[str, Field(examples=["Oil, olive, salad or cooking"])]
    """The item, as the brief names it, or the food's name in the food table."""
    at_home: Annotated[bool, Field(examples=[False])]
    """True: an item of the pantry that the base dish has nothing of. False: it has to be fetched."""
    component: Annotated[str, Field(examples=["the sauce"])]
    """Where it goes: where the item was; of several components the one that most of it goes into."""
    goes_in: list[SubstitutePlaceAnswer]
    """Every component that it goes into, with its amount: all that the item was in."""
    grams: Annotated[float, Field(examples=[40.6])]
    """How much of it the dish takes, g for the batch."""
    about: Annotated[str | None, Field(examples=["about 3 tbsp"])]
    """The nearest kitchen measure; null when none fits."""
    how: Annotated[str | None, Field(examples=["Two yolks of 17 g for one egg of 50 g."])]
    """What the cook has to know of it; null for nothing that the table of stand-ins knows."""
    source: Annotated[str | None, Field(examples=["stand-ins-practice"])]
    """Where it is known from that it stands in; null where it is the likest by what it is made of."""
    contains_too: Annotated[list[str], Field(examples=[["milk"]])]
    """Allergens that both it and the item contain: where one of them is why the item is left out, this is none for you.
    Such a one is never proposed where `exclude` names the allergen. What is not named here is unknown, not free from
    it."""


class SubstituteAnswer(StandInAnswer, Leads):
    """A food that does in the dish what was left out of it, with the dish made anew that it leads to."""


class SubstitutesTogetherAnswer(Leads):
    """A food for each of several items that are left out, all at once, with the dish made anew that this leads to."""

    stand_ins: list[StandInAnswer]
    """One for each item that is left out and that something stands in for; at least two."""
