"""What is it worth? What one unit more and one unit less of each limit would do to each preference.

Both are found by solving again, not read off multipliers: those hold for small moves in one direction at most, and
stepped briefs have none. Compared are optimal values between the grams, so that printing to 0.1 g does not blur them.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from solver.backends.base import Backend, Status
from solver.brief import Brief
from solver.by_mixture import is_careful
from solver.conflict import NO_PLAN
from solver.deadline import Deadline
from solver.numerics import VERIFICATION
from solver.outcome import Checked, MemberKind, Plan, ProofStatus
from solver.solved import Solved
from solver.worth_ends import End, band_ends
from solver.worth_held import Settled, level_held, settled
from solver.worth_items import item_ends

#: Part of the time that solving the brief as asked may take; the rest is shared among all moves.
SHARE_OF_BASE = 0.4

#: Part of a value below which a difference of two is float noise; where levels are held, or whole numbers sought, the
#: tolerance of their rows is more than that.
NOISE = 1e-9

#: How a solve ends that more time may help.
_LATE = frozenset({Status.TIME_LIMIT, Status.INTERRUPTED, Status.STOPPED})


class Unsaid(Enum):
    """Why a change is not said."""

    NO_PLAN = "no plan then"
    NOT_HELD = "the levels above cannot be held then"
    LATE = "not decided in time"
    UNPROVEN = "not proven"


@dataclass(frozen=True, slots=True)
class Worth:
    """What moving one end by one unit does to one preference, with the levels above it held.

    kind, name: as of a conflict's members; end: the field of the brief that moves, e.g. "at_most" or "on_hand".
    by, unit: what one unit is, see `worth_ends`. level: the preference, as in the proof.
    more, less: change of its optimal value, in its own measure, with one unit more room and with one unit less; below 0
    is better. None where it is not said; then more_reason or less_reason says why.
    checked: who vouches for the values that are compared; a claim where none are. That there is no plan then is always
    the solver's claim.
    """

    kind: MemberKind
    name: str
    end: str
    by: float
    unit: str
    level: str
    more: float | None
    more_reason: Unsaid | None
    less: float | None
    less_reason: Unsaid | None
    checked: Checked


@dataclass(frozen=True, slots=True)
class _Change:
    """by: None where it is not said; then `reason` says why."""

    by: float | None = None
    reason: Unsaid | None = None
    checked: Checked = Checked.CLAIM


def worth(plan: Plan, backend: Backend, deadline: Deadline) -> tuple[Worth, ...]:
    """What each end that presses on a plan is worth: targets, rules, items; for one preference after the other.

    Targets and rules that do not bind, and stocks that are not used up, have no entry: where amounts are free they are
    worth nothing, and where things are counted another plan, as good, may press on them.
    deadline: for everything; what is not reached is reported as such. Raises BackendError when a solver breaks.
    """
    ends = (*band_ends(plan), *item_ends(plan))
    if not ends:
        return ()
    base = settled(plan.brief, backend, deadline.share(SHARE_OF_BASE))
    return tuple(_worths(base, ends, deadline))


def _worths(base: Settled, ends: tuple[End, ...], deadline: Deadline) -> Iterator[Worth]:
    left = len(base.preferred) * (1 + 2 * len(ends))  # solves to come, among which the time is shared
    for number, name in base.preferred:
        before = _value(base, base.brief, number, deadline.share(1 / left))
        left -= 1
        for end in ends:
            changes = []
            for brief in (end.looser, end.tighter):
                changes.append(_change(base, brief, number, before, deadline.share(1 / left)))
                left -= 1
            yield _said(end, name, *changes)


def _said(end: End, level: str, more: _Change, less: _Change) -> Worth:
    compared = {change.checked for change in (more, less) if change.by is not None}
    return Worth(
        kind=end.kind,
        name=end.name,
        end=end.field,
        by=end.by,
        unit=end.unit,
        level=level,
        more=more.by,
        more_reason=more.reason,
        less=less.by,
        less_reason=less.reason,
        checked=Checked.CERTIFICATE if compared == {Checked.CERTIFICATE} else Checked.CLAIM,
    )


def _change(base: Settled, brief: Brief | None, number: int, before: Solved | Unsaid, deadline: Deadline) -> _Change:
    if isinstance(before, Unsaid):
        return _Change(reason=before if before is Unsaid.LATE else Unsaid.UNPROVEN)
    if brief is None:
        return _Change(reason=Unsaid.NO_PLAN)
    after = _value(base, brief, number, deadline)
    if isinstance(after, Unsaid):
        return _Change(reason=after)
    certain = before.checked is after.checked is Checked.CERTIFICATE
    part = NOISE if certain and number == 0 else VERIFICATION
    noise = part * max(1.0, abs(before.value)) + _open(before) + _open(after)
    difference = after.value - before.value
    by = 0.0 if abs(difference) <= noise else difference
    return _Change(by, checked=Checked.CERTIFICATE if certain else Checked.CLAIM)


def _open(solved: Solved) -> float:
    """What the proof leaves open."""
    return 0.0 if solved.bound is None else max(0.0, solved.value - solved.bound)


def _value(base: Settled, brief: Brief, number: int, deadline: Deadline) -> Solved | Unsaid:
    """The proven optimum of a level, or why there is none to compare."""
    if not base.solved:
        return _why(base.status)
    found = level_held(base, brief, number, deadline)
    if isinstance(found, Solved):
        if found.status is ProofStatus.OPTIMAL:
            return found
        return Unsaid.LATE if deadline.remaining_s() <= 0 else Unsaid.UNPROVEN
    return _without_plan(base, brief, number, deadline) if found in NO_PLAN else _why(found)


def _without_plan(base: Settled, brief: Brief, number: int, deadline: Deadline) -> Unsaid:
    """Whether the musts rule a changed brief out, or the levels that are held."""
    if number > 0:
        free = level_held(base, brief, number, deadline, above=False)
        if isinstance(free, Solved):
            return Unsaid.NOT_HELD
        if free not in NO_PLAN:
            return _why(free)
    # Rows that take the worst of several sources of fat prove no conflict.
    return Unsaid.UNPROVEN if is_careful(base.formulation) else Unsaid.NO_PLAN


def _why(status: Status) -> Unsaid:
    """Why a solve that ended without a point, or should not have, says nothing."""
    return Unsaid.LATE if status in _LATE else Unsaid.UNPROVEN
