"""Foods whose protein is collagen: gelatine, collagen powder and pork rind.

Collagen has no tryptophan and little else that the body cannot make, so it counts for little as protein.
"""

import re

from solver.foods import Food

#: Names, as food tables and labels write them. A dessert of gelatine is mostly sugar, and no source of protein.
_COLLAGEN = re.compile(
    r"\bgelatine?s?\b(?! dessert)|\bcollagen\b|\bisinglass\b|\bpork (rinds?|skins?|cracklings?|scratchings?)\b"
    r"|\bpork crackling\b|\bpork, .*\b(rind|skin)s? only\b|\bchicharr[oó]n(es)?\b|\baspic\b"
)

#: Names that hold one of the words and are something else.
_OTHERWISE = re.compile(r"\b(without|no|free of) (added )?gelatin|gelatine?-free|collagen casing")


def is_collagen(food: Food) -> bool:
    """Whether a food's protein is collagen, by its name. The skin of poultry is not counted: most of it is fat."""
    low = food.name.lower()
    return _COLLAGEN.search(low) is not None and _OTHERWISE.search(low) is None
