"""What a food does in a dish, so that another can do it in its place: fat, protein, binding, liquid, salt, or bulk.

The numbers are our choice; what binds is common practice, no source. What stands in for an egg binds and does nothing
else that an egg does: it neither foams nor sets like one.
"""

import re
from enum import Enum
from math import dist, isnan

from solver.foods import Food

#: From so much sodium on a food is added for its salt, mg in 100 g: salt, soy sauce, stock powder.
SALT_MG = 5000.0

#: With so much fat it is there for more than its salt, g in 100 g: salted seeds.
SALT_FAT_G = 10.0

#: From so much fat on, g in 100 g, or such a part of its energy, with no more than so much protein, a food brings fat:
#: butter, oil, cream, cream cheese, but neither meat nor nuts.
FAT_G, FAT_PART, FAT_PROTEIN_G = 50.0, 0.85, 7.0

#: From so much protein on, g in 100 g, a food brings protein: meat, fish, cheese, curd.
PROTEIN_G = 10.0

#: From so much water on, g in 100 g, with no more than so much fibre, a food is poured.
LIQUID_WATER_G, LIQUID_FIBRE_G = 88.0, 0.3

#: kcal per g, to weigh fat against the rest (Atwater's general factors).
_KCAL = {"fat_g": 9.0, "protein_g": 4.0, "total_carbohydrate_g": 4.0}

_BINDS = frozenset({"egg", "gelatin", "gelatins", "psyllium", "xanthan", "cornstarch", "arrowroot"})

#: What likeness is measured by, per 100 g.
_LIKENESS = ("fat_g", "protein_g", "total_carbohydrate_g", "water_g")


class Role(Enum):
    """What a food is in a dish for."""

    FAT = "fat"
    PROTEIN = "protein"
    BINDER = "binder"
    LIQUID = "liquid"
    SALT = "salt"
    BULK = "bulk"


def role_of(food: Food) -> Role:
    """What it is in a dish for, the first that fits: salt, binder, fat, protein, liquid; else it is bulk."""
    words = re.findall(r"[a-z]+", food.name.casefold())
    if _amount(food, "sodium_mg") >= SALT_MG and _amount(food, "fat_g") < SALT_FAT_G:
        return Role.SALT
    if set(words[:1]) & _BINDS and "cooked" not in words:
        return Role.BINDER
    if _is_fat(food):
        return Role.FAT
    if _amount(food, "protein_g") >= PROTEIN_G:
        return Role.PROTEIN
    if _amount(food, "water_g") >= LIQUID_WATER_G and _amount(food, "fibre_g") <= LIQUID_FIBRE_G:
        return Role.LIQUID
    return Role.BULK


def unlikeness(one: Food, other: Food) -> float:
    """How far two foods are apart by what they are made of, g in 100 g; 0 for the same composition."""
    return dist([_amount(one, name) for name in _LIKENESS], [_amount(other, name) for name in _LIKENESS])


def _is_fat(food: Food) -> bool:
    rich = _amount(food, "fat_g") >= FAT_G or _fat_part(food) >= FAT_PART
    return rich and _amount(food, "protein_g") <= FAT_PROTEIN_G


def _fat_part(food: Food) -> float:
    energy = {name: _amount(food, name) * kcal for name, kcal in _KCAL.items()}
    total = sum(energy.values())
    return energy["fat_g"] / total if total > 0 else 0.0


def _amount(food: Food, name: str) -> float:
    """What is not known is taken as none; the solve that confirms a substitute counts it properly."""
    value = food.value(name)
    return 0.0 if isnan(value) else value
