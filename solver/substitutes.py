"""What may stand in for an item that is left out: foods that do the same in the dish, each confirmed by a solve.

Candidates are the foods that a cook would add, of the same role, that nothing excludes, the likest first, one of each
kind. Each is put into the pantry, into the component of what it stands in for, and the dish is made anew with it; it is
proposed only with the plan that this leads to.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from solver.additions import MOST_ADDED_G
from solver.backends.base import Backend
from solver.brief import Brief
from solver.components import Component, Placed
from solver.confirmed import plan_of
from solver.deadline import Deadline
from solver.foods import Food
from solver.joining import joined, may_join
from solver.kitchen_measure import KitchenMeasure, kitchen_measure
from solver.outcome import Plan
from solver.pantry import PantryItem
from solver.practical import Eligible, Practical
from solver.rework import ReworkAsked
from solver.rework_fixes import Fix
from solver.rework_said import Said, Says
from solver.roles import Role, role_of, unlikeness

#: Proposals for one item, and candidates that are tried for them.
WANTED, TRIED = 2, 5

#: What stands in has at least this part of the weight of what it stands for; a pinch of it would be no substitute.
LEAST_PART = 0.5

#: Part of the time left that one candidate may take.
SHARE = 0.3

#: Where a food goes: what cooking does to it there.
Place = Callable[[Food, Component], Placed]


@dataclass(frozen=True, slots=True)
class Substitute:
    """food: what stands in. item: for what. role: what both do in the dish. plan: the dish made anew with it.

    grams: in the plan. measure: those as a cook measures them; None where none fits.
    """

    food: Food
    item: str
    role: Role
    component: str
    grams: float
    measure: KitchenMeasure | None
    plan: Plan


@dataclass(frozen=True, slots=True)
class Search:
    """asked: the dish to be made anew. fix: the one that it was made with. place: where a food goes in a component."""

    asked: ReworkAsked
    fix: Fix | None
    eligible: Eligible
    place: Place

    def found(self, backend: Backend, deadline: Deadline) -> tuple[Substitute, ...]:
        """Proposals for every item of the base dish that is left out, with nothing named in its place."""
        return tuple(each for item in _left_out(self.asked) for each in self._for(item, backend, deadline))

    def _for(self, item: PantryItem, backend: Backend, deadline: Deadline) -> Iterator[Substitute]:
        wanted = WANTED
        for candidate in _candidates(item, self.asked.brief, self.eligible):
            if wanted == 0 or deadline.remaining_s() <= 0:
                return
            substitute = self._confirmed(item, candidate.food, backend, deadline.share(SHARE))
            if substitute is not None:
                wanted -= 1
                yield substitute

    def _confirmed(self, item: PantryItem, food: Food, backend: Backend, deadline: Deadline) -> Substitute | None:
        """The dish with a food in place of an item; None where there is none."""
        brief = self.asked.brief
        component = next(part for part in brief.parts if part.name == item.placed[0].component)
        if component.finished or any(each.name == food.name for each in brief.pantry):
            return None
        placed = (self.place(food, component),)
        least = LEAST_PART * self.asked.base.grams(item.name)
        most = max(MOST_ADDED_G * brief.portions, 2 * least)
        new = PantryItem(food.name, food, at_least_g=least, at_most_g=most, placed=placed)
        if not may_join(self.asked.posed(self.fix), new):
            return None
        own = Said(f"{item.name} replaced", Says.INSTEAD, frozenset({item.name}), instead=frozenset({food.name}))
        asked = replace(self.asked, brief=joined(brief, [new]), said=(*self.asked.said, own))
        plan = plan_of(asked.posed(self.fix), backend, deadline)
        grams = 0.0 if plan is None else sum(q.grams for q in plan.dish.quantities if q.item.name == food.name)
        if plan is None or grams <= 0:
            return None
        measure = kitchen_measure(grams, food)
        return Substitute(food, item.name, role_of(food), component.name, grams, measure, plan)


def _left_out(asked: ReworkAsked) -> Iterator[PantryItem]:
    """What was in the base dish and may be in it no more, with nothing named in its place."""
    said = {name for each in asked.said if each.says is Says.LEAVE_OUT for name in each.items}
    named = {name for each in asked.said if each.instead for name in each.items}
    gone = (said | asked.brief.leave_out) - named
    return (item for item in asked.brief.pantry if item.name in gone and asked.base.grams(item.name) > 0)


def _candidates(item: PantryItem, brief: Brief, eligible: Eligible) -> list[Practical]:
    """The likest of the same role, one of each kind; none that is in the pantry already."""
    there, role = {each.food.id for each in brief.pantry}, role_of(item.food)
    same = [each for each in eligible.foods if each.food.id not in there and role_of(each.food) is role]
    likest: dict[str, Practical] = {}
    for each in sorted(same, key=lambda each: unlikeness(item.food, each.food)):
        if each.kind not in likest and len(likest) < TRIED and eligible.allowed(each.food):
            likest[each.kind] = each
    return list(likest.values())
