"""What the cook names in place of something: where that was, and as much of it as does the same.

The least that meets the targets would be no answer: a pinch of lard for all the butter of a sauce.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from solver.brief import Brief
from solver.closest import Base
from solver.pantry import PantryItem
from solver.rework_said import Said
from solver.rules import Group, Rule
from solver.substitutes_suited import LeftOut
from solver.substitutes_table import StandIns


@dataclass(frozen=True, slots=True)
class Named:
    """One item that may be used in place of others. id: of what is said.

    grams: how much of it stands for them, with what there is of it; 0 for any amount. components: where they were.
    """

    id: str
    item: str
    grams: float
    components: frozenset[str]


def named_of(said: Iterable[Said], brief: Brief, base: Base, stand_ins: StandIns) -> tuple[Named, ...]:
    """Every item that may be used instead, once for each thing that is said."""
    items = {item.name: item for item in brief.pantry}
    found: list[Named] = []
    for each in said:
        lefts = [LeftOut.of(items[name], each.component, brief, base, stand_ins) for name in sorted(each.items)]
        where = frozenset(use.component for left in lefts for use in left.uses)
        for name in sorted(each.instead):
            grams = sum(left.stands_for_g(items[name].food, stand_ins) for left in lefts)
            found.append(Named(each.id, name, base.grams(name) + grams, where))
    return tuple(found)


def with_named(brief: Brief, base: Base, named: Iterable[Named]) -> Brief:
    """The brief with none or at least so much of each, or all that there is of it; elsewhere no more than there was."""
    items = {item.name: item for item in brief.pantry}
    rules: list[Rule] = []
    for each in named:
        rules.extend(_elsewhere(each, items[each.item], base))
        items[each.item] = _at_least(items[each.item], each.grams)
    return replace(brief, pantry=tuple(items.values()), rules=(*brief.rules, *rules))


def _elsewhere(named: Named, item: PantryItem, base: Base) -> Iterator[Rule]:
    """Rules for the places where what it replaces was not; none where it may go nowhere else."""
    places = frozenset(placed.component for placed in item.placed)
    for component in sorted(places - named.components) if places & named.components else ():
        amount = base.by_use.get((item.name, component))
        called = f"{named.id}, no more {item.name} in {component}"
        yield Rule(called, Group(frozenset({item.name}), component), upper=0.0 if amount is None else amount.grams)


def _at_least(item: PantryItem, grams: float) -> PantryItem:
    limits = [limit for limit in (item.on_hand_g, item.at_most_g) if limit is not None]
    least = max(min([*limits, round(grams, 1)]), item.least_when_used_g or 0.0)
    return replace(item, least_when_used_g=least) if least > 0 else item
