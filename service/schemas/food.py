"""A reference food as it goes out."""

from typing import Annotated

from pydantic import Field

from service.schemas.base import Outgoing


class NutrientAnswer(Outgoing):
    """What a nutrient's name stands for."""

    tagname: Annotated[str, Field(examples=["PROCNT"])]
    """INFOODS tagname."""
    unit: Annotated[str, Field(examples=["g"])]
    """UCUM unit."""
    title: Annotated[str, Field(examples=["protein"])]
    """In words."""


class SpecificFactorsAnswer(Outgoing):
    """The food's own Atwater factors, kcal per g; null where the source gives none."""

    protein: Annotated[float | None, Field(examples=[4.27])]
    """Per g of protein."""
    fat: Annotated[float | None, Field(examples=[9.02])]
    """Per g of fat."""
    carbohydrate: Annotated[float | None, Field(examples=[3.87])]
    """Per g of carbohydrate."""


class MeasureAnswer(Outgoing):
    """A household measure and what it weighs."""

    amount: Annotated[float, Field(examples=[1])]
    """How many of the unit."""
    unit: Annotated[str, Field(examples=["tbsp"])]
    """The unit as the source names it."""
    grams: Annotated[float, Field(examples=[14.2])]
    """Weight of that amount, g edible portion."""


class FoodAnswer(Outgoing):
    """One food of the reference table."""

    id: Annotated[str, Field(examples=["sr28:01123"])]
    """Id, as a brief names it."""
    name: Annotated[str, Field(examples=["Egg, whole, raw, fresh"])]
    """The source's own description."""
    group: Annotated[str | None, Field(examples=["Dairy and Egg Products"])]
    """Food group of the source. A group is no statement about allergens."""
    per_100g: Annotated[dict[str, float | None], Field(examples=[{"protein_g": 12.56, "fibre_g": None}])]
    """Nutrient name to the amount in 100 g edible portion; null where the source has no value."""
    nutrients: dict[str, NutrientAnswer]
    """Nutrient name to its tagname, unit and title."""
    specific_factors: SpecificFactorsAnswer | None
    """Null when the source has none for this food."""
    total_carbohydrate_counted: Annotated[bool, Field(examples=[False])]
    """True where fibre is unknown: available carbohydrate is then the total, an upper bound."""
    refuse_percent: Annotated[float | None, Field(examples=[12])]
    """Share of the weight as purchased that is not eaten (shell, bone, peel), percent; null where unknown."""
    measures: list[MeasureAnswer]
    """Household measures that amounts of this food may be given in."""
    units: Annotated[list[str], Field(examples=[["g", "oz", "large"]])]
    """Every unit that amounts of this food may be given in, as amounts are read."""
    source: Annotated[str, Field(examples=["sr28"])]
    """Where the numbers come from; `sr28` is the USDA National Nutrient Database for Standard Reference, release 28."""


class FoundFood(Outgoing):
    """A food that fits a query, with what tells it from its neighbours: amounts in 100 g edible portion."""

    id: Annotated[str, Field(examples=["sr28:23572"])]
    """Id, as a brief names it."""
    name: Annotated[str, Field(examples=["Beef, ground, 80% lean meat / 20% fat, raw"])]
    """The source's own description."""
    group: Annotated[str | None, Field(examples=["Beef Products"])]
    """Food group of the source. A group is no statement about allergens."""
    energy_kcal: Annotated[float | None, Field(examples=[254.0])]
    """Energy, kcal, as the table states it; null where it has no value."""
    protein_g: Annotated[float | None, Field(examples=[17.17])]
    """Protein, g; null where the table has no value."""
    fat_g: Annotated[float | None, Field(examples=[20.0])]
    """Fat, g; null where the table has no value."""
    available_carbohydrate_g: Annotated[float | None, Field(examples=[0.0])]
    """Carbohydrate less fibre, g; null where the table has no value."""


class FoundFoods(Outgoing):
    """One page of the foods that fit a query, best match first."""

    items: list[FoundFood]
    """The foods of this page; empty when nothing fits, or beyond the last page."""
    total: Annotated[int, Field(examples=[5])]
    """How many foods fit in all."""
    next: Annotated[str | None, Field(examples=["/v1/foods?query=ground+beef&limit=10&offset=10"])]
    """Address of the next page, from the root of the service; null on the last."""
