"""What is wrong with what a brief has to hold within."""

from collections.abc import Iterator
from math import comb

from solver.brief import Brief, EnergyBasis
from solver.errors import Problem
from solver.holds import Tolerance
from solver.holds_ways import MOST_WAYS
from solver.nutrients import COLUMN

_AT = "/holds_within/percent"


def holds_problems(brief: Brief) -> Iterator[Problem]:
    """Every problem of it; none where there is nothing to hold within."""
    if brief.holds is not None:
        yield from _ways_problems(brief)
        if brief.holds.tolerance is Tolerance.PERCENT:
            yield from _percent_problems(brief)


def _ways_problems(brief: Brief) -> Iterator[Problem]:
    assert brief.holds is not None  # noqa: S101  the caller has looked
    most_off, items = brief.holds.most_off, len(brief.pantry) - len(brief.leave_out)
    if most_off is not None and most_off < items and comb(items, most_off) > MOST_WAYS:
        detail = f"There are {comb(items, most_off)} ways in which {most_off} of {items} items can be off."
        remedy = f"Allow fewer, or a smaller pantry, so that there are no more than {MOST_WAYS}; or let all be off."
        yield Problem("/holds_within/most_items_off", "too_many_ways_off", detail, remedy)


def _percent_problems(brief: Brief) -> Iterator[Problem]:
    assert brief.holds is not None  # noqa: S101  the caller has looked
    if not brief.holds.percent:
        yield Problem(_AT, "empty", "percent is empty.", "Name a nutrient, or drop holds_within.")
    for nutrient, percent in brief.holds.percent.items():
        at = f"{_AT}/{nutrient.replace('~', '~0').replace('/', '~1')}"
        if nutrient not in COLUMN:
            detail = "There is no such nutrient."
            yield Problem(at, "unknown_nutrient", detail, "Use a name from the documentation.")
        elif not 0 <= percent <= 100:  # noqa: PLR2004  percent
            detail = f"{nutrient} is off by less than 0 or more than 100 %."
            yield Problem(at, "not_an_amount", detail, "Give 0 to 100.")
        elif nutrient == "energy_kcal" and brief.energy_basis is not EnergyBasis.DECLARED:
            detail = "Energy is counted from the macronutrients on this energy_basis, and moves with them."
            yield Problem(at, "energy_is_counted", detail, "Name the macronutrients, or count energy as declared.")
