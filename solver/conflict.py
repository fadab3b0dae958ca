"""Why no plan exists, in the brief's own names: an irreducible set of targets, stocks and steps.

A deletion filter: starting from everything that a brief demands, drop what can be dropped while the rest still has
no plan, in chunks of halving size, then one by one. Whatever is left at the end is needed: without any one member
the rest can be met. It asks only whether a plan exists, so it works for stepped briefs, where no multipliers exist.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np

from solver.backends.base import Limits, Session, Status
from solver.certificate import NEGLIGIBLE
from solver.deadline import Deadline
from solver.deletion import deletion_filter, disjoint, each_is_needed
from solver.formulate import Formulation
from solver.layout import Layout
from solver.limits import largest_g, printable
from solver.numerics import BoolArray, FloatArray
from solver.outcome import Member, MemberKind
from solver.rules import Rule
from solver.solved import Solved
from solver.targets import Target

#: Part of the time left that one test may take.
SHARE_OF_TIME = 0.25

#: What a brief has to hold within, as a member of a conflict.
TOLERANCE = Member(MemberKind.TOLERANCE, None)

NO_PLAN = frozenset({Status.INFEASIBLE, Status.INFEASIBLE_OR_UNBOUNDED})


#: A session on the programme of a formulation, at no cost.
Posed: TypeAlias = tuple[Session, Formulation]


@dataclass(frozen=True, slots=True)
class Irreducible:
    """members, and whether every test was decided in time; otherwise some may be superfluous.

    others: further irreducible sets, which share no member with any before them; each of their tests was decided.
    """

    members: tuple[Member, ...]
    proven: bool
    others: tuple[tuple[Member, ...], ...] = ()


def demands(formulation: Formulation) -> tuple[Member, ...]:
    """Everything that can take part in a conflict; what explains least comes first, to be dropped first."""
    return (
        *((TOLERANCE,) if formulation.brief.holds is not None else ()),
        *_stock(formulation),
        *((Member(MemberKind.PRINTING, None),) if formulation.on_grid else ()),
        *((Member(MemberKind.STEPS, None),) if _has_steps(formulation) else ()),
        *(Member(MemberKind.RULE, choice.id) for choice in reversed(formulation.layout.choices)),
        *(Member(MemberKind.RULE, rule.id) for rule in _rules_by_id(formulation) if rule.priority is None),
        *(Member(MemberKind.TARGET, t.id) for t in _by_id(formulation) if t.priority is None),
    )


def _by_id(formulation: Formulation) -> list[Target]:
    return sorted(formulation.brief.targets, key=lambda target: target.id, reverse=True)


def _rules_by_id(formulation: Formulation) -> list[Rule]:
    return sorted(formulation.brief.rules, key=lambda rule: rule.id, reverse=True)


def accused(formulation: Formulation, solved: Solved) -> tuple[Member, ...]:
    """The demands that the certificate of the least miss leans on; nothing else is needed for the conflict."""
    if solved.row_dual is None:
        return ()
    layout = formulation.layout
    reduced = solved.level.cost - formulation.program.rows.transposed_times(solved.row_dual)
    leaning = reduced[layout.use_columns]
    upward = {use.item.name for use, slope in zip(layout.uses, leaning, strict=True) if slope < -NEGLIGIBLE}
    downward = {use.item.name for use, slope in zip(layout.uses, leaning, strict=True) if slope > NEGLIGIBLE}
    upward |= _leaning_stock(layout, solved.row_dual[layout.most_rows])
    downward |= _leaning_stock(layout, solved.row_dual[layout.least_rows])
    multipliers = zip(layout.sides, solved.row_dual, strict=False)
    targets = {side.target.id for side, multiplier in multipliers if abs(multiplier) > NEGLIGIBLE}
    targets |= {choice.id for choice in layout.choices}  # relaxed to parts of an item they seem to need nothing
    named = {MemberKind.TARGET: targets, MemberKind.RULE: targets, MemberKind.LEAST_AMOUNT: downward}
    every = demands(formulation)
    return tuple(each for each in every if each is TOLERANCE or each.name in named.get(each.kind, upward))


def _leaning_stock(layout: Layout, multipliers: FloatArray) -> set[str]:
    """The shared items whose stock a certificate leans on."""
    leaning = zip(layout.shared, multipliers, strict=True)
    return {layout.items[item].name for item, multiplier in leaning if abs(multiplier) > NEGLIGIBLE}


def irreducible(
    session: Session,
    formulation: Formulation,
    suspects: Sequence[Member],
    deadline: Deadline,
    as_stated: Posed | None = None,
) -> Irreducible:
    """Filter the demands of a formulation that has no plan.

    suspects: demands that are thought to be enough for the conflict; if they are, only they are filtered.
    as_stated: the same brief without what it has to hold within, on a session of its own; None where it has nothing.
    """
    test = SessionTest(session, formulation, deadline, as_stated)
    session.set_cost(np.zeros(formulation.layout.width))
    every = demands(formulation)
    # What cannot be had in any amounts of these items is told as that: a stock beside it would not help if it grew.
    asked = tuple(member for member in every if member.kind in {MemberKind.TARGET, MemberKind.RULE})
    start = next((few for few in (asked, suspects, every) if few and test.has_no_plan(few)), None)
    members = tuple(deletion_filter(start or every, test.has_no_plan))
    # Where not even all of them is seen to have no plan, a filter that drops nothing has proven nothing.
    proven = start is not None and (test.all_decided or each_is_needed(members, test))
    return Irreducible(members, proven, disjoint(every, members, test) if proven else ())


@dataclass(slots=True)
class SessionTest:
    """Asks a session on the programme of a formulation. Set its cost to nothing first. as_stated: as of irreducible."""

    session: Session
    formulation: Formulation
    deadline: Deadline
    as_stated: Posed | None = None
    all_decided: bool = True

    def has_no_plan(self, kept: Sequence[Member]) -> bool:
        """As of `deletion.Test`."""
        session, formulation = self.session, self.formulation
        if self.as_stated is not None and TOLERANCE not in kept:
            session, formulation = self.as_stated
        _pose(session, formulation, frozenset(kept))
        status = session.solve(Limits(self.deadline.share(SHARE_OF_TIME))).status
        self.all_decided = self.all_decided and status in NO_PLAN | {Status.OPTIMAL}
        return status in NO_PLAN


def _stock(formulation: Formulation) -> Iterator[Member]:
    largest = largest_g(formulation.brief)
    for item in formulation.layout.items:
        limits = {MemberKind.ON_HAND: item.on_hand_g, MemberKind.MOST_AMOUNT: item.at_most_g}
        given = {kind: limit for kind, limit in limits.items() if limit is not None and limit < largest}
        if given:
            yield Member(min(given, key=lambda kind: given[kind]), item.name)
        if item.at_least_g > 0:
            yield Member(MemberKind.LEAST_AMOUNT, item.name)


def _has_steps(formulation: Formulation) -> bool:
    return bool((~formulation.layout.weighed).any() or formulation.layout.switched)


def _pose(session: Session, formulation: Formulation, kept: frozenset[Member]) -> None:
    """Relax everything that is not kept."""
    session.set_column_bounds(*_column_bounds(formulation, kept))
    session.set_row_bounds(_row_lower(formulation, kept), formulation.program.row_upper)
    session.set_integer(_integer(formulation, kept))


def _column_bounds(formulation: Formulation, kept: frozenset[Member]) -> tuple[FloatArray, FloatArray]:
    layout, program = formulation.layout, formulation.program
    lower, upper = program.column_lower.copy(), program.column_upper.copy()
    columns = layout.use_columns
    needed = _names(kept, MemberKind.LEAST_AMOUNT)
    limited = _names(kept, MemberKind.ON_HAND, MemberKind.MOST_AMOUNT)
    largest = largest_g(formulation.brief) / layout.unit_g
    if Member(MemberKind.STEPS, None) not in kept:
        _unstep(formulation, lower, upper)
    kept_upper = [use.is_spoon or use.item.name in limited for use in layout.uses]
    kept_lower = [use.is_spoon or use.item.name in needed for use in layout.uses]
    lower[columns] = np.where(kept_lower, lower[columns], 0.0)
    upper[columns] = np.where(kept_upper, upper[columns], largest)
    targets = _names(kept, MemberKind.TARGET, MemberKind.RULE)
    misses = [0.0 if side.target.id in targets else np.inf for side in layout.sides]
    upper[layout.miss_columns] = np.maximum(misses, program.column_upper[layout.miss_columns])
    return lower, upper


def _unstep(formulation: Formulation, lower: FloatArray, upper: FloatArray) -> None:
    """Put the limits of items with a step back to where they were before they were moved to whole steps."""
    layout, largest = formulation.layout, largest_g(formulation.brief)
    for n, use in enumerate(layout.uses):
        alone = use.number is not None and len(layout.board.by_item[use.number]) == 1
        if alone and not layout.weighed[n]:
            least, most = printable(replace(use.item, step=None), largest)
            lower[n], upper[n] = least / layout.unit_g[n], most / layout.unit_g[n]


def _names(kept: frozenset[Member], *kinds: MemberKind) -> frozenset[str | None]:
    return frozenset(member.name for member in kept if member.kind in kinds)


def _row_lower(formulation: Formulation, kept: frozenset[Member]) -> FloatArray:
    lower = formulation.program.row_lower.copy()
    layout = formulation.layout
    if Member(MemberKind.STEPS, None) not in kept:
        lower[layout.switch_rows] = np.where(np.repeat(_is_chosen(layout), 2), lower[layout.switch_rows], -np.inf)
    rules = _names(kept, MemberKind.RULE)
    dropped_choices = [choice.id not in rules for choice in layout.choices for _ in choice.rows()]
    lower[layout.choice_rows] = np.where(dropped_choices, -np.inf, lower[layout.choice_rows])
    needed = _names(kept, MemberKind.LEAST_AMOUNT)
    limited = _names(kept, MemberKind.ON_HAND, MemberKind.MOST_AMOUNT)
    for rows, names in ((layout.most_rows, limited), (layout.least_rows, needed)):
        dropped = [layout.items[item].name not in names for item in layout.shared]
        lower[rows] = np.where(dropped, -np.inf, lower[rows])
    return lower


def _is_chosen(layout: Layout) -> BoolArray:
    """Whether each on/off column serves a choice, which nothing but dropping the choice relaxes, (switches,)."""
    names = frozenset[str]().union(*(choice.names for choice in layout.choices))
    return np.array([layout.items[item].name in names for item in layout.switched], dtype=np.bool_)


def _integer(formulation: Formulation, kept: frozenset[Member]) -> BoolArray:
    layout = formulation.layout
    integer = formulation.program.integer.copy()
    if Member(MemberKind.STEPS, None) not in kept:
        integer[layout.use_columns] &= layout.weighed
        integer[layout.switch_columns] = _is_chosen(layout)
    if Member(MemberKind.PRINTING, None) not in kept:
        integer[layout.use_columns] &= ~layout.weighed
    return integer
