"""Two answers to one brief held against each other. Plans of the same worth are told from others."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from service.schemas.replay import DifferenceAnswer
from service.seen import Number, SeenAnswer, SeenReach

Verdict: TypeAlias = Literal["the same", "as good, other amounts", "different"]


@dataclass(frozen=True, slots=True)
class Comparison:
    """A verdict, and what is not as it was."""

    verdict: Verdict
    differences: tuple[DifferenceAnswer, ...] = ()


def compared(before: SeenAnswer, after: SeenAnswer) -> Comparison:
    """Outcome first; then bands, and what each level reaches; then amounts, and what the same amounts come to.

    Two optima of one programme may have different amounts, and neither is better. What a level reaches may differ by
    its gap, which is what printing and stopping early cost at most.
    """
    if before.outcome != after.outcome:
        return _different(DifferenceAnswer(what="outcome", before=before.outcome, after=after.outcome))
    if before.conflict() != after.conflict():
        return _different(*_members(before, after))
    bands = tuple(_differences(before.bands(), after.bands()))
    levels = bands + tuple(_differences(before.levels(), after.levels()))
    amounts = tuple(_differences(before.amounts(), after.amounts()))
    if levels:
        return _different(*levels, *amounts)
    if amounts:
        return Comparison("as good, other amounts", amounts)
    return _verdict(tuple(_differences(before.comes_to(), after.comes_to())))


def compared_reach(before: SeenReach, after: SeenReach) -> Comparison:
    """The ends of every range, and the frontier; which amounts reach them is no matter."""
    return _verdict(tuple(_differences(before.reaches(), after.reaches())))


def compared_faults(before: str, after: str) -> Comparison:
    """Where one of them is a fault, or both are: what came of it, in a word or two."""
    if before == after:
        return Comparison("the same")
    return _different(DifferenceAnswer(what="outcome", before=before, after=after))


def _verdict(differences: tuple[DifferenceAnswer, ...]) -> Comparison:
    return _different(*differences) if differences else Comparison("the same")


def _different(*differences: DifferenceAnswer) -> Comparison:
    return Comparison("different", differences)


def _differences(before: Mapping[str, Number], after: Mapping[str, Number]) -> Iterator[DifferenceAnswer]:
    for what in {**before, **after}:
        was, now = before.get(what, Number(None)), after.get(what, Number(None))
        if not was.is_as(now):
            yield DifferenceAnswer(what=what, before=was.value, after=now.value)


def _members(before: SeenAnswer, after: SeenAnswer) -> Iterator[DifferenceAnswer]:
    for each in sorted(before.conflict() ^ after.conflict()):
        was, now = (each if each in seen.conflict() else None for seen in (before, after))
        yield DifferenceAnswer(what="member of the conflict", before=was, after=now)
