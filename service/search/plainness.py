"""How far a food is from the plain, raw ingredient that a word usually means, by its group and the words of its name.

The weights are ours, in the unit of the index's relevance (bm25); they decide among names that fit a query alike.
"""

from collections.abc import Mapping
from types import MappingProxyType

from service.search.words import split
from solver.catalogue import name_parts

#: Groups of dishes and of foods for few.
_GROUPS: Mapping[str, float] = MappingProxyType(
    {
        "Baby Foods": 8.0,
        "Fast Foods": 8.0,
        "Restaurant Foods": 8.0,
        "Meals, Entrees, and Side Dishes": 6.0,
        "American Indian/Alaska Native Foods": 5.0,
        "Soups, Sauces, and Gravies": 3.0,
        "Baked Products": 3.0,
        "Snacks": 3.0,
        "Sweets": 3.0,
        "Breakfast Cereals": 3.0,
        "Beverages": 2.0,
        "Sausages and Luncheon Meats": 1.0,
    }
)

_ODD = ("commodity", "imitation", "industrial", "substitute", "formulated", "analog", "meatless", "imported", "wild")
_ALTERED = ("reduced", "low", "lowfat", "nonfat", "free", "fortified", "added", "light", "solution", "flavored")
_TREATED = ("cooked", "canned", "frozen", "dried", "roasted", "smoked", "dehydrated", "powder", "pickled", "sweetened")
_PLAIN = ("raw", "unprepared", "fresh", "plain", "regular", "whole")


def distance(name: str, group: str) -> float:
    """Less is plainer: below 0 for a raw food of a short name, up to about 15."""
    words = set(split(name))
    return (
        _GROUPS.get(group, 0.0)
        + 3.0 * len(words.intersection(_ODD))
        + 1.0 * len(words.intersection(_ALTERED))
        + 1.0 * len(words.intersection(_TREATED))
        - 1.0 * len(words.intersection(_PLAIN))
        + 0.2 * len(name_parts(name))
    )
