"""A dish as it is, whose numbers are asked for."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.amounts import NutrientAmount
from service.schemas.base import Incoming
from service.schemas.declared import DeclaredBody
from service.schemas.dish_source import DishBody, DishComponentBody, IngredientBody
from service.schemas.eater import EaterBody
from service.schemas.portions import DivisionBody


class BreakdownBody(Incoming):
    """A dish whose amounts are settled; nothing is chosen."""

    title: Annotated[str, Field(min_length=1, max_length=200, examples=["Broiled patties"])]
    """What the dish is called."""
    portions: Annotated[int, Field(ge=1, le=500, examples=[4])] = 1
    """How many equal portions the batch makes."""
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
    eater: EaterBody | None = None
    """Who eats it, as far as it matters for cautions."""
    safe_temperatures: Annotated[Literal["us consumer", "us retail", "uk"], Field(examples=["us consumer"])] = (
        "us consumer"
    )
    """Whose chart the cautions state temperatures from."""
