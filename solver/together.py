"""Where no single change is enough: the ends that the nearest plan misses, all moved to where it has them.

The nearest plan misses the musts least, in sum. Moved outward to numbers that a person would write, these ends make a
brief that has a plan, which is solved like any other.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from solver.backends.base import Backend
from solver.brief import Brief
from solver.changes import Moved
from solver.confirmed import plan_of
from solver.deadline import Deadline
from solver.nearest_end import End
from solver.outcome import Conflict, Member, MemberKind, Plan, TargetResult
from solver.quantities import QUANTITY
from solver.rules import Rule
from solver.sensible import FURTHER, ends_from
from solver.targets import Target

#: Part of the time left that one attempt may take.
SHARE_OF_TIME = 0.4


@dataclass(frozen=True, slots=True)
class Move:
    """One end of a target or rule, before and after, in `unit`: per portion or batch as asked."""

    member: Member
    moved: Moved
    unit: str
    asked: float
    to: float


@dataclass(frozen=True, slots=True)
class Together:
    """Moves that together make the brief possible, at least one, and the plan that they lead to."""

    moves: tuple[Move, ...]
    plan: Plan


@dataclass(frozen=True, slots=True)
class _Missed:
    end: End
    unit: str
    asked: float
    tries: tuple[float, ...]


def changes_together(conflict: Conflict, backend: Backend, deadline: Deadline) -> Together | None:
    """What the nearest plan gives up; None without one, where an end is undefined in it, and out of time."""
    missed = tuple(_missed(conflict))
    if not missed or any(not each.tries for each in missed):
        return None
    for further in range(len(FURTHER)):
        if deadline.remaining_s() <= 0:
            return None
        ends = [each.tries[min(further, len(each.tries) - 1)] for each in missed]
        plan = plan_of(_moved(conflict.brief, missed, ends), backend, deadline.share(SHARE_OF_TIME))
        if plan is not None:
            return Together(tuple(_move(each, to) for each, to in zip(missed, ends, strict=True)), plan)
    return None


def _missed(conflict: Conflict) -> Iterator[_Missed]:
    """The missed ends of musts. `tries`: where they may go, the nearest first; empty where nobody can say."""
    if conflict.nearest is None:
        return
    for result in conflict.nearest.targets:
        if not result.met and result.target.priority is None:
            yield _end_of(result.target, _reached(result), QUANTITY[result.target.of].unit)
    for ruled in conflict.nearest.rules:
        if not ruled.met and ruled.rule.priority is None:
            yield _end_of(ruled.rule, ruled.value, ruled.rule.unit)


def _reached(result: TargetResult) -> float | None:
    """What a target comes to: where it has to hold within a tolerance, at its worst."""
    worst, lower = result.worst, result.target.lower
    if worst is None:
        return result.value
    return worst.lowest if lower is not None and worst.lowest < lower else worst.highest


def _end_of(band: Target | Rule, value: float | None, unit: str) -> _Missed:
    end = End(band, is_lower=band.lower is not None and value is not None and value < band.lower)
    tries = () if value is None else tuple(ends_from(value, unit, down=end.is_lower))
    return _Missed(end, unit, end.value or 0.0, tries)


def _moved(brief: Brief, missed: tuple[_Missed, ...], ends: list[float]) -> Brief:
    for each, to in zip(missed, ends, strict=True):
        brief = each.end.moved(brief, to)
    return brief


def _move(missed: _Missed, to: float) -> Move:
    kind = MemberKind.RULE if isinstance(missed.end.target, Rule) else MemberKind.TARGET
    moved = Moved.AT_LEAST if missed.end.is_lower else Moved.AT_MOST
    return Move(Member(kind, missed.end.target.id), moved, missed.unit, missed.asked, to)
