"""What stands in the way of each wish that a plan misses.

The musts are kept, the wishes that are served before it, and those served together with it, are held at what the plan
misses them by, and the wish itself is asked to be missed by less. What has no plan then goes through the deletion
filter of `conflict`, with the wish kept throughout: what is left stands in its way, and without any one of them the
others would let the wish be served better; what was dropped may stand in its way as well. What the musts have to hold
within is one of them, told by the same brief as stated.
"""

from collections.abc import Iterator, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, replace
from enum import Enum

import numpy as np

from solver.backends.base import Backend, Session
from solver.brief import Brief
from solver.chain import NO_MISS
from solver.conflict import SessionTest, demands
from solver.deadline import Deadline
from solver.deletion import deletion_filter
from solver.exactness import mixes_left
from solver.formulate import Formulation, formulate
from solver.levels import completed
from solver.missing import count
from solver.numerics import VERIFICATION, BoolArray, FloatArray
from solver.outcome import Dish, Member, MemberKind, Plan
from solver.rules import Rule
from solver.targets import Target

#: Part of the time left that one wish may take.
SHARE_OF_TIME = 0.5

#: By which parts of its miss a wish is asked to be better: the first that has no plan is explained. What printing to
#: 0.1 g gives away is less than the second in every kitchen that we know (our choice).
CLOSER = (0.01, 0.1, 1.0)

#: As part of its target, the least that a wish is asked to be better by: what printing may give away.
LEAST_CLOSER = 0.001


class Why(Enum):
    """What is known of what stands in the way."""

    FOUND = "these stand in its way"
    PANTRY = "no amounts of what is in the pantry come closer"
    PRINTING = "only that amounts are printed as a kitchen measures them"
    LATE = "not decided in time"


@dataclass(frozen=True, slots=True)
class InTheWay:
    """One wish that a plan misses. kind, name: as of a conflict's members.

    closer_by: part of its miss, above 0 to 1, that it cannot be better by while the members hold; None where no such
    part was found. members: empty unless `why` is FOUND. proven: each of them was tested to be needed.
    """

    kind: MemberKind
    name: str
    why: Why
    closer_by: float | None = None
    members: tuple[Member, ...] = ()
    proven: bool = False


def in_the_way(plan: Plan, backend: Backend, deadline: Deadline) -> tuple[InTheWay, ...]:
    """One for each wish that is missed, as they are served; the rest of what the deadline leaves is for the next."""
    wishes = sorted(_missed(plan.dish), key=_served)
    if not wishes:
        return ()
    briefs = [plan.brief] if plan.brief.holds is None else [plan.brief, replace(plan.brief, holds=None)]
    served = tuple(_Served.of(brief, plan.dish) for brief in briefs)
    return tuple(_explained(served, wish, backend, deadline.share(SHARE_OF_TIME)) for wish in wishes)


def _missed(dish: Dish) -> Iterator[Target | Rule]:
    """The wishes that are missed by an amount; one whose value is undefined is missed by none."""
    for target in dish.targets:
        if target.target.priority is not None and not target.met and target.miss is not None:
            yield target.target
    for rule in dish.rules:
        if rule.rule.priority is not None and not rule.met and rule.miss is not None:
            yield rule.rule


def _served(wish: Target | Rule) -> tuple[int, str]:
    return wish.priority or 0, wish.id


@dataclass(frozen=True, slots=True, eq=False)
class _Served:
    """A brief posed, and what the printed amounts miss each side by, (sides,), as parts of their targets."""

    formulation: Formulation
    misses: FloatArray

    @staticmethod
    def of(brief: Brief, dish: Dish) -> "_Served":
        formulation = _posed(brief)
        return _Served(formulation, _misses(formulation, dish))

    def own(self, wish: Target | Rule) -> BoolArray:
        """Which sides are those of a wish, (sides,)."""
        return np.array([side.target.id == wish.id for side in self.formulation.layout.sides], dtype=np.bool_)

    def held(self, wish: Target | Rule, most: float) -> Formulation:
        """Posed with the wish missed by no more than so much, and those before it and with it by no more than here."""
        return _held(self.formulation, np.where(self.own(wish), most, self.misses + VERIFICATION), wish)


def _posed(brief: Brief) -> Formulation:
    """It asks what has a plan, so mixes that could pretend are posed exactly."""
    counted = count(brief)
    linear = formulate(brief, counted, relaxable=True)
    mixes = mixes_left(linear)
    return formulate(brief, counted, relaxable=True, exact=mixes) if mixes else linear


def _misses(formulation: Formulation, dish: Dish) -> FloatArray:
    layout = formulation.layout
    grams: dict[tuple[str, str], float] = {}
    for quantity in dish.quantities:
        place = (quantity.item.name, quantity.placed.component)
        grams[place] = grams.get(place, 0.0) + quantity.grams
    spoons = {each.component.name: float(each.spoons) for each in dish.cooked}
    amounts = [
        spoons.get(use.component.name, 0.0)
        if use.is_spoon
        else grams.get((use.item.name, use.placed.component), 0.0) / layout.unit_g[n]
        for n, use in enumerate(layout.uses)
    ]
    return completed(formulation, np.array(amounts, dtype=np.float64), frozenset())[layout.miss_columns]


def _explained(served: tuple[_Served, ...], wish: Target | Rule, backend: Backend, deadline: Deadline) -> InTheWay:
    """served: the brief and, where it has to hold within something, the same brief as stated."""
    kind = MemberKind.RULE if isinstance(wish, Rule) else MemberKind.TARGET
    missed_by = float(served[0].misses[served[0].own(wish)].max(initial=0.0))
    for part in CLOSER:
        closer = min(max(part * missed_by, LEAST_CLOSER), missed_by)
        if closer <= NO_MISS:
            break
        held = [each.held(wish, missed_by - closer) for each in served]
        found = _reason(held, Member(kind, wish.id), wish, backend, deadline)
        if found is not None:
            why, members, proven = found
            return InTheWay(kind, wish.id, why, closer / missed_by, members, proven)
        if deadline.remaining_s() <= 0:
            return InTheWay(kind, wish.id, Why.LATE)
    return InTheWay(kind, wish.id, Why.PRINTING)


def _held(formulation: Formulation, most: FloatArray, wish: Target | Rule) -> Formulation:
    """Musts are met, wishes that are not served after this one are missed by no more than `most`, (sides,)."""
    layout, program = formulation.layout, formulation.program
    upper = program.column_upper.copy()
    counts = np.array([_stays(side.target, wish) for side in layout.sides], dtype=np.bool_)
    columns = layout.miss_columns
    upper[columns] = np.where(counts, most, upper[columns])
    return replace(formulation, program=replace(program, column_upper=upper))


def _stays(other: Target | Rule, wish: Target | Rule) -> bool:
    return other.priority is not None and other.priority <= (wish.priority or 0)


def _reason(
    held: Sequence[Formulation], wanted: Member, wish: Target | Rule, backend: Backend, deadline: Deadline
) -> tuple[Why, tuple[Member, ...], bool] | None:
    """What is in the way; None where the wish can be served so, or nobody knows in time."""
    first = held[0]
    every = (*demands(first), *_wishes(first, wish))
    with ExitStack() as opened:
        sessions = [_opened(each, backend, opened) for each in held]
        as_stated = (sessions[1], held[1]) if len(held) > 1 else None
        test = SessionTest(sessions[0], first, deadline, as_stated)
        if not test.has_no_plan([*every, wanted]):
            return None
        sure = not any(side.guarded for side in first.layout.sides)
        if test.has_no_plan([wanted]):
            return Why.PANTRY, (), sure
        members = tuple(deletion_filter(every, lambda kept: test.has_no_plan([*kept, wanted])))
        # By the worst source of each row something may seem to be in the way that is not.
        return Why.FOUND, members, test.all_decided and sure


def _opened(held: Formulation, backend: Backend, opened: ExitStack) -> Session:
    """A session that asks whether there is a plan at all, and is closed with the stack."""
    session = backend.open(held.program)
    opened.callback(session.close)
    session.set_cost(np.zeros(held.layout.width))
    return session


def _wishes(held: Formulation, wish: Target | Rule) -> Iterator[Member]:
    """The other wishes that are held, those served last first, since the first explain most."""
    every: tuple[Target | Rule, ...] = (*held.brief.targets, *held.brief.rules)
    others = [other for other in every if other.id != wish.id and _stays(other, wish)]
    for other in sorted(others, key=_served, reverse=True):
        yield Member(MemberKind.RULE if isinstance(other, Rule) else MemberKind.TARGET, other.id)
