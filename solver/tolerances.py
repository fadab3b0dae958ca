"""How far the food may be from what its label declares.

US  21 CFR 101.9(g), as explained in FDA, Guide for Developing and Using Data Bases for Nutrition Labeling (March 1998),
    quoted in a secondary source; trans fat in the third group is from memory. The limits are one-sided: of what one
    wants enough there must not be too little, of what one wants little there must not be too much. So they can
    guarantee neither a carbohydrate ceiling (only too little carbohydrate is a breach) nor a fat floor (only too much
    fat is).
EU  European Commission, Guidance document on tolerances for nutrient values declared on a label (December 2012), quoted
    in secondary sources; the rows of sodium and salt are from memory. Two-sided, for values of 100 g. It has no row
    for energy.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType

from solver.label_rounding import Interval

#: Distances below this part of a limit are floating-point noise.
_NOISE = 1e-9


class UsGroup(Enum):
    """Groups of 21 CFR 101.9(g). share: the limit on what is found, as a part of what is declared."""

    CLASS_I = ("Class I (added)", 1.0, False)
    CLASS_II = ("Class II (naturally occurring)", 0.8, False)
    THIRD_GROUP = ("third group", 1.2, True)

    def __init__(self, title: str, share: float, is_ceiling: bool) -> None:  # noqa: FBT001  rows of a table
        self.title, self.share, self.is_ceiling = title, share, is_ceiling


@dataclass(frozen=True, slots=True)
class UsBreach:
    """limit: the least or most that may be found; by: how far the food is beyond it; both in the nutrient's unit."""

    group: UsGroup
    limit: float
    by: float


_THIRD_GROUP = frozenset(
    {"energy_kcal", "fat_g", "saturated_fat_g", "trans_fat_g", "cholesterol_mg", "sodium_mg", "sugars_g"}
)
_CLASSES = frozenset(
    {
        *("protein_g", "total_carbohydrate_g", "fibre_g", "monounsaturated_fat_g", "polyunsaturated_fat_g"),
        *("potassium_mg", "calcium_mg", "iron_mg", "magnesium_mg", "phosphorus_mg", "zinc_mg", "copper_mg"),
        *("manganese_mg", "selenium_ug", "vitamin_a_rae_ug", "vitamin_c_mg", "thiamin_mg", "riboflavin_mg"),
        *("niacin_mg", "pantothenic_acid_mg", "vitamin_b6_mg", "folate_dfe_ug", "vitamin_b12_ug", "choline_mg"),
        *("vitamin_d_ug", "vitamin_e_mg", "vitamin_k_ug"),
    }
)


def us_group(name: str, *, fortified: bool = False) -> UsGroup | None:
    """The group of a nutrient; None where it has none. fortified: it was added to the food."""
    if name in _THIRD_GROUP:
        return UsGroup.THIRD_GROUP
    if name in _CLASSES:
        return UsGroup.CLASS_I if fortified else UsGroup.CLASS_II
    return None


def us_complies(name: str, declared: float, true_value: float, *, fortified: bool = False) -> UsBreach | None:
    """How the food breaches what is declared of a nutrient; None where it complies, or the nutrient has no group.

    One-sided, so that less fat, or more carbohydrate, than declared is no breach: these limits can guarantee neither
    a carbohydrate ceiling nor a fat floor. declared, true_value: of the same amount of food, in the same unit.
    """
    group = us_group(name, fortified=fortified)
    if group is None:
        return None
    limit = declared * group.share
    by = true_value - limit if group.is_ceiling else limit - true_value
    return UsBreach(group, limit, by) if by > _NOISE * max(1.0, limit) else None


@dataclass(frozen=True, slots=True)
class _Allowance:
    """Up to `upto` a declared value may be off by `plain`, and by `percent` of itself; one of them is None."""

    upto: float
    plain: float | None = None
    percent: float | None = None


_FIFTH = 20.0

# A band holds its upper end, except the first: 10 g of fat already have 20 %. At 10 g fat jumps from 1.5 to 2 g.
_MACRONUTRIENT = (_Allowance(10, plain=2), _Allowance(40, percent=_FIFTH), _Allowance(math.inf, plain=8))
_FAT = (_Allowance(10, plain=1.5), *_MACRONUTRIENT[1:])
_FATTY_ACIDS = (_Allowance(4, plain=0.8), _Allowance(math.inf, percent=_FIFTH))
_SODIUM_MG = (_Allowance(500, plain=150), _Allowance(math.inf, percent=_FIFTH))
_SALT = (_Allowance(1.25, plain=0.375), _Allowance(math.inf, percent=_FIFTH))

_EU: Mapping[str, tuple[_Allowance, ...]] = MappingProxyType(
    {
        **dict.fromkeys(("carbohydrate_g", "total_carbohydrate_g", "available_carbohydrate_g"), _MACRONUTRIENT),
        **dict.fromkeys(("sugars_g", "protein_g", "fibre_g"), _MACRONUTRIENT),
        "fat_g": _FAT,
        **dict.fromkeys(("saturated_fat_g", "monounsaturated_fat_g", "polyunsaturated_fat_g"), _FATTY_ACIDS),
        "sodium_mg": _SODIUM_MG,
        "salt_g": _SALT,
    }
)


def eu_range(name: str, declared_per_100g: float) -> Interval | None:
    """What 100 g may hold of a nutrient, given what is declared for 100 g (finite); None for one without a row."""
    allowances = _EU.get(name)
    if allowances is None:
        return None
    allowed = next(part for part in allowances if declared_per_100g < part.upto)
    off = declared_per_100g * (allowed.percent or 0.0) / 100 if allowed.plain is None else allowed.plain
    return Interval(max(0.0, declared_per_100g - off), declared_per_100g + off)
