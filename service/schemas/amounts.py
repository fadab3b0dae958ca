"""Amounts as they come in: a text as a kitchen writes it, or a value with its unit."""

from typing import Annotated, TypeAlias

from pydantic import Discriminator, Field, Tag

from service.schemas.base import Incoming

#: How pydantic names the two forms of an amount in the path of an error; neither is ever a field's name.
AMOUNT_TAGS = ("amount as text", "amount as value and unit")


class AmountBody(Incoming):
    """An amount in one unit."""

    value: Annotated[float, Field(ge=0, examples=[1.5])]
    """How many of the unit."""
    unit: Annotated[str, Field(min_length=1, max_length=60, examples=["tbsp"])]
    """A mass unit (g, kg, oz, lb) or a household measure of the food (tbsp, cup, large)."""


def _form_of(amount: object) -> str | None:
    if isinstance(amount, str):
        return AMOUNT_TAGS[0]
    return AMOUNT_TAGS[1] if isinstance(amount, dict | AmountBody) else None


AmountText: TypeAlias = Annotated[str, Field(min_length=1, max_length=100, examples=["1 lb 4 oz"])]
Amount: TypeAlias = Annotated[
    Annotated[AmountText, Tag(AMOUNT_TAGS[0])] | Annotated[AmountBody, Tag(AMOUNT_TAGS[1])],
    Discriminator(
        _form_of,
        custom_error_type="amount_type",
        custom_error_message='An amount is a text such as "1 1/2 tbsp", or an object with value and unit',
    ),
]
NutrientAmount: TypeAlias = Annotated[float, Field(strict=True, ge=0, le=1_000_000, allow_inf_nan=False)]
