"""What may stand in for an item that is left out: foods that do the same in the dish, each confirmed by a solve.

Each candidate is put where the item was, into every component that had some of it, in as much as stands for it; that
dish is taken for the base, and made anew. It is proposed only with the plan that this leads to, and only where that
takes about as much as stands for the item (`substitutes_posed`). Where several items are left out, the dish with all
of them replaced is sought as well, since a dish without dairy wants both its butter and its cream back.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from solver.backends.base import Backend
from solver.confirmed import plan_of
from solver.deadline import Deadline
from solver.kitchen_measure import KitchenMeasure, kitchen_measure
from solver.outcome import Plan
from solver.practical import Eligible
from solver.rework import ReworkAsked
from solver.rework_fixes import Fix
from solver.rework_said import Says
from solver.substitutes_candidates import Candidate, Candidates, Place
from solver.substitutes_posed import Pair, replaced
from solver.substitutes_suited import LeftOut
from solver.substitutes_table import StandIns

#: Proposals for one item, and candidates that are tried for them.
WANTED, TRIED = 3, 8

#: Part of the time left that one candidate may take.
SHARE = 0.3


@dataclass(frozen=True, slots=True)
class Substitute:
    """item: what is left out. candidate: what stands in for it. uses: component to grams of it in the plan.

    measure: all of it as a cook measures it; None where nothing fits. plan: the dish made anew with it.
    """

    item: str
    candidate: Candidate
    uses: tuple[tuple[str, float], ...]
    measure: KitchenMeasure | None
    plan: Plan

    @property
    def grams(self) -> float:
        """In all components."""
        return sum(grams for _, grams in self.uses)


@dataclass(frozen=True, slots=True)
class Together:
    """each: one for every item that is left out and has one, at least two. plan: the dish made anew with all."""

    each: tuple[Substitute, ...]
    plan: Plan


@dataclass(frozen=True, slots=True)
class Search:
    """asked: the dish to be made anew. fix: the one that it was made with. place: where a food goes in a component."""

    asked: ReworkAsked
    fix: Fix | None
    eligible: Eligible
    stand_ins: StandIns
    place: Place

    def found(self, backend: Backend, deadline: Deadline) -> tuple[Substitute, ...]:
        """Proposals for every item of the base dish that is left out, with nothing named in its place."""
        return tuple(each for left in self._left_out() for each in self._for(left, backend, deadline))

    def _left_out(self) -> list[LeftOut]:
        """What was in the base dish and may be in it no more, with nothing named in its place; nothing finished."""
        said = {
            (name, each.component) for each in self.asked.said if each.says is Says.LEAVE_OUT for name in each.items
        }
        named = {name for each in self.asked.said if each.instead for name in each.items}
        gone = {name: component for name, component in said if (name, None) not in said}
        gone |= dict.fromkeys(self.asked.brief.leave_out | {name for name, component in said if component is None})
        items = [item for item in self.asked.brief.pantry if item.name in gone and item.name not in named]
        lefts = (LeftOut.of(item, gone[item.name], self.asked.brief, self.asked.base, self.stand_ins) for item in items)
        finished = {part.name for part in self.asked.brief.parts if part.finished}
        return [left for left in lefts if left.uses and not finished & {use.component for use in left.uses}]

    def _for(self, left: LeftOut, backend: Backend, deadline: Deadline) -> Iterator[Substitute]:
        wanted = WANTED
        for _, candidate in zip(range(TRIED), self._candidates().of(left), strict=False):
            if wanted == 0 or deadline.remaining_s() <= 0:
                return
            substitute = self._confirmed(left, candidate, backend, deadline.share(SHARE))
            if substitute is not None:
                wanted -= 1
                yield substitute

    def _candidates(self) -> Candidates:
        brief, said = self.asked.brief, self.asked.said
        gone = frozenset(name for each in said if each.says in {Says.LEAVE_OUT, Says.INSTEAD} for name in each.items)
        return Candidates(brief, self.asked.base, gone, self.eligible, self.stand_ins, self.place)

    def together(self, found: Sequence[Substitute], backend: Backend, deadline: Deadline) -> Together | None:
        """All items that are left out replaced at once; None where there are no two, or no dish is found.

        found: proposals for each of them. What stands first for every item is tried, then what was proposed first; one
        food stands in once.
        """
        lefts = self._left_out()
        firsts = [(left, list(islice(self._candidates().of(left), WANTED))) for left in lefts]
        proposed = {name: [each.candidate for each in group] for name, group in _by_item(found).items()}
        for options in (firsts, [(left, proposed.get(left.item.name, first)) for left, first in firsts]):
            chosen = dict(_once_each(options))
            pairs = [(left, chosen[left]) for left in lefts if left in chosen]
            plan = self._plan(pairs, backend, deadline.share(SHARE)) if len(pairs) > 1 else None
            if plan is not None:
                return Together(tuple(_substitute(left, candidate, plan) for left, candidate in pairs), plan)
        return None

    def _confirmed(
        self, left: LeftOut, candidate: Candidate, backend: Backend, deadline: Deadline
    ) -> Substitute | None:
        plan = self._plan([(left, candidate)], backend, deadline)
        return None if plan is None else _substitute(left, candidate, plan)

    def _plan(self, pairs: Sequence[Pair], backend: Backend, deadline: Deadline) -> Plan | None:
        """The dish with each candidate in place of its item; None where there is none."""
        asked = replaced(self.asked, self.fix, pairs)
        return None if asked is None else plan_of(asked.posed(self.fix), backend, deadline)


def _by_item(found: Sequence[Substitute]) -> dict[str, list[Substitute]]:
    names = dict.fromkeys(each.item for each in found)
    return {name: [each for each in found if each.item == name] for name in names}


def _once_each(options: Sequence[tuple[LeftOut, Sequence[Candidate]]]) -> Iterator[Pair]:
    """For each item the first that stands in for no other; the item with the fewest to choose from chooses first."""
    taken: set[str] = set()
    for left, candidates in sorted(options, key=lambda each: len(each[1])):
        chosen = next((each for each in candidates if each.item.name not in taken), None)
        if chosen is not None:
            taken.add(chosen.item.name)
            yield left, chosen


def _substitute(left: LeftOut, candidate: Candidate, plan: Plan) -> Substitute:
    name, food = candidate.item.name, candidate.item.food
    uses = tuple((q.placed.component, q.grams) for q in plan.dish.quantities if q.item.name == name)
    return Substitute(left.item.name, candidate, uses, kitchen_measure(sum(grams for _, grams in uses), food), plan)
