"""What cooking does to a food, as it goes out."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Outgoing


class CookingMethodAnswer(Outgoing):
    """A single cut or piece under one method. All numbers are g as eaten per g raw."""

    method: Annotated[str, Field(examples=["roasted"])]
    """Trade name of the method."""
    evidence: Annotated[Literal["measured", "estimated"], Field(examples=["measured"])]
    """Measured: the table has a raw and a cooked row of this very food. Estimated: from the pairs of foods like it."""
    yield_g_per_g: Annotated[float, Field(examples=[0.71])]
    """Weight, g as eaten per g raw edible portion, drippings apart."""
    yield_half_interval_g_per_g: Annotated[float, Field(examples=[0.06])]
    """Nine times in ten the yield is off by no more than this, g per g."""
    fat_retention_g_per_g: Annotated[float, Field(examples=[0.63])]
    """Fat kept, g per g of raw fat; at most 1, since no fat is added."""
    fat_retention_low_g_per_g: Annotated[float, Field(examples=[0.5])]
    """Lower end of the 90 % interval of fat retention, g per g."""
    fat_retention_high_g_per_g: Annotated[float, Field(examples=[0.8])]
    """Upper end, g per g; above 1 where lean gains fat from what it was cooked with."""
    pairs: Annotated[int, Field(examples=[18])]
    """How many pairs of this kind of food and this method stand behind the numbers."""
    why: Annotated[str, Field(examples=["a raw and a cooked row of this very food"])]
    """The evidence in words: how many pairs, of which kind and method, and what was widened."""
    source: Annotated[str, Field(examples=["sr28"])]
    """Where the pairs come from."""


class FatCurveSegment(Outgoing):
    """One line that bounds the fat kept: a times the raw mass plus b times the raw fat."""

    a_g_per_g: Annotated[float, Field(examples=[0.1512])]
    """g of fat kept per g of raw mix."""
    b_g_per_g: Annotated[float, Field(examples=[-0.1512])]
    """g of fat kept per g of raw fat."""


class MixMethodAnswer(Outgoing):
    """A mix, such as mince shaped into patties, under one method. Fat kept is the least over the segments."""

    mix: Annotated[str, Field(examples=["broiled patty"])]
    """Trade name of the mix and its method together."""
    method: Annotated[str, Field(examples=["broiled"])]
    """Trade name of the method."""
    segments: list[FatCurveSegment]
    """The lines; fat kept is the least of them."""
    yield_at_no_fat_g_per_g: Annotated[float, Field(examples=[0.84])]
    """Weight as eaten of a mix without fat, g per g raw, drippings apart."""
    yield_lost_per_fat_g_per_g: Annotated[float, Field(examples=[0.92])]
    """Weight lost besides, g per g of raw fat."""
    yield_half_interval_g_per_g: Annotated[float, Field(examples=[0.08])]
    """Nine times in ten the yield is off by no more than this, g per g."""
    fat_kept_half_interval_g_per_g: Annotated[float, Field(examples=[0.01])]
    """Nine times in ten the fat kept is off by no more than this, g per g of raw mix."""
    least_fat_g_per_g: Annotated[float, Field(examples=[0.02])]
    """Leanest mix among the rows, g of fat per g raw."""
    most_fat_g_per_g: Annotated[float, Field(examples=[0.3])]
    """Fattest mix among the rows, g of fat per g raw; beyond, the curve is a guess."""
    rows: Annotated[int, Field(examples=[11])]
    """How many pairs of raw and cooked rows the curve was fitted to."""
    why: Annotated[str, Field(examples=["curve fitted to 11 pairs of raw and cooked rows"])]
    """The evidence in words."""
    source: Annotated[str, Field(examples=["sr28"])]
    """Where the rows come from."""


class CookingMethods(Outgoing):
    """What cooking does to one food, by every method that the table can speak about."""

    food: Annotated[str, Field(examples=["sr28:23572"])]
    """Id of the food."""
    name: Annotated[str, Field(examples=["Beef, ground, 80% lean meat / 20% fat, raw"])]
    """The source's own description."""
    mixes: list[MixMethodAnswer]
    """For mince and sausage: the forms that a mix of it may take."""
    methods: list[CookingMethodAnswer]
    """For the food as it is."""
    none_because: Annotated[str | None, Field(examples=[None])]
    """Why nothing applies; null when something does."""
