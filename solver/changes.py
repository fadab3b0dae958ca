"""Ways out of a conflict that buy nothing new: the smallest change of one end of a target or rule, or of one stock.

Each is found alone, with everything else as asked, moved outward to a number that a person would write, and confirmed:
the changed brief is solved, and the plan goes along. Steps and printing have no smallest change; their conflicts are
resolved through a target or a stock.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from solver.backends.base import Backend
from solver.brief import Brief
from solver.confirmed import plan_of
from solver.deadline import Deadline
from solver.nearest_end import End, nearest_end
from solver.nearest_stock import Stock, nearest_stock
from solver.outcome import Conflict, Member, MemberKind, Plan
from solver.pantry import is_in_already
from solver.quantities import QUANTITY
from solver.rules import Rule
from solver.sensible import ends_from, weights_from
from solver.targets import Target
from solver.usable_targets import LEAST_END

#: Part of the time left that one way out may take.
SHARE_OF_TIME = 0.3


_PRINTING = Member(MemberKind.PRINTING, None)


class Moved(Enum):
    """What of a member is changed."""

    AT_LEAST = "at_least"
    AT_MOST = "at_most"
    ON_HAND = "on_hand"


@dataclass(frozen=True, slots=True)
class Change:
    """One change that makes the rest of the brief possible, and the plan that it leads to.

    member: of the conflict. asked, to: before and after, in `unit`: a target's per portion or batch as asked, grams of
    a stock for the batch. limit: the exact number before it was moved outward to sensible digits; nothing nearer will
    do (drippings of several sources counted by the worst of them).
    """

    member: Member
    moved: Moved
    unit: str
    asked: float
    limit: float
    to: float
    plan: Plan

    @property
    def size(self) -> float:
        """The change as a part of what was asked."""
        return abs(self.to - self.asked) / max(abs(self.asked), abs(self.to))


@dataclass(frozen=True, slots=True)
class _Way:
    """A change before it is confirmed. briefs: the changed brief by where it is moved to, the nearest first."""

    member: Member
    moved: Moved
    unit: str
    asked: float
    limit: float
    briefs: tuple[tuple[float, Brief], ...]


def smallest_changes(conflict: Conflict, backend: Backend, deadline: Deadline) -> tuple[Change, ...]:
    """For every target and stock of a conflict the smallest change that alone resolves it, the smallest part first.

    What is not confirmed in time is left out.
    """
    found = (_confirmed(way, backend, deadline) for way in _ways(conflict, backend, deadline))
    changes = (change for change in found if change is not None)
    return tuple(sorted(changes, key=lambda change: (change.size, change.member.name or "", change.moved.value)))


def _ways(conflict: Conflict, backend: Backend, deadline: Deadline) -> Iterator[_Way]:
    for member in conflict.members:
        if deadline.remaining_s() <= 0:
            return
        if member.kind in {MemberKind.TARGET, MemberKind.RULE}:
            yield from _of_band(conflict, member, backend, deadline)
        else:
            yield from _of_stock(conflict.brief, member, backend, deadline)


def _of_band(conflict: Conflict, member: Member, backend: Backend, deadline: Deadline) -> Iterator[_Way]:
    brief = conflict.brief
    bands: tuple[Target | Rule, ...] = (*brief.targets, *brief.rules)
    target = next((band for band in bands if band.id == member.name), None)
    if target is None:
        return  # a choice has no end that could move
    unit = target.unit if isinstance(target, Rule) else QUANTITY[target.of].unit
    for is_lower in (True, False):
        end = End(target, is_lower)
        asked = end.value
        if asked is None:
            continue
        limit = nearest_end(brief, end, backend, deadline.share(SHARE_OF_TIME))
        if limit is None:
            continue  # no move of this end helps
        if limit > asked if is_lower else limit < asked:
            if _PRINTING not in conflict.members:
                continue  # the end can stay where it is
            limit = asked  # between the grams it can; what is printed needs a little room
        moves = [to for to in ends_from(limit, unit, down=is_lower) if _is_end(to, unit) and to != asked]
        briefs = tuple((to, end.moved(brief, to)) for to in moves)
        yield _Way(member, Moved.AT_LEAST if is_lower else Moved.AT_MOST, unit, asked, limit, briefs)


def _is_end(value: float, unit: str) -> bool:
    return (value == 0 or value >= LEAST_END) and (unit != "%" or value <= 100)  # noqa: PLR2004  percent


_STOCKS = {
    MemberKind.ON_HAND: (Stock.ON_HAND, Moved.ON_HAND),
    MemberKind.MOST_AMOUNT: (Stock.AT_MOST, Moved.AT_MOST),
    MemberKind.LEAST_AMOUNT: (Stock.AT_LEAST, Moved.AT_LEAST),
}


def _of_stock(brief: Brief, member: Member, backend: Backend, deadline: Deadline) -> Iterator[_Way]:
    item = next((item for item in brief.pantry if item.name == member.name), None)
    if item is None or member.kind not in _STOCKS or is_in_already(item):
        return  # of all items, or a fact: what is in already cannot be taken out
    stock, moved = _STOCKS[member.kind]
    asked, limit = stock.of(item), nearest_stock(brief, item, stock, backend, deadline.share(SHARE_OF_TIME))
    down = stock is Stock.AT_LEAST
    if asked is None or limit is None or (limit > asked if down else limit < asked):
        return
    weights = weights_from(limit, None if item.step is None else item.step.grams, down=down)
    briefs = tuple((to, stock.changed(brief, item, to)) for to in weights if to != asked)
    yield _Way(member, moved, "g", asked, limit, briefs)


def _confirmed(way: _Way, backend: Backend, deadline: Deadline) -> Change | None:
    for to, brief in way.briefs:
        if deadline.remaining_s() <= 0:
            return None
        plan = plan_of(brief, backend, deadline.share(SHARE_OF_TIME))
        if plan is not None:
            return Change(way.member, way.moved, way.unit, way.asked, way.limit, to, plan)
    return None
