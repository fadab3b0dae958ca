"""Who eats, as it comes in."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.base import Incoming


class EaterBody(Incoming):
    """The person a portion is for, as far as it matters for cautions. Nothing of it is kept or logged."""

    age_years: Annotated[float | None, Field(ge=0, le=130, examples=[42])] = None
    """Age, years; an adult is assumed for upper levels when left out, and never for a therapy."""
    weight_kg: Annotated[float | None, Field(gt=0, le=700, examples=[68])] = None
    """Body weight, kg; needed for cautions about too little or too much protein."""
    pregnant: bool = Field(default=False, examples=[False])
    """Pregnant, or may soon be."""
    lactating: bool = Field(default=False, examples=[False])
    """Breastfeeding."""
    conditions: list[
        Literal[
            "ketogenic_therapy",
            "sglt2_inhibitor",
            "insulin",
            "sulphonylurea",
            "blood_pressure_medicine",
            "kidney_disease",
            "pancreatitis",
            "fat_oxidation_disorder",
            "carnitine_disorder",
            "pyruvate_carboxylase_deficiency",
            "porphyria",
        ]
    ] = Field([], max_length=20, examples=[["insulin"]])
    """Conditions and medicines that need a clinic's eye; each has its own caution."""
    meals_per_day: Annotated[float | None, Field(gt=0, le=24, examples=[3])] = None
    """How many such portions make the whole day; left out when the day is not known."""
    prescribed: bool = Field(default=False, examples=[False])
    """Ratio, energy and protein in the targets come from a clinic's prescription."""
