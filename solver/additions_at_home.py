"""Ways out of a conflict by what is at home, but held back from the dish: of which a little is enough, and how much.

Each held item is let in alone, into one of its components at a time, within its own limits, steps and rules; it keeps
its name, so rules on it hold. Those that lead to a plan come before anything that would have to be fetched.
"""

from collections.abc import Iterator
from dataclasses import replace

from solver.addition_search import AdditionSearch, Found
from solver.additions import PLAN_SHARE, ROOM, Addition
from solver.backends.base import Backend
from solver.brief import Brief, Preference
from solver.components import Placed
from solver.confirmed import plan_of
from solver.deadline import Deadline
from solver.kitchen_measure import kitchen_measure
from solver.outcome import Conflict
from solver.pantry import PantryItem
from solver.sensible import outward

#: Part of the time left that one search and its plan may take.
ITEM_SHARE = 0.3


def additions_at_home(conflict: Conflict, backend: Backend, deadline: Deadline, wanted: int) -> tuple[Addition, ...]:
    """The smallest additions of one held item each, the smallest first, at most so many.

    Empty where nothing is held back, where nothing of it helps, and where the clock ends first.
    """
    found = (_smallest(conflict.brief, item, backend, deadline.share(ITEM_SHARE)) for item in _held(conflict.brief))
    helping = sorted((each for each in found if each is not None), key=lambda each: each.least_g)
    return tuple(helping[:wanted])


def _held(brief: Brief) -> Iterator[PantryItem]:
    return (item for item in brief.pantry if item.name in brief.only_if_needed)


def _smallest(brief: Brief, item: PantryItem, backend: Backend, deadline: Deadline) -> Addition | None:
    """The component of which the fewest grams do, with the plan; None where none leads to one."""
    found = []
    for place in item.placed:
        least = _least(_let_in(brief, item, place), item.name, backend, deadline)
        if least is not None:
            found.append((least, place))
    for least, place in sorted(found, key=lambda each: each[0].least_g):
        addition = _confirmed(brief, replace(item, placed=(place,)), least, backend, deadline)
        if addition is not None:
            return addition
    return None


def _least(brief: Brief, name: str, backend: Backend, deadline: Deadline) -> Found | None:
    # What is preferred does not matter to a search for the least grams, and may need a switch for every item.
    search = AdditionSearch(replace(brief, prefer=(Preference.BALANCED,)), (name,), backend, deadline)
    try:
        return search.best(lambda _: True)
    finally:
        search.close()


def _let_in(brief: Brief, item: PantryItem, place: Placed, most_g: float | None = None) -> Brief:
    """The brief with a held item in one component, at most so much of it."""
    limits = [limit for limit in (item.at_most_g, most_g) if limit is not None]
    inside = replace(item, placed=(place,), at_most_g=min(limits, default=None))
    pantry = tuple(inside if each.name == item.name else each for each in brief.pantry)
    return replace(brief, pantry=pantry, leave_out=brief.leave_out - {item.name}, prefer=_preferences(brief, item))


def _confirmed(brief: Brief, item: PantryItem, least: Found, backend: Backend, deadline: Deadline) -> Addition | None:
    """The addition with its plan; None where no plan in printed amounts was found."""
    for grams, part in ROOM:
        if deadline.remaining_s() <= 0:
            return None
        most = outward(least.least_g + max(grams, part * least.least_g), 0.1, down=False)
        plan = plan_of(_let_in(brief, item, item.placed[0], most), backend, deadline.share(PLAN_SHARE))
        if plan is None:
            continue
        used = sum(quantity.grams for quantity in plan.dish.quantities if quantity.item.name == item.name)
        return Addition(
            food=item.food,
            kind=item.name,
            component=item.placed[0].component,
            least_g=least.least_g,
            proven=least.proven,
            grams=used,
            measure=kitchen_measure(used, item.food),
            plan=plan,
            item=item.name,
        )
    return None


def _preferences(brief: Brief, item: PantryItem) -> tuple[Preference, ...]:
    """Without its price the cheapest plan cannot be sought."""
    if item.price_per_g is not None:
        return brief.prefer
    kept = tuple(preference for preference in brief.prefer if preference is not Preference.CHEAPEST)
    return kept or (Preference.BALANCED,)
