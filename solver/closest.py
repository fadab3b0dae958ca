"""How far a dish is from a base dish: what has changed, and by how much of what there was.

Each use (an item in a component, or drippings that are spooned back) that changes counts one, and what it changed by,
as a part of its own amount, comes on top:

    distance = sum over uses of  weight * (1 if changed + |grams - base_g| / normaliser_g)

So one item that doubles (2) is nearer than two that change by a fifth (2.4), and two such are nearer than one that
trebles (3). All of it is our choice:

- the normaliser is the base amount itself, at least 1 g; of an item that stands in for another, that one's amount; of
  any other new item, the mean amount of the base dish;
- the weight is 1 for what was measured, and a half for what was only tasted: such an amount is not known well, so
  correcting it changes less of what is known.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from solver.numerics import BoolArray, FloatArray
from solver.pantry import Step

#: A use: name of an item, or of drippings, and of the component.
UseName: TypeAlias = tuple[str, str]

#: What a change of an amount counts that was tasted and not measured.
TASTED_WEIGHT = 0.5

#: The least that a change is measured against, g: a pinch that is doubled is no great change.
LEAST_NORMALISER_G = 1.0

#: Grams nearer than which two amounts are the same.
SAME_G = 1e-6


@dataclass(frozen=True, slots=True)
class BaseAmount:
    """So much of one item was in one component. Of drippings, `item` is as `drippings_named` has it.

    words: the amount as a single step, in the words it was written in. tasted: nobody measured it.
    """

    item: str
    component: str
    grams: float
    words: Step | None = None
    tasted: bool = False

    @property
    def use(self) -> UseName:
        """The use that it is the amount of."""
        return (self.item, self.component)


@dataclass(frozen=True, slots=True)
class Base:
    """A base dish. amounts: one for each use, at least one; what is not named was not in.

    stands_in: name of a new item to the name of the item that it stands in for.
    """

    amounts: tuple[BaseAmount, ...]
    stands_in: Mapping[str, str] = field(default_factory=dict)

    @property
    def by_use(self) -> Mapping[UseName, BaseAmount]:
        """The amounts by their use."""
        return {amount.use: amount for amount in self.amounts}

    def grams(self, item: str) -> float:
        """Grams of an item in all components."""
        return sum(amount.grams for amount in self.amounts if amount.item == item)

    def weight(self, use: UseName) -> float:
        """What its change counts."""
        amount = self.by_use.get(use)
        return TASTED_WEIGHT if amount is not None and amount.tasted else 1.0

    def normaliser_g(self, use: UseName) -> float:
        """What its change is measured against, g."""
        amount = self.by_use.get(use)
        if amount is not None and amount.grams > 0:
            return max(amount.grams, LEAST_NORMALISER_G)
        replaced = self.grams(self.stands_in[use[0]]) if use[0] in self.stands_in else 0.0
        return max(replaced or self._mean_g(), LEAST_NORMALISER_G)

    def _mean_g(self) -> float:
        there = [amount.grams for amount in self.amounts if amount.grams > 0]
        return sum(there) / len(there) if there else 0.0


@dataclass(frozen=True, slots=True)
class Distance:
    """changed: how many uses changed, each by its weight. relative: by how much of what there was, weighted."""

    changed: float
    relative: float

    @property
    def total(self) -> float:
        """The distance itself."""
        return self.changed + self.relative


@dataclass(frozen=True, slots=True, eq=False)
class Near:
    """A base dish over the uses of a layout; every array is (uses,).

    posed: base amounts in column units, as the programme can have them. grams: exactly. normaliser_g, weight: as of
    `Base`. words: the amount in its own words; None where it has none, or is not in the base.
    """

    posed: FloatArray
    grams: FloatArray
    normaliser_g: FloatArray
    weight: FloatArray
    words: tuple[Step | None, ...]

    def is_base(self, grams: FloatArray, within_g: float) -> BoolArray:
        """Where amounts are those of the base, and there are any."""
        return (self.grams > 0) & (abs(grams - self.grams) < within_g)


def distance(base: Base, grams: Mapping[UseName, float]) -> Distance:
    """How far a dish is. grams: of each use; what is not named is not in."""
    changed = relative = 0.0
    for use in sorted({*grams, *base.by_use}):
        before = base.by_use[use].grams if use in base.by_use else 0.0
        off = abs(grams.get(use, 0.0) - before)
        if off > SAME_G:
            changed += base.weight(use)
            relative += base.weight(use) * off / base.normaliser_g(use)
    return Distance(changed, relative)
