"""What became of a component in cooking: weights, the way of its fat, and on what evidence."""

from dataclasses import dataclass
from enum import Enum

from solver.components import Component
from solver.foods import Food

#: Water and fat in 100 g, below which a pan takes nothing that a scale shows, g (our choice).
LEAST_LOSABLE_G = 1.0


class Evidence(Enum):
    """How a number is known: weighed by the cook, from a row of the table for this very food, or from its likes."""

    MEASURED = "measured"
    MATCHED = "matched"
    ESTIMATED = "estimated"


@dataclass(frozen=True, slots=True, eq=False)
class CookedItem:
    """One item in a component, of the whole batch.

    rendered_g: its fat that ran out. lost_g: the part of that which nobody eats. cooked_g: its own weight as eaten,
    drippings apart; None in a mix, where only the whole has one.
    rendered_half_g: nine times in ten rendered_g is off by no more than this; 0 in a mix, which has one for the whole.
    lacks_row: whether no row of the cooking table speaks of it, though it has something to lose.
    """

    name: str
    raw_g: float
    fat_g: float
    rendered_g: float
    lost_g: float
    cooked_g: float | None
    evidence: Evidence
    rendered_half_g: float
    lacks_row: bool
    why: str


@dataclass(frozen=True, slots=True, eq=False)
class CookedComponent:
    """A component, of the whole batch, in grams: raw = cooked + rendered + evaporated, and fat = kept + rendered.

    holding_g: the raw mass that holds fat in a mix. cooked_g: weight as eaten, drippings apart.
    spoons: teaspoons of the drippings that are spooned back.
    returned_g: fat of the drippings that is eaten, all of it when they are served. lost_g: rendered_g less returned_g.
    *_half_g: nine times in ten the number is off by no more than this. weight, fat: the evidence of cooked_g and of
    rendered_g.
    """

    component: Component
    items: tuple[CookedItem, ...]
    raw_g: float
    cooked_g: float
    holding_g: float
    fat_g: float
    rendered_g: float
    returned_g: float
    lost_g: float
    spoons: int
    weight: Evidence
    fat: Evidence
    cooked_half_g: float
    rendered_half_g: float
    why: str

    @property
    def kept_g(self) -> float:
        """Fat that stayed in the food."""
        return self.fat_g - self.rendered_g

    @property
    def eaten_g(self) -> float:
        """Weight on the plates: the food, and the drippings that are eaten."""
        return self.cooked_g + self.returned_g

    @property
    def evaporated_g(self) -> float:
        """What left as steam and juices."""
        return self.raw_g - self.cooked_g - self.rendered_g


def can_lose(food: Food) -> bool:
    """Whether a pan can take anything from it that a scale shows: salt has neither water nor fat to lose."""
    return not food.value("water_g") + food.value("fat_g") < LEAST_LOSABLE_G  # so that unknown is something
