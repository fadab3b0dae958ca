"""What is wrong with targets by themselves: no band, impossible or crossed ends, musts that exclude each other."""

from collections.abc import Iterator
from itertools import permutations

from solver.brief import Brief
from solver.errors import Problem
from solver.quantities import QUANTITY
from solver.targets import Target

#: Smallest end of a band above 0, in any unit: below it floats cannot be trusted.
LEAST_END = 1e-6

#: Largest end of a band, in any unit: far beyond food, and still safe to compute with.
LARGEST_END = 1e7


def target_problems(target: Target, at: str) -> Iterator[Problem]:
    """Every problem of the target at JSON pointer `at`."""
    if target.of not in QUANTITY:
        yield Problem(
            f"{at}/of", "unknown_quantity", "There is no such quantity.", "Use a name from the documentation."
        )
        return
    ends = {"at_least": target.lower, "at_most": target.upper}
    given = {field: end for field, end in ends.items() if end is not None}
    if not given:
        yield Problem(at, "no_band", f"{target.id} has no band.", "Give aim, at_least or at_most.")
    for field, end in given.items():
        if end != 0 and not LEAST_END <= end <= LARGEST_END:
            detail = f"{target.id} has an end below 0, or one too small or too large to plan with."
            yield Problem(f"{at}/{field}", "not_an_amount", detail, f"Give 0, or {LEAST_END:g} to {LARGEST_END:g}.")
        elif QUANTITY[target.of].unit == "%" and end > 100:  # noqa: PLR2004  percent
            yield Problem(f"{at}/{field}", "beyond_100", f"{target.id} has an end above 100 %.", "Give 0 to 100.")
    if target.lower is not None and target.upper is not None and target.lower > target.upper:
        yield Problem(
            f"{at}/at_least",
            "crossed_band",
            f"{target.id}: at_least {target.lower:g} is above at_most {target.upper:g}.",
            "Swap them, or mend one.",
        )


def contradictory(brief: Brief) -> Iterator[Problem]:
    """Musts on the same quantity whose bands do not overlap: of each such pair, both."""
    musts = [(place, target) for place, target in enumerate(brief.targets) if target.priority is None]
    for (place, target), (other_place, other) in permutations(musts, 2):
        if _same_amount(target, other) and (_ends_below(target, other) or _ends_below(other, target)):
            yield Problem(
                f"/targets/{place}",
                "contradictory_bands",
                f"{target.of} {_band(target)} cannot be had together with {_band(other)} at /targets/{other_place}.",
                "Mend or drop one of the two, or give one a priority.",
            )


def _same_amount(target: Target, other: Target) -> bool:
    """A share or a ratio is the same per portion and per batch."""
    if target.of != other.of or target.of not in QUANTITY or target.basis is not other.basis:
        return False
    return target.per is other.per or QUANTITY[target.of].denominator is not None


def _ends_below(target: Target, other: Target) -> bool:
    return target.upper is not None and other.lower is not None and target.upper < other.lower


def _band(target: Target) -> str:
    ends = {"at least": target.lower, "at most": target.upper}
    return " and ".join(f"{side} {end:g}" for side, end in ends.items() if end is not None)
