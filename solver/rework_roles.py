"""What a food does for the taste of a dish, as the table of fixes names it (our choice of numbers and words)."""

import re

from solver.foods import Food
from solver.roles import Role, role_of

#: From so much on, g or mg in 100 g, a food is added for its fat, or for its salt: butter, oil; salt, soy sauce.
FAT_G, SODIUM_MG = 75.0, 5000.0

#: From so much fat on, g in 100 g, less of a food makes a dish less greasy, though it is there for more than its fat:
#: bacon, cheese, thick cream.
RICH_G = 30.0

#: The least water of what is poured, g in 100 g.
POURED_WATER_G = 50.0

#: From so much water on, g in 100 g, what is mostly fat keeps a dish from being dry: sour cream, cream cheese.
MOIST_WATER_G = 40.0

_SPICES = "Spices and Herbs"
_POURED_GROUPS = frozenset({"Beverages", "Soups, Sauces, and Gravies"})
_POURED = frozenset({"water", "broth", "stock", "juice", "milk", "cream", "vinegar", "wine", "buttermilk", "kefir"})
_SOUR = frozenset({"lemon", "lime", "vinegar", "verjuice"})


def roles_of(food: Food) -> frozenset[str]:
    """Those of "fat", "rich", "moist", "liquid", "salt", "acid" and "spice" that it has; a food may have none."""
    words = set(re.findall(r"[a-z]+", food.name.casefold().split(",")[0]))
    poured = bool(words & _POURED) or food.group in _POURED_GROUPS
    found = {
        "fat": food.value("fat_g") >= FAT_G,
        "rich": food.value("fat_g") >= RICH_G or role_of(food) is Role.FAT,
        "moist": role_of(food) is Role.FAT and food.value("water_g") >= MOIST_WATER_G,
        "liquid": poured and food.value("water_g") >= POURED_WATER_G,
        "salt": food.value("sodium_mg") >= SODIUM_MG,
        "acid": bool(words & _SOUR),
        "spice": food.group == _SPICES,
    }
    return frozenset(role for role, has in found.items() if has)
