"""Rules of the dish: how much of a group of items goes in, or how much of one group to another, raw.

One egg binds half a kilo of mince; salt is one to one and a half percent of the raw mix, from all sources. A rule is a
band like a target's: a must, or a wish with a priority.
"""

from dataclasses import dataclass
from enum import Enum
from math import isnan

from solver.foods import Food

#: Salt is 2.5 times sodium: Regulation (EU) No 1169/2011, Annex I.
SALT_PER_SODIUM = 2.5


class By(Enum):
    """What of the first group a rule counts: its raw weight, or its salt, from its sodium."""

    RAW_MASS = "raw mass"
    SALT = "salt"


@dataclass(frozen=True, slots=True)
class Group:
    """Items by name, in one component or, where that is None, in all that they go into."""

    items: frozenset[str]
    component: str | None = None

    def holds(self, item: str, component: str) -> bool:
        """Whether an item in a component belongs to it."""
        return item in self.items and self.component in {None, component}


@dataclass(frozen=True, slots=True)
class Rule:
    """lower <= what `of` weighs <= upper: in g for the batch, or, with `to`, in g per g of the raw weight of `to`.

    id: unique among rules and targets. lower, upper: None for an open side. priority: None for a must.
    cites: name of the rule of the trade that it comes from, with where that is from; None for a rule of the cook's own.
    """

    id: str
    of: Group
    by: By = By.RAW_MASS
    to: Group | None = None
    lower: float | None = None
    upper: float | None = None
    priority: int | None = None
    cites: str | None = None

    @property
    def unit(self) -> str:
        """UCUM unit of its numbers."""
        return "g" if self.to is None else "g/g"


def counted_g(food: Food, by: By, count_missing_sodium_mg: float = 0.0) -> float:
    """What 1 g of a food counts in the first group of a rule, g. Unknown sodium counts as given, mg per 100 g."""
    if by is By.RAW_MASS:
        return 1.0
    sodium = food.value("sodium_mg")
    return SALT_PER_SODIUM * (count_missing_sodium_mg if isnan(sodium) else sodium) / 1e5
