"""What may go into the dish: a food, how much there is of it, and the amounts a kitchen can take of it."""

from dataclasses import dataclass
from datetime import date

from solver.components import UNCOOKED, Placed
from solver.foods import Food


@dataclass(frozen=True, slots=True)
class Step:
    """The smallest amount a kitchen measures of an item: `amount` of `unit` weighs `grams` (1 "large" 50 g)."""

    amount: float
    unit: str
    grams: float


@dataclass(frozen=True, slots=True)
class PantryItem:
    """One item; all weights are grams of edible portion for the whole batch.

    on_hand_g: None when there is as much as one likes. at_most_g: None when only the stock limits it.
    step: None when the item is weighed to 0.1 g. least_when_used_g: zero or at least this; None for no such rule.
    price_per_g: in whatever currency the brief uses throughout; None when unknown.
    edible_g_per_g: edible portion of what is weighed as purchased; 1 where the edible portion is weighed.
    use_by: the day by which it has to be used; None for what keeps.
    use_up_order: its place in the order in which things are to be used up, 1 first; None for what need not be.
    to_buy: whether it is not at home and has to be bought, as far as anything of it is used.
    placed: the components that it may go into, at least one.
    """

    name: str
    food: Food
    on_hand_g: float | None = None
    at_least_g: float = 0.0
    at_most_g: float | None = None
    step: Step | None = None
    least_when_used_g: float | None = None
    price_per_g: float | None = None
    placed: tuple[Placed, ...] = (UNCOOKED,)
    use_by: date | None = None
    use_up_order: int | None = None
    to_buy: bool = False
    edible_g_per_g: float = 1.0


def is_in_already(item: PantryItem) -> bool:
    """Whether just that much of it is in, no more and no less: a single step of its own weight."""
    return item.step is not None and item.step.grams == item.at_least_g == item.at_most_g
