"""Which items are off together: all of them, or, within a budget, no more than so many at once.

That is the budget of Bertsimas and Sim, The Price of Robustness (Operations Research 52, 2004, from memory), written
out: a row for each choice of items comes to what one row less the sum of the largest deviations does.
"""

from collections.abc import Iterable
from itertools import combinations
from math import comb

#: In how many ways items may be off, at most; each is a row of its own for every end of a must.
MOST_WAYS = 200


def ways_off(items: int, most_off: int | None) -> Iterable[tuple[int, ...]]:
    """Which items are off together: all, or each choice of at most so many; all again where these are too many."""
    if most_off is None or most_off >= items or comb(items, most_off) > MOST_WAYS:
        return (tuple(range(items)),)
    return combinations(range(items), most_off)
