"""Why each change of a dish was needed: the dish is sought again with just this amount as it was.

Where none is left, the conflict names what needs the change. Where one is left, it is further from the base dish; then
the reason is what the dish would miss with this amount as it was, and all others as they are now.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from solver.backends.base import Backend
from solver.brief import Brief
from solver.closest import distance
from solver.deadline import Deadline
from solver.errors import BackendError, UnusableBrief, VerificationError
from solver.outcome import Conflict, Member, MemberKind, Outcome, Plan, Quantity
from solver.pantry import PantryItem, Step
from solver.rework_base import grams_by_use
from solver.rework_changes import Because, Change, Why
from solver.rework_fixes import Fix
from solver.rework_said import Said, as_it_was
from solver.verify import dish_of

#: Part of the time left that one change may take.
SHARE_OF_TIME = 0.4


class _Solve(Protocol):
    def __call__(self, brief: Brief, backend: Backend, deadline: Deadline | None = None) -> Outcome:
        """Answer a brief."""


@dataclass(frozen=True, slots=True)
class Asking:
    """plan: the dish, whose changes are to be explained. fix: the one that was taken; None without one."""

    plan: Plan
    said: tuple[Said, ...]
    fix: Fix | None
    backend: Backend
    deadline: Deadline
    solve: _Solve


def with_reasons(changes: Sequence[Change], asking: Asking) -> tuple[Change, ...]:
    """The same changes with their reasons, at least one each."""
    return tuple(replace(change, why=tuple(_reasons(change, asking))) for change in changes)


def _reasons(change: Change, asking: Asking) -> Iterator[Why]:
    if change.use[0] in asking.plan.brief.leave_out:
        yield Why(Because.EXCLUDED)
        return
    said = [each for each in asking.said if each.asks_for(change.use, change.before_g, change.after_g)]
    yield from (Why(Because.ASKED, each.id) for each in said)
    if asking.fix is not None and _mends(asking.fix, change):
        yield Why(Because.REASON, asking.fix.text)
    elif not said:
        yield _needed(change, asking)


def _mends(fix: Fix, change: Change) -> bool:
    return change.use in fix.uses and (change.after_g > change.before_g) == fix.row.is_more


def _needed(change: Change, asking: Asking) -> Why:
    identifier = _free_id(asking.plan.brief, f"{change.use[0]} as it was")
    brief = _held(asking.plan.brief, change, identifier)
    try:
        outcome = asking.solve(brief, asking.backend, asking.deadline.share(SHARE_OF_TIME))
    except (BackendError, UnusableBrief, VerificationError):
        return _not_shown(asking.plan)
    match outcome:
        case Conflict():
            own = Member(MemberKind.RULE, identifier)
            members = tuple(member for member in outcome.members if member != own)
            return Why(Because.NEEDED, members=members)
        case Plan() if brief.base is not None:
            further = distance(brief.base, grams_by_use(outcome.dish)).total
            return Why(Because.NEARER, members=missed_without(change, asking.plan), instead=further)
        case _:
            return _not_shown(asking.plan)


def _held(brief: Brief, change: Change, identifier: str) -> Brief:
    """The brief with one amount as it was."""
    if change.teaspoons is None:
        rule = as_it_was(identifier, change.use, change.before_g)
        return replace(brief, rules=(*brief.rules, rule))
    before, _ = change.teaspoons
    parts = tuple(
        replace(part, least_teaspoons=before, most_teaspoons=before) if part.name == change.use[1] else part
        for part in brief.components
    )
    return replace(brief, components=parts)


def _not_shown(plan: Plan) -> Why:
    """The limits that the dish stands at are all that can be said."""
    targets = (Member(MemberKind.TARGET, each.target.id) for each in plan.dish.targets if each.binding)
    rules = (Member(MemberKind.RULE, each.rule.id) for each in plan.dish.rules if each.binding)
    return Why(Because.NOT_SHOWN, members=(*targets, *rules))


def _free_id(brief: Brief, wanted: str) -> str:
    taken = (
        {each.id for each in brief.targets} | {each.id for each in brief.rules} | {each.id for each in brief.choices}
    )
    return next(name for name in (wanted, *(f"{wanted} {n}" for n in range(len(taken) + 1))) if name not in taken)


def missed_without(change: Change, plan: Plan) -> tuple[Member, ...]:
    """The targets and rules that the plan misses where only this change is undone."""
    wanted = [each for each in plan.dish.quantities if (each.item.name, each.placed.component) != change.use]
    spoons = {cooked.component.name: cooked.spoons for cooked in plan.dish.cooked if cooked.spoons}
    if change.teaspoons is not None:
        spoons[change.use[1]] = change.teaspoons[0]
    elif change.item is not None and change.before_g > 0:
        wanted.append(_as_before(change, change.item))
    free = tuple(
        replace(each, item=replace(each.item, on_hand_g=None, at_least_g=0.0, at_most_g=None, least_when_used_g=None))
        for each in wanted
    )
    brief = replace(plan.brief, pantry=tuple(each.item for each in free), choices=())
    try:
        dish = dish_of(free, brief, frozenset(), spoons)
    except VerificationError:
        return ()
    targets = (Member(MemberKind.TARGET, each.target.id) for each in dish.targets if not each.met)
    return (*targets, *(Member(MemberKind.RULE, each.rule.id) for each in dish.rules if not each.met))


def _as_before(change: Change, item: PantryItem) -> Quantity:
    words = change.words or Step(round(change.before_g, 6), "g", change.before_g)
    placed = next(each for each in item.placed if each.component == change.use[1])
    return Quantity(replace(item, step=words), change.before_g, 1, placed)
