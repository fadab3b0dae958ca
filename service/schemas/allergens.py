"""Allergens: what a label states, and what an answer says. Unknown is never "free from"."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from service.schemas.base import Outgoing

AllergenCode: TypeAlias = Literal[
    "milk",
    "egg",
    "fish",
    "crustaceans",
    "tree nuts",
    "wheat",
    "gluten cereals",
    "peanuts",
    "soybeans",
    "sesame",
    "celery",
    "mustard",
    "sulphites",
    "lupin",
    "molluscs",
]

Stated: TypeAlias = Annotated[list[AllergenCode], Field(max_length=15, examples=[["milk"]])]


class AllergenAnswer(Outgoing):
    """What is known of one allergen in the dish."""

    allergen: Annotated[AllergenCode, Field(examples=["milk"])]
    """The allergen."""
    us_nine: Annotated[bool, Field(examples=[True])]
    """It is one of the nine major allergens of the United States."""
    eu_fourteen: Annotated[bool, Field(examples=[True])]
    """It is one of the fourteen of Regulation (EU) No 1169/2011, Annex II."""
    statement: Annotated[Literal["contains", "unknown"], Field(examples=["contains"])]
    """`unknown` is no promise: read the labels, and ask who made it."""
    items: Annotated[list[str], Field(examples=[["butter"]])]
    """The used items that are known to contain it."""
