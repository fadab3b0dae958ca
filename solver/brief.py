"""A brief: everything one plan is asked for."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from solver.choices import Choice
from solver.closest import Base
from solver.components import AS_IT_IS, Component
from solver.holds import Holds
from solver.pantry import PantryItem
from solver.protein import COLLAGEN_PART
from solver.rules import Rule
from solver.targets import Target


class EnergyBasis(Enum):
    """Which energy factors a brief counts with; see `energy`."""

    GENERAL = "general"
    REGULATION = "regulation"
    SPECIFIC = "specific"
    DECLARED = "declared"


class Preference(Enum):
    """What to seek among the plans that meet every target, in the order given."""

    BALANCED = "balanced"
    CHEAPEST = "cheapest"
    USE_UP_FIRST = "use up first"
    FEWEST_INGREDIENTS = "fewest ingredients"
    FEWEST_PURCHASES = "fewest new purchases"
    CLOSEST = "closest to"


@dataclass(frozen=True, slots=True)
class Brief:
    """One brief. portions: a whole number, at least 1. time_limit_s: for all levels together.

    count_missing_as: nutrient name to the amount per 100 g that an item without a value is counted with;
    an item that lacks a nutrient which a target needs, and is not named here, is left out and reported.
    collagen_part: for a least amount of protein, collagen counts for at most this part of it; 1 counts all of it.
    leave_out: names of items that take no part.
    only_if_needed: those of them that are at home and may be added where there is no plan without.
    components: empty when everything goes into one dish that is eaten as it is.
    base: the dish to stay close to, where a preference asks for that; None without one.
    holds: the compositions that every must target has to hold for; None for what is stated alone.
    """

    title: str
    portions: int
    pantry: tuple[PantryItem, ...]
    targets: tuple[Target, ...]
    prefer: tuple[Preference, ...] = (Preference.BALANCED,)
    energy_basis: EnergyBasis = EnergyBasis.GENERAL
    count_missing_as: Mapping[str, float] = field(default_factory=dict)
    time_limit_s: float = 2.0
    collagen_part: float = COLLAGEN_PART
    leave_out: frozenset[str] = frozenset()
    only_if_needed: frozenset[str] = frozenset()
    rules: tuple[Rule, ...] = ()
    choices: tuple[Choice, ...] = ()
    components: tuple[Component, ...] = ()
    base: Base | None = None
    holds: Holds | None = None

    @property
    def parts(self) -> tuple[Component, ...]:
        """The components, at least one."""
        return self.components or (AS_IT_IS,)
