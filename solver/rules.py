"""Rules of the dish: how much of a group of items goes in, or how much of one group to another.

One egg binds half a kilo of mince; salt is one to one and a half percent of the raw mix, from all sources; a portion of
cooked meat is 120 to 180 g. A rule is a band like a target's: a must, or a wish with a priority.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from math import isnan
from types import MappingProxyType

from solver.foods import Food
from solver.joins import Joins, nothing_joins

#: Salt is 2.5 times sodium: Regulation (EU) No 1169/2011, Annex I.
SALT_PER_SODIUM = 2.5


class By(Enum):
    """What of the first group a rule counts.

    RAW_MASS: grams as weighed out. SALT: grams of salt, from its sodium. AS_EATEN_MASS: grams on the plate, drippings
    apart. PIECES: of what is counted out, how many. ENERGY_SHARE: percent of the dish's macro energy, as eaten.
    """

    RAW_MASS = "raw mass"
    SALT = "salt"
    AS_EATEN_MASS = "as-eaten mass"
    PIECES = "pieces"
    ENERGY_SHARE = "share of energy"


@dataclass(frozen=True, slots=True)
class Group:
    """Items by name, in one component or, where that is None, in all that they go into.

    joins: which foods that the pantry does not have would belong to it too.
    """

    items: frozenset[str]
    component: str | None = None
    joins: Joins = field(default=nothing_joins, compare=False, repr=False)

    def holds(self, item: str, component: str) -> bool:
        """Whether an item in a component belongs to it."""
        return item in self.items and self.component in {None, component}


@dataclass(frozen=True, slots=True)
class Rule:
    """lower <= what `of` comes to <= upper: for the batch, or, with `to`, in g per g of the weight of `to`.

    `to` weighs as eaten where the first group does, and raw otherwise. Pieces and a share of energy have no `to`.

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
        return _UNIT[self.by] if self.to is None else "g/g"

    @property
    def is_ratio(self) -> bool:
        """Whether what it bounds is a part of something that is chosen too."""
        return self.to is not None or self.by is By.ENERGY_SHARE

    @property
    def to_by(self) -> By:
        """What of the second group counts."""
        return By.AS_EATEN_MASS if self.by is By.AS_EATEN_MASS else By.RAW_MASS


_UNIT: Mapping[By, str] = MappingProxyType(
    {By.RAW_MASS: "g", By.SALT: "g", By.AS_EATEN_MASS: "g", By.PIECES: "{piece}", By.ENERGY_SHARE: "%"}
)


def counted_g(food: Food, by: By, count_missing_sodium_mg: float = 0.0) -> float:
    """What 1 g of a food counts in a group, by salt or by mass, g. Unknown sodium counts as given, mg per 100 g."""
    if by is not By.SALT:
        return 1.0
    sodium = food.value("sodium_mg")
    return SALT_PER_SODIUM * (count_missing_sodium_mg if isnan(sodium) else sodium) / 1e5
