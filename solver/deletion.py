"""Irreducible sets by deletion: drop what can be dropped while the rest still has no plan."""

from collections.abc import Callable, Sequence
from typing import Protocol

from solver.outcome import Member

#: How many conflicts beside the first are told.
MOST_OTHERS = 3


class Test(Protocol):
    """Asks whether what is kept has a plan, and remembers whether it was always told."""

    all_decided: bool

    def has_no_plan(self, kept: Sequence[Member]) -> bool:
        """Whether no plan meets all that is kept; False as well when that was not decided in time."""


def disjoint(every: Sequence[Member], first: Sequence[Member], test: Test) -> tuple[tuple[Member, ...], ...]:
    """Further irreducible sets without any member of those before them, at most `MOST_OTHERS`."""
    found: list[tuple[Member, ...]] = []
    rest = [member for member in every if member not in first]
    while len(found) < MOST_OTHERS and test.has_no_plan(rest):
        another = tuple(deletion_filter(rest, test.has_no_plan))
        if not test.all_decided:
            break
        found.append(another)
        rest = [member for member in rest if member not in another]
    return tuple(found)


def each_is_needed(members: Sequence[Member], test: Test) -> bool:
    """Whether the members without any one of them have a plan, each decided: asked anew, forgetting what was not.

    A question of the filter that was not decided dropped nothing, so that it matters only among these last ones.
    """
    test.all_decided = True
    parts = ([other for other in members if other is not member] for member in members)
    return not any(test.has_no_plan(part) for part in parts) and test.all_decided


def deletion_filter(members: Sequence[Member], has_no_plan: Callable[[Sequence[Member]], bool]) -> list[Member]:
    """Drop chunks of halving size while the rest has no plan; the last pass, one by one, makes it irreducible."""
    kept = list(members)
    size = len(kept)
    while size > 1:
        size = (size + 1) // 2
        for chunk in [kept[i : i + size] for i in range(0, len(kept), size)]:
            rest = [member for member in kept if member not in chunk]
            if has_no_plan(rest):
                kept = rest
    return kept
