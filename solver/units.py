"""Weights and volumes a kitchen measures in, each with its exact size and its UCUM code.

A table and no units library: these dozen constants are exact by definition, while a general registry costs
several packages and an import slower than a solve, and would read "pint" or "cup" as more than one thing.

Sources: the inch is 2.54 cm and the US gallon 231 cubic inches (UCUM 2.2, 2024-06-17), which fixes every US
volume; the avoirdupois pound is 7000 grains of 64.79891 mg (UCUM 2.2). Teaspoon, tablespoon and cup are US
customary. Not here on purpose: imperial pints, fluid ounces and gallons; UCUM's metric cup of 240 mL; the
250 mL cup and the 20 mL tablespoon of other countries. Such amounts are given in mL.
"""

from dataclasses import dataclass
from enum import Enum


class Dimension(Enum):
    """What a unit measures, and what its `size` is counted in."""

    MASS = "g"
    VOLUME = "mL"


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit. size: grams or millilitres, see `Dimension`. spellings: lower case, the plural where it differs."""

    name: str
    ucum: str
    dimension: Dimension
    size: float
    spellings: tuple[str, ...]


GRAM = Unit("g", "g", Dimension.MASS, 1.0, ("g", "gram", "grams", "gramme", "grammes"))
KILOGRAM = Unit("kg", "kg", Dimension.MASS, 1000.0, ("kg", "kilo", "kilos", "kilogram", "kilograms"))
MILLIGRAM = Unit("mg", "mg", Dimension.MASS, 0.001, ("mg", "milligram", "milligrams"))
OUNCE = Unit("oz", "[oz_av]", Dimension.MASS, 28.349523125, ("oz", "ounce", "ounces"))
POUND = Unit("lb", "[lb_av]", Dimension.MASS, 453.59237, ("lb", "lbs", "pound", "pounds"))

TEASPOON = Unit("tsp", "[tsp_us]", Dimension.VOLUME, 4.92892159375, ("tsp", "tsps", "teaspoon", "teaspoons"))
TABLESPOON = Unit(
    "tbsp", "[tbs_us]", Dimension.VOLUME, 14.78676478125, ("tbsp", "tbsps", "tbs", "tablespoon", "tablespoons")
)
FLUID_OUNCE = Unit(
    "fl oz",
    "[foz_us]",
    Dimension.VOLUME,
    29.5735295625,
    ("fl oz", "fluid oz", "fl ounce", "fl ounces", "fluid ounce", "fluid ounces"),
)
CUP = Unit("cup", "[cup_us]", Dimension.VOLUME, 236.5882365, ("cup", "cups", "c"))
PINT = Unit("pint", "[pt_us]", Dimension.VOLUME, 473.176473, ("pint", "pints", "pt"))
QUART = Unit("quart", "[qt_us]", Dimension.VOLUME, 946.352946, ("quart", "quarts", "qt"))
GALLON = Unit("gallon", "[gal_us]", Dimension.VOLUME, 3785.411784, ("gallon", "gallons", "gal"))
MILLILITRE = Unit("ml", "mL", Dimension.VOLUME, 1.0, ("ml", "millilitre", "millilitres", "milliliter", "milliliters"))
DECILITRE = Unit("dl", "dL", Dimension.VOLUME, 100.0, ("dl", "decilitre", "decilitres", "deciliter", "deciliters"))
LITRE = Unit("l", "L", Dimension.VOLUME, 1000.0, ("l", "litre", "litres", "liter", "liters"))

UNITS: tuple[Unit, ...] = (
    *(GRAM, KILOGRAM, MILLIGRAM, OUNCE, POUND),
    *(TEASPOON, TABLESPOON, FLUID_OUNCE, CUP, PINT, QUART, GALLON),
    *(MILLILITRE, DECILITRE, LITRE),
)

#: Every spelling in lower case, e.g. "tablespoons", to its unit.
SPELLINGS: dict[str, Unit] = {spelling: unit for unit in UNITS for spelling in unit.spellings}

#: Every UCUM code, exactly as UCUM writes it, to its unit.
UCUM_CODES: dict[str, Unit] = {unit.ucum: unit for unit in UNITS}


def find_unit(text: str) -> Unit | None:
    """The unit that `text` names and nothing else ("Tbsp.", "fl. oz.", "[cup_us]"); None for any other text."""
    if text in UCUM_CODES:
        return UCUM_CODES[text]
    return SPELLINGS.get(" ".join(text.casefold().replace(".", " ").split()))
