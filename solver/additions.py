"""Ways out of a conflict by one more food: of which a little is enough, how much, and the plan that it leads to.

What is added is eaten as it is: it goes into a component that is not cooked, and into one of its own where there is
none. The search (see `addition_search`) finds the least grams of every food that could be the best; each proposal is
then solved with the food in the pantry, at most so much of it, and leaves with its plan.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from solver.addition_search import AdditionSearch, Found
from solver.backends.base import Backend
from solver.brief import Brief, Preference
from solver.components import UNCOOKED, Component, Placed
from solver.confirmed import plan_of
from solver.deadline import Deadline
from solver.foods import Food
from solver.joining import door, joined, joined_for_search
from solver.kitchen_measure import KitchenMeasure, kitchen_measure
from solver.outcome import Conflict, Plan
from solver.pantry import PantryItem
from solver.practical import Eligible
from solver.sensible import outward

#: Most of a food that is proposed, g a portion: a bowl of salad (our choice).
MOST_ADDED_G = 300.0

#: Proposals, of different kinds.
WANTED = 3

#: Room that a plan in printed amounts is given beyond the least grams: so many grams, and so much of them.
ROOM = ((0.5, 0.01), (2.0, 0.05), (10.0, 0.25))

#: Part of the time left that the search may take, and that one plan may take.
SEARCH_SHARE, PLAN_SHARE = 0.7, 0.3

#: Name of the component that is added where every other is cooked.
AT_THE_TABLE = "at the table"


@dataclass(frozen=True, slots=True)
class Addition:
    """One food that makes the brief possible.

    kind: what it is to a cook. component: where it goes. least_g: no less of it will do, g for the batch (drippings of
    several sources counted by the worst of them). proven: and less of no other food will do that may be added and is of
    another kind than those before it; of what is at home, that no less of it will do. grams: in the plan. measure:
    those as a cook measures them; None where none fits. item: its name in the pantry; None for what is not at home.
    """

    food: Food
    kind: str
    component: str
    least_g: float
    proven: bool
    grams: float
    measure: KitchenMeasure | None
    plan: Plan
    item: str | None = None


def additions(
    conflict: Conflict, eligible: Eligible, backend: Backend, deadline: Deadline, wanted: int = WANTED
) -> tuple[Addition, ...]:
    """The smallest additions of one food each, of different kinds, the smallest first.

    Empty where no food helps, and where the clock ends first.
    """
    offered = Offered.of(conflict.brief, eligible)
    search = AdditionSearch(offered.brief, offered.names, backend, deadline.share(SEARCH_SHARE))
    try:
        return tuple(_proposals(offered, search, backend, deadline, wanted))
    finally:
        search.close()


@dataclass(frozen=True, slots=True, eq=False)
class Offered:
    """A brief and what may be added to it.

    brief: with every food in its pantry, for the search. names: of these items, in the order of the foods. component:
    where they go. asked: the brief as asked, with that component.
    """

    brief: Brief
    eligible: Eligible
    names: tuple[str, ...]
    component: str
    asked: Brief

    @staticmethod
    def of(brief: Brief, eligible: Eligible) -> "Offered":
        """Put foods into a pantry: of one that is eaten as it is already, more on hand is another way out."""
        as_it_is = {part.name for part in brief.parts if part.method is None}
        meant = (item for item in brief.pantry if item.name not in brief.only_if_needed)
        there = {item.food.id for item in meant if any(each.component in as_it_is for each in item.placed)}
        roomy, placed = _with_table(brief)
        fresh = replace(eligible, foods=tuple(each for each in eligible.foods if each.food.id not in there))
        may_join, items = door(brief), _as_items(fresh, brief, placed)
        places = [place for place, item in enumerate(items) if may_join(item)]
        foods, items = tuple(fresh.foods[place] for place in places), [items[place] for place in places]
        # What is preferred does not matter to a search for the least grams, and may need a switch for every food.
        wide = replace(joined_for_search(roomy, items), prefer=(Preference.BALANCED,))
        names = tuple(item.name for item in items)
        return Offered(wide, replace(eligible, foods=foods), names, placed.component, roomy)

    def allowed(self, number: int) -> bool:
        """Whether a food is not excluded."""
        return self.eligible.allowed(self.eligible.foods[number].food)

    def with_one(self, number: int, most_g: float) -> Brief:
        """The brief as asked with one of the foods, at most so much of it."""
        first = len(self.asked.pantry)
        item = replace(self.brief.pantry[first + number], at_most_g=most_g)
        return replace(joined(self.asked, [item]), prefer=_preferences(self.asked))


def _as_items(eligible: Eligible, brief: Brief, placed: Placed) -> list[PantryItem]:
    """Each food as an item of its own name."""
    taken = frozenset(item.name for item in brief.pantry)
    most, places = MOST_ADDED_G * brief.portions, (placed,)
    names = (_new_name(each.food.name, taken) for each in eligible.foods)
    return [
        PantryItem(name, each.food, at_most_g=most, placed=places)
        for name, each in zip(names, eligible.foods, strict=True)
    ]


def _proposals(
    offered: Offered, search: AdditionSearch, backend: Backend, deadline: Deadline, wanted: int
) -> Iterator[Addition]:
    while wanted > 0:
        found = search.best(offered.allowed)
        if found is None:
            return
        addition = _confirmed(offered, found, backend, deadline)
        if addition is None:
            search.drop([found.number])
            continue
        yield addition
        wanted -= 1
        search.drop([n for n, each in enumerate(offered.eligible.foods) if each.kind == addition.kind])


def _confirmed(offered: Offered, found: Found, backend: Backend, deadline: Deadline) -> Addition | None:
    """The addition with its plan; None where no plan in printed amounts was found."""
    name, practical = offered.names[found.number], offered.eligible.foods[found.number]
    for grams, part in ROOM:
        if deadline.remaining_s() <= 0:
            return None
        most = outward(found.least_g + max(grams, part * found.least_g), 0.1, down=False)
        plan = plan_of(offered.with_one(found.number, most), backend, deadline.share(PLAN_SHARE))
        if plan is not None:
            used = sum(quantity.grams for quantity in plan.dish.quantities if quantity.item.name == name)
            measure = kitchen_measure(used, practical.food)
            return Addition(
                practical.food, practical.kind, offered.component, found.least_g, found.proven, used, measure, plan
            )
    return None


def _with_table(brief: Brief) -> tuple[Brief, Placed]:
    """The brief with a component that is eaten as it is, and the place there."""
    if not brief.components:
        return brief, UNCOOKED
    open_ones = [part.name for part in brief.components if part.method is None and not part.finished]
    if open_ones:
        return brief, Placed(open_ones[0])
    taken = {part.name for part in brief.components}
    name = next(name for name in _numbered(AT_THE_TABLE) if name not in taken)
    return replace(brief, components=(*brief.components, Component(name))), Placed(name)


def _preferences(brief: Brief) -> tuple[Preference, ...]:
    """Nobody knows what the addition costs, so the cheapest plan cannot be sought with it."""
    kept = tuple(preference for preference in brief.prefer if preference is not Preference.CHEAPEST)
    return kept or (Preference.BALANCED,)


def _new_name(name: str, taken: frozenset[str]) -> str:
    return name if name not in taken else next(each for each in _numbered(name) if each not in taken)


def _numbered(name: str) -> Iterator[str]:
    yield name
    number = 2
    while True:
        yield f"{name} ({number})"
        number += 1
