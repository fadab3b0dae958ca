"""Choices among items, as they come in and as they go out."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Incoming, Outgoing
from service.schemas.rules import Allergens, Names, Titles


class ChoiceBody(Incoming):
    """How many of some items are used, or what goes with what: one of the two. A must.

    `{"number_of": ["cheddar", "gouda"], "at_most": 1}`, `{"if_used": ["sage"], "then_used": ["butter"]}`,
    `{"if_used": ["lemon"], "then_not_used": ["vinegar"]}`.
    """

    id: Annotated[str | None, Field(min_length=1, max_length=100, examples=["one cheese"])] = None
    """Name of the choice in the answer, unique among choices, rules and targets; `choice 1` when left out."""
    number_of: Names | None = None
    """The items of which a number may be used."""
    number_of_food_groups: Titles | None = None
    """The same of what is of these food groups."""
    number_of_allergens: Allergens | None = None
    """The same of what contains these allergens; what nobody has spoken of counts where that is the safe side."""
    at_least: Annotated[int | None, Field(ge=0, le=10_000, examples=[1])] = None
    """How many of the items are used at least."""
    at_most: Annotated[int | None, Field(ge=0, le=10_000, examples=[1])] = None
    """How many of the items are used at most."""
    if_used: Names | None = None
    """Where any of these is used ..."""
    if_used_food_groups: Titles | None = None
    """The same of what is of these food groups."""
    if_used_allergens: Allergens | None = None
    """The same of what contains these allergens, or may."""
    then_used: Names | None = None
    """... at least one of these is used too."""
    then_used_food_groups: Titles | None = None
    """The same of what is of these food groups."""
    then_used_allergens: Allergens | None = None
    """The same of what contains these allergens; what nobody has spoken of does not count."""
    then_not_used: Names | None = None
    """... none of these is used."""
    then_not_used_food_groups: Titles | None = None
    """The same of what is of these food groups."""
    then_not_used_allergens: Allergens | None = None
    """The same of what contains these allergens, or may."""


class ChoiceAnswer(Outgoing):
    """One choice in the dish."""

    id: Annotated[str, Field(examples=["one cheese"])]
    """The choice's id."""
    kind: Annotated[Literal["number", "one of", "none of"], Field(examples=["number"])]
    """What it decides: how many, with what, or without what."""
    used: Annotated[list[str], Field(examples=[["cheddar"]])]
    """Which of its items the dish uses."""
    met: Annotated[bool, Field(examples=[True])]
    """Whether it holds."""
