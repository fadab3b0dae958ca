"""The foods nearest to one that is not in the table, said in words for a remedy."""

import re
from collections.abc import Iterator

from service.search.index import FoodSearch
from solver.catalogue import Catalogue

#: Foods that a remedy names.
_MOST = 3

#: Letters of an unknown id that are looked at.
_LONGEST = 200

_ID = re.compile(r"(?:[a-z0-9]+:)?([0-9]{1,5})", re.ASCII)


def nearest_foods(food_id: str, catalogue: Catalogue, search: FoodSearch, name: str = "") -> str:
    """How to mend an unknown id: the nearest foods by name and id, when there are any, and where to look others up.

    name: what the food is called; it says more of the food that is meant than a wrong id. The id may be a name too.
    """
    number = _ID.fullmatch(food_id)
    ids = search.find(name, _MOST).ids
    if not ids and number is None:
        ids = search.find(food_id[:_LONGEST], _MOST).ids
    elif not ids and number is not None:
        slips = dict.fromkeys(f"sr28:{digits}" for digits in _one_slip_away(number[1].zfill(5)))
        ids = tuple(each for each in slips if each in catalogue)[:_MOST]
    near = "; ".join(f"{catalogue.food(each).name} ({each})" for each in ids)
    return (f"Near it: {near}. " if near else "") + "GET /v1/foods?query= finds a food and its id."


def _one_slip_away(digits: str) -> Iterator[str]:
    """The number itself, which may have lacked its leading zero; two neighbours swapped; one digit another."""
    yield digits
    for place in range(len(digits) - 1):
        yield digits[:place] + digits[place + 1] + digits[place] + digits[place + 2 :]
    for place in reversed(range(len(digits))):
        yield from (digits[:place] + digit + digits[place + 1 :] for digit in "0123456789")
