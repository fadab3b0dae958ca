"""How far the plate may be off, as it goes out."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Outgoing


class OffByAnswer(Outgoing):
    """How far the truth may be from a number, nine times in ten, in the number's own unit."""

    below: Annotated[float, Field(examples=[4.1])]
    """How far below it, in its unit."""
    above: Annotated[float | None, Field(examples=[5.2])]
    """How far above it, in its unit; null where nothing limits it: a ketogenic ratio of what may be fat alone."""


class TotalsOffAnswer(Outgoing):
    """How far the totals as eaten may be off."""

    grams: OffByAnswer
    """Weight, g."""
    energy_kcal: OffByAnswer
    """Energy on the energy basis of the dish, kcal."""
    energy_kj: OffByAnswer
    """The same in kJ."""
    nutrients: Annotated[
        dict[str, OffByAnswer],
        Field(examples=[{"fat_g": {"below": 4.1, "above": 5.2}, "protein_g": {"below": 0.8, "above": 0.8}}]),
    ]
    """Nutrient name, which ends in its unit, to how far it may be off; the main ones, and all that an error touches."""


class OffSourceAnswer(Outgoing):
    """One source of error and what it does by itself."""

    kind: Annotated[
        Literal["cooking", "label rounding", "label tolerance", "standard error"], Field(examples=["cooking"])
    ]
    """The estimate of cooking, the print of a label, what the rules of a label tolerate, or the food table."""
    about: Annotated[str, Field(examples=["patties"])]
    """The component for cooking, otherwise the item."""
    why: Annotated[
        str,
        Field(examples=["the 87.0 g of fat that run out may be off by 12.0 g: curve fitted to 11 pairs of rows."]),
    ]
    """What is open, in one sentence."""
    fat_share_points: OffByAnswer | None
    """What it does to the fat share, percentage points; null where there is no fat share."""
    energy_kcal: OffByAnswer
    """What it does to the energy of a portion, kcal."""


class PlateOffAnswer(Outgoing):
    """How far the plate may be off, nine times in ten: cooking, labels and standard errors combined.

    Independent errors are combined by root sum of squares, below and above apart.
    """

    text: Annotated[str, Field(examples=["The numbers are exact for these inputs: ..."])]
    """What the numbers of the dish are exact for, and what is stated here."""
    batch: TotalsOffAnswer
    """Of the whole batch."""
    portion: TotalsOffAnswer
    """Of one equal portion."""
    fat_share_points: OffByAnswer | None
    """Of the fat share, percentage points; null where there is none."""
    protein_share_points: OffByAnswer | None
    """Of the protein share, percentage points; null likewise."""
    carbohydrate_share_points: OffByAnswer | None
    """Of the carbohydrate share, percentage points; null likewise."""
    ketogenic_ratio: OffByAnswer | None
    """Of the ketogenic ratio; null where it is undefined."""
    sources: list[OffSourceAnswer]
    """Where it comes from, the largest effect on the fat share first."""
    nothing_stated_for: Annotated[dict[str, list[str]], Field(examples=[{"fat_g": ["ground beef"]}])]
    """Macronutrient to the items that hold it and whose source states no error of it, so that none is counted."""
