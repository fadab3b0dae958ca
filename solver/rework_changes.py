"""What changed between a base dish and a plan, use by use, and why."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from solver.closest import SAME_G, Base, UseName
from solver.cook import SPOON_G
from solver.outcome import Member, Plan, Quantity
from solver.pantry import PantryItem, Step
from solver.rework_base import grams_by_use


class Because(Enum):
    """Why an amount changed."""

    ASKED = "asked by the cook"
    REASON = "mends what was tasted"
    EXCLUDED = "left out by exclude"
    NEEDED = "needed"
    NEARER = "the nearest way"
    NOT_SHOWN = "not shown in time"


@dataclass(frozen=True, slots=True)
class Why:
    """text: what was said, or what the fix is; None for other kinds.

    members: of NEEDED, what cannot be had together while the amount stays as it was; of NOT_SHOWN, the limits that the
    dish stands at; of NEARER, what is missed where only this change is undone. instead: of NEARER, how far the nearest
    dish is that leaves the amount as it was.
    """

    because: Because
    text: str | None = None
    members: tuple[Member, ...] = ()
    instead: float | None = None


@dataclass(frozen=True, slots=True)
class Change:
    """item: None for drippings, which are counted in teaspoons. words: the amount before, as it was written.

    before_g, after_g: grams, raw. after: the amount now; None for none of it, and for drippings.
    """

    use: UseName
    item: PantryItem | None
    before_g: float
    after_g: float
    words: Step | None
    after: Quantity | None
    tasted: bool
    why: tuple[Why, ...] = ()

    @property
    def teaspoons(self) -> tuple[int, int] | None:
        """Of drippings, before and after; None for items."""
        return None if self.item is not None else (round(self.before_g / SPOON_G), round(self.after_g / SPOON_G))


def changes(base: Base, plan: Plan) -> tuple[Change, ...]:
    """Every use whose amount is not what it was: items in the order of the pantry, then drippings."""
    after = grams_by_use(plan.dish)
    quantities = {(each.item.name, each.placed.component): each for each in plan.dish.quantities}
    items = {item.name: item for item in plan.brief.pantry}
    place = {name: number for number, name in enumerate(items)}
    uses = sorted({*base.by_use, *after}, key=lambda use: (place.get(use[0], len(place)), use))
    found = (_change(use, base, after, quantities, items) for use in uses)
    return tuple(change for change in found if abs(change.after_g - change.before_g) > SAME_G)


def _change(
    use: UseName,
    base: Base,
    after: Mapping[UseName, float],
    quantities: Mapping[UseName, Quantity],
    items: Mapping[str, PantryItem],
) -> Change:
    amount = base.by_use.get(use)
    return Change(
        use=use,
        item=items.get(use[0]),
        before_g=0.0 if amount is None else amount.grams,
        after_g=after.get(use, 0.0),
        words=None if amount is None else amount.words,
        after=quantities.get(use),
        tasted=amount is not None and amount.tasted,
    )
