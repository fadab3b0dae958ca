"""A dish as it is, whose numbers are asked for."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.amounts import NutrientAmount
from service.schemas.base import Incoming
from service.schemas.declared import DeclaredBody
from service.schemas.dish_source import DishBody, DishComponentBody, IngredientBody
from service.schemas.eater import EaterBody
from service.schemas.method_steps import MethodStepBody
from service.schemas.portions import DivisionBody


class BreakdownBody(Incoming):
    """A dish whose amounts are settled; nothing is chosen."""

    title: Annotated[str, Field(min_length=1, max_length=200, examples=["Broiled patties"])]
    """What the dish is called."""
    portions: Annotated[int, Field(ge=1, le=500, examples=[4])] = 1
    """How many equal portions the batch makes."""
    scale_to: Annotated[int | None, Field(ge=1, le=500, examples=[6])] = None
    """How many portions are wanted instead, in the same pan; everything in the answer is of that batch. What is counted
    stays whole where that is no more than a tenth off, and is weighed otherwise; a weighed component loses as many
    grams of steam as before; the answer's `warnings` say what was rounded and what to weigh."""
    ingredients: Annotated[list[IngredientBody], Field(min_length=1)]
    """What went in."""
    components: Annotated[list[DishComponentBody] | None, Field(min_length=1, max_length=50)] = None
    """What is cooked together, and how; left out, everything is eaten as it is."""
    dishes: Annotated[list[DishBody] | None, Field(min_length=1, max_length=200)] = None
    """Dishes that ingredients are made of."""
    energy_basis: Annotated[Literal["general", "regulation", "specific", "declared"], Field(examples=["general"])] = (
        "general"
    )
    """Energy factors of the totals, as in a brief; the answer gives the energy on every basis besides."""
    count_missing_as: dict[str, NutrientAmount] = Field({}, examples=[{"fibre_g": 0}])
    """Nutrient name to the amount per 100 g that an ingredient without a value is counted with."""
    division: DivisionBody | None = None
    """How the dish is divided; left out, only equal portions are counted."""
    declared: DeclaredBody | None = None
    """Numbers that somebody declares for the dish, to be audited."""
    nutrition_as: Annotated[Literal["US", "EU"] | None, Field(examples=["EU"])] = None
    """Rounds nutrition numbers as a US label prints them for a portion, or an EU label for 100 g, whose energy is on
    the basis `regulation`."""
    method_steps: list[MethodStepBody] = Field([], max_length=100)
    """The steps of the method, in order; they go into the answer as they are."""
    eater: EaterBody | None = None
    """Who eats it, as far as it matters for cautions."""
    safe_temperatures: Annotated[Literal["us consumer", "us retail", "uk"], Field(examples=["us consumer"])] = (
        "us consumer"
    )
    """Whose chart the cautions state temperatures from."""
