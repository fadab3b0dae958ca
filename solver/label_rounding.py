"""What a printed number may stand for: the interval that rounds to it under the rules of its label's layout.

US  21 CFR 101.9(c)(1)-(8), as tabled in FDA, Guidance for Industry: A Food Labeling Guide, Appendix H (October 2009).
    Potassium keeps its row of that table; the 2016 rule made it a mineral with a daily value.
EU  European Commission, Guidance document on tolerances for nutrient values declared on a label (December 2012),
    rounding guidelines, quoted in secondary sources. Polyols are rounded as carbohydrate is.

A nutrient without a rule, and a number that the rules would not print (15.5 g where whole grams are printed), stands
for what rounds to its last digit.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

#: A number nearer to a multiple of a step than this part of the step is that multiple.
_SAME_MULTIPLE = 1e-9


class LabelLayout(StrEnum):
    """How a label is laid out and rounded."""

    US = "US"
    EU = "EU"


@dataclass(frozen=True, slots=True)
class Interval:
    """Everything from low to high; high may be infinite."""

    low: float
    high: float

    def __add__(self, other: "Interval") -> "Interval":
        return Interval(self.low + other.low, self.high + other.high)

    def times(self, factor: float) -> "Interval":
        """Every number multiplied by a factor of at least 0."""
        return Interval(self.low * factor, self.high * factor)

    def less(self, other: "Interval") -> "Interval":
        """What is left of it, never below nothing."""
        return Interval(max(0.0, self.low - other.high), max(0.0, self.high - other.low))


NOTHING = Interval(0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Printed:
    """A number as printed. decimals: digits after its point. less_than: printed as "less than" the number."""

    number: float
    decimals: int = 0
    less_than: bool = False

    @property
    def is_small(self) -> bool:
        """A zero or a "less than": it says no more than where its upper bound is."""
        return self.less_than or self.number == 0


@dataclass(frozen=True, slots=True)
class Stretch:
    """From `start` to `end` amounts are printed to the nearest multiple of `step`."""

    start: float
    end: float
    step: float


@dataclass(frozen=True, slots=True)
class LessThan:
    """Amounts from `start` to `end` are printed as "less than" `number`; `end` itself only if `end_too`."""

    number: float
    start: float
    end: float
    end_too: bool


@dataclass(frozen=True, slots=True)
class Rounding:
    """One row of a layout's rules. What is below `zero_below` may be printed as 0. less_than: None where never so."""

    zero_below: float
    stretches: tuple[Stretch, ...]
    less_than: LessThan | None = None


def may_stand_for(printed: Printed, rounding: Rounding | None) -> Interval:
    """All amounts that may be printed so. rounding: None for a nutrient without a rule."""
    if printed.less_than:
        return Interval(0.0, _most_below(printed.number, None if rounding is None else rounding.less_than))
    if printed.number == 0 and rounding is not None:
        return Interval(0.0, rounding.zero_below)
    stretches = () if rounding is None else rounding.stretches
    parts = [part for stretch in stretches if (part := _rounded_within(printed.number, stretch)) is not None]
    if parts:
        return Interval(min(part.low for part in parts), max(part.high for part in parts))
    half = 0.5 * 10.0**-printed.decimals
    return Interval(max(0.0, printed.number - half), printed.number + half)


def _most_below(number: float, rule: LessThan | None) -> float:
    """What "less than" a number may be at most: the EU prints salt of up to 0.0125 g as "<0.01 g"."""
    return max(number, rule.end) if rule is not None and math.isclose(number, rule.number) else number


def _rounded_within(number: float, stretch: Stretch) -> Interval | None:
    """The amounts of a stretch that round to a number; None where it is no multiple, or none does."""
    multiples = number / stretch.step
    if not math.isclose(multiples, round(multiples), abs_tol=_SAME_MULTIPLE):
        return None
    low, high = max(stretch.start, number - stretch.step / 2), min(stretch.end, number + stretch.step / 2)
    return Interval(low, high) if low <= high else None


def _named(rounding: Rounding, *names: str) -> dict[str, Rounding]:
    return dict.fromkeys(names, rounding)


_INF = math.inf

#: Under 0.5 g is 0; under 1 g may be "less than 1 g", so a printed 1 g may be anything from 0.5 g.
_US_CARBOHYDRATE = Rounding(0.5, (Stretch(0.5, _INF, 1),), LessThan(1, 0.5, 1, end_too=False))
_US_FAT = Rounding(0.5, (Stretch(0.5, 5, 0.5), Stretch(5, _INF, 1)))
_US_MINERAL = Rounding(5, (Stretch(5, 140, 5), Stretch(140, _INF, 10)))

#: By the field of the label.
US: Mapping[str, Rounding] = MappingProxyType(
    {
        # Under 5 kcal may be printed as 0, or to the nearest 5.
        "energy_kcal": Rounding(5, (Stretch(0, 50, 5), Stretch(50, _INF, 10))),
        **_named(_US_FAT, "fat_g", "saturated_fat_g", "trans_fat_g", "monounsaturated_fat_g", "polyunsaturated_fat_g"),
        "cholesterol_mg": Rounding(2, (Stretch(2, _INF, 5),), LessThan(5, 2, 5, end_too=True)),
        **_named(_US_MINERAL, "sodium_mg", "potassium_mg"),
        **_named(_US_CARBOHYDRATE, "total_carbohydrate_g", "fibre_g", "sugars_g", "protein_g", "polyols"),
    }
)

_EU_ENERGY = Rounding(0.5, (Stretch(0, _INF, 1),))
_EU_MACRONUTRIENT = Rounding(0.5, (Stretch(0.5, 10, 0.1), Stretch(10, _INF, 1)), LessThan(0.5, 0, 0.5, end_too=True))
_EU_FATTY_ACIDS = Rounding(0.1, (Stretch(0.1, 10, 0.1), Stretch(10, _INF, 1)), LessThan(0.1, 0, 0.1, end_too=True))
_EU_SALT = Rounding(0.0125, (Stretch(0.0125, 1, 0.01), Stretch(1, _INF, 0.1)), LessThan(0.01, 0, 0.0125, end_too=True))

#: By the field of the label.
EU: Mapping[str, Rounding] = MappingProxyType(
    {
        **_named(_EU_ENERGY, "energy_kcal", "energy_kj"),
        **_named(_EU_MACRONUTRIENT, "fat_g", "carbohydrate_g", "sugars_g", "fibre_g", "protein_g", "polyols"),
        **_named(_EU_FATTY_ACIDS, "saturated_fat_g", "monounsaturated_fat_g", "polyunsaturated_fat_g"),
        "salt_g": _EU_SALT,
    }
)

RULES: Mapping[LabelLayout, Mapping[str, Rounding]] = MappingProxyType({LabelLayout.US: US, LabelLayout.EU: EU})
