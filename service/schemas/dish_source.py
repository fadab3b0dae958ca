"""Dishes that go into other dishes: a spice mix, an emulsion, a reduced stock."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from service.schemas.amounts import Amount
from service.schemas.base import Incoming
from service.schemas.components import ComponentBody
from service.schemas.food_source import FoodSource
from service.schemas.labels import LabelSource
from service.schemas.method_steps import MethodStepBody

IngredientName: TypeAlias = Annotated[str, Field(min_length=1, max_length=200, examples=["egg yolk"])]


class DishSource(Incoming):
    """A dish of the list `dishes`."""

    kind: Literal["dish"]
    """Says that it is a dish of its own."""
    name: Annotated[str, Field(min_length=1, max_length=200, examples=["mayonnaise"])]
    """The dish's name in `dishes`, letter by letter."""


class IngredientBody(Incoming):
    """One thing that went into a dish."""

    name: IngredientName
    """What it is called; unique in the dish, upper and lower case alike."""
    source: Annotated[FoodSource | LabelSource | DishSource, Field(discriminator="kind")]
    """Where its composition comes from: a reference food, a label, or another dish."""
    amount: Annotated[Amount, Field(examples=["2 tbsp"])]
    """How much went in, raw edible portion; all of it, also what was strained out or discarded later."""
    goes_in: Annotated[str | None, Field(min_length=1, max_length=100, examples=["stock pot"])] = None
    """The component of the dish that it goes into; needed when the dish has more than one."""


class DishComponentBody(ComponentBody):
    """What is cooked together in a dish; drippings that are spooned back are counted, since nothing is planned."""

    teaspoons: Annotated[int | None, Field(ge=0, le=1000, examples=[6])] = None
    """How many teaspoons of its drippings were spooned back; for `spooned back` alone, where it is needed."""


class DiscardedBody(Incoming):
    """What was thrown away of an ingredient."""

    name: IngredientName
    """The ingredient."""
    amount: Annotated[Amount, Field(examples=["150 g"])]
    """How much of what went in, such as of a marinade that did not stay on the meat."""


class DishBody(Incoming):
    """A dish whose amounts are settled, as a source for pantry items and for other dishes."""

    name: Annotated[str, Field(min_length=1, max_length=200, examples=["mayonnaise"])]
    """What it is called; unique in `dishes`, upper and lower case alike."""
    ingredients: Annotated[list[IngredientBody], Field(min_length=1, max_length=200)]
    """What went in. Water too, since nothing weighs more than what went into it."""
    components: Annotated[list[DishComponentBody] | None, Field(min_length=1, max_length=50)] = None
    """What of it is cooked together, and how. Left out: nothing runs out of it."""
    makes: Annotated[Amount | None, Field(examples=["250 g", "1 1/2 cups", "12 pieces"])] = None
    """What it comes to, a weight or a measure. By weight, what is not there any more has evaporated, as water. Left
    out, it weighs what went in, less what the cooking table says."""
    weighs: Annotated[Amount | None, Field(examples=["310 g"])] = None
    """What it weighs, where `makes` is a measure: the two together say what a cup of it weighs."""
    strained_out: Annotated[list[IngredientName] | None, Field(min_length=1, max_length=200, examples=[["bones"]])] = (
        None
    )
    """Ingredients that were taken out whole. None of their numbers count: what dissolved out of them is not known."""
    skimmed_fat: Annotated[Amount | None, Field(examples=["30 g"])] = None
    """Fat that was skimmed off, by weight; of all ingredients in proportion to their fat."""
    discarded: Annotated[list[DiscardedBody] | None, Field(min_length=1, max_length=200)] = None
    """What was thrown away of ingredients."""
    method_steps: list[MethodStepBody] = Field([], max_length=100)
    """How it is made, in order; the steps go before those of what it goes into."""
