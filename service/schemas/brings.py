"""Who brings what to the plate, as it goes out."""

from typing import Annotated

from pydantic import Field

from service.schemas.base import Outgoing


class BringsAnswer(Outgoing):
    """What one ingredient brings to the plates, of the batch."""

    name: Annotated[str, Field(examples=["paprika"])]
    """The ingredient, as the request names it."""
    component: Annotated[str, Field(examples=["patties"])]
    """The component that it goes into."""
    amounts: Annotated[dict[str, float | None], Field(examples=[{"available_carbohydrate_g": 2.7}])]
    """Energy, fat, protein, available carbohydrate and sodium that it brings; null where nobody knows."""
    percent: Annotated[dict[str, float | None], Field(examples=[{"available_carbohydrate_g": 31.0}])]
    """The same as percent of what all ingredients bring; null where that is none."""
    seasoning_carbohydrate_g: Annotated[float, Field(examples=[2.7])]
    """Available carbohydrate that comes from spices and herbs, those inside a dish too."""
