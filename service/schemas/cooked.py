"""What became of a component in cooking, as it goes out."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from service.schemas.base import Outgoing

EvidenceName: TypeAlias = Literal["measured", "matched", "estimated"]


class CookedItemAnswer(Outgoing):
    """One item in a component, g of the whole batch."""

    name: Annotated[str, Field(examples=["ground beef"])]
    """The item, as the brief names it."""
    raw_g: Annotated[float, Field(examples=[900])]
    """Weight that goes in, raw edible portion."""
    fat_g: Annotated[float, Field(examples=[270])]
    """Its fat, raw."""
    rendered_g: Annotated[float, Field(examples=[174.7])]
    """Fat of it that runs out."""
    evidence: Annotated[EvidenceName, Field(examples=["estimated"])]
    """How that is known: `matched` is a row of the cooking table for this very food."""
    why: Annotated[str, Field(examples=["curve fitted to 11 pairs of raw and cooked rows"])]
    """The evidence in words."""


class CookedAnswer(Outgoing):
    """A component from the board to the plate, g of the whole batch: raw = cooked + rendered + evaporated."""

    name: Annotated[str, Field(examples=["patties"])]
    """The component, as the brief names it."""
    method: Annotated[str | None, Field(examples=["broiled patty"])]
    """How it is cooked; null when it is eaten as it is."""
    drippings: Annotated[Literal["discarded", "served", "spooned back"], Field(examples=["spooned back"])]
    """Where the fat goes that runs out."""
    raw_g: Annotated[float, Field(examples=[900])]
    """Weight that goes in."""
    cooked_g: Annotated[float, Field(examples=[506.5])]
    """Weight when cooked, drippings apart."""
    cooked_weight_is: Annotated[EvidenceName, Field(examples=["estimated"])]
    """How the cooked weight is known: measured by the scale, from a matching table row, or estimated."""
    cooked_off_by_g: Annotated[float, Field(examples=[70.3])]
    """Nine times in ten the cooked weight is off by no more than this."""
    fat_g: Annotated[float, Field(examples=[270])]
    """Fat that goes in; = kept + rendered."""
    fat_kept_g: Annotated[float, Field(examples=[95.3])]
    """Fat that stays in the food."""
    rendered_g: Annotated[float, Field(examples=[174.7])]
    """Fat that runs out; = returned + lost."""
    rendered_is: Annotated[EvidenceName, Field(examples=["estimated"])]
    """How the rendered fat is known."""
    rendered_off_by_g: Annotated[float, Field(examples=[9])]
    """Nine times in ten the rendered fat is off by no more than this."""
    returned_g: Annotated[float, Field(examples=[76.8])]
    """Rendered fat that is eaten: served, or spooned back."""
    lost_g: Annotated[float, Field(examples=[97.9])]
    """Rendered fat that nobody eats."""
    spoon_back: Annotated[str | None, Field(examples=["18 tsp"])]
    """How much of the drippings to spoon back, skimmed of juices; null when none are."""
    evaporated_g: Annotated[float, Field(examples=[218.8])]
    """What leaves as steam and juices."""
    eaten_g: Annotated[float, Field(examples=[583.3])]
    """Weight on the plates: cooked, and the drippings that are eaten."""
    why: Annotated[str, Field(examples=["curve fitted to 11 pairs of raw and cooked rows"])]
    """The evidence in words."""
    items: list[CookedItemAnswer]
    """What goes in."""
