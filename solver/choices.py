"""Choices among items: at most so many of these, this only with that, never both. Musts, over whether an item is used.

With b = 1 for an item that is used, each is one or more rows  c @ b >= least.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from enum import Enum

from solver.joins import Joins, nothing_joins


class Then(Enum):
    """What follows where an item of the first group is used."""

    ONE_OF = "one of"
    NONE_OF = "none of"


@dataclass(frozen=True, slots=True)
class ChoiceRow:
    """weights: item name to what its use counts; the sum over the used items is at least `least`."""

    weights: Mapping[str, float]
    least: float

    def holds(self, used: Collection[str]) -> bool:
        """Whether it holds where just these items are used."""
        return sum(weight for name, weight in self.weights.items() if name in used) >= self.least


@dataclass(frozen=True, slots=True)
class Choice:
    """Either how many of `items` are used, from lower to upper, or, with `then`, what goes with any of them.

    id: unique among choices, rules and targets. lower, upper: None for an open side. others: the second group.
    joins, others_join: which foods that the pantry does not have would belong to the groups too.
    """

    id: str
    items: frozenset[str]
    lower: int | None = None
    upper: int | None = None
    then: Then | None = None
    others: frozenset[str] = frozenset()
    joins: Joins = field(default=nothing_joins, compare=False, repr=False)
    others_join: Joins = field(default=nothing_joins, compare=False, repr=False)

    @property
    def names(self) -> frozenset[str]:
        """Every item that it speaks of."""
        return self.items | self.others

    def rows(self) -> tuple[ChoiceRow, ...]:
        """Its rows."""
        if self.then is Then.ONE_OF:
            with_one = dict.fromkeys(self.others, 1.0)
            return tuple(ChoiceRow({**with_one, item: -1.0}, 0.0) for item in sorted(self.items - self.others))
        if self.then is Then.NONE_OF:
            pairs = ((item, other) for item in sorted(self.items) for other in sorted(self.others - {item}))
            return tuple(ChoiceRow({item: -1.0, other: -1.0}, -1.0) for item, other in pairs)
        ends = ((1.0, self.lower), (-1.0, self.upper))
        return tuple(ChoiceRow(dict.fromkeys(self.items, sign), sign * end) for sign, end in ends if end is not None)

    def holds(self, used: Collection[str]) -> bool:
        """Whether it holds where just these items are used."""
        return all(row.holds(used) for row in self.rows())
