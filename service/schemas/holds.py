"""What a plan has to hold within, and what that comes to."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Incoming, Outgoing


class HoldsBody(Incoming):
    """Compositions that every must target has to hold for: a `tolerance` by its name, or `percent` by nutrient.

    Every nutrient of every item moves by itself, total carbohydrate, available carbohydrate and fibre each as itself.
    Wishes and rules are of the composition as stated.
    """

    tolerance: Annotated[
        Literal["EU tolerance", "label rounding", "US tolerance"] | None, Field(examples=["EU tolerance"])
    ] = None
    """`EU tolerance`: what the Commission's guidance of 2012 allows a label to be off, for every item by its content
    in 100 g; a nutrient without a row there is taken as stated. `label rounding`: items from a printed label move
    inside what was rounded, all others stay. `US tolerance` is refused: those limits are one-sided, and guarantee
    neither a carbohydrate ceiling nor a fat floor."""
    percent: Annotated[
        dict[str, Annotated[float, Field(ge=0, le=100)]] | None, Field(examples=[{"fat_g": 10, "protein_g": 5}])
    ] = None
    """Nutrient name to the percent of what is stated by which it may be off, either way; all others stay."""
    most_items_off: Annotated[int | None, Field(ge=1, le=1000, examples=[2])] = None
    """How many items may be off at once, whichever they are; left out, all may be."""
    with_cooking: Annotated[bool, Field(examples=[True])] = False
    """Hold for what the cooking table leaves open of the fat that runs out as well, by its 90 % intervals; with
    `most_items_off`, of pieces for those that are off."""


class WorstCaseAnswer(Outgoing):
    """What a target comes to where every item is at its adverse end, in the target's unit."""

    lowest: Annotated[float, Field(examples=[34.2])]
    """The least, in the target's unit."""
    highest: Annotated[float | None, Field(examples=[41.0])]
    """The most, in the target's unit; null where a ratio has no limit."""
