"""The audit of refuse against siblings: the same cut, cooked alike, once with and once without its skin or fat."""

import re
from collections.abc import Iterable, Iterator
from decimal import Decimal

from reference_data.from_sr28.ascii_files import FoodRow
from reference_data.from_sr28.checks import REFUSE_POINTS, Finding
from reference_data.from_sr28.refuse import CORRECTED

#: How the description of a cut becomes that of its leaner sibling.
_LEANER = {"meat and skin": "meat only", "separable lean and fat": "separable lean only"}

_BONE = re.compile(r"bone[^%\d]*(\d*\.?\d+) ?%|(\d*\.?\d+) ?% bone", re.IGNORECASE)

#: Found by reading; no sibling has the same description but for one word.
_READ = (Finding("05741", "refuse of siblings", "bone 36 %", "bone 20 % as in the raw row 05740, 16 % as in 05728"),)


def sibling_findings(foods: Iterable[FoodRow]) -> Iterator[Finding]:
    """Leaner cuts with less refuse than the fuller, or with another share of bone than its whole refuse."""
    by_description = {food.description: food for food in foods}
    yield from _READ
    for fuller in by_description.values():
        leaner = by_description.get(_leaner(fuller.description), fuller)
        if leaner is not fuller and leaner.refuse and fuller.refuse:
            yield from _compare(fuller, leaner)


def _leaner(description: str) -> str:
    for fuller, leaner in _LEANER.items():
        description = description.replace(fuller, leaner)
    return description


def _compare(fuller: FoodRow, leaner: FoodRow) -> Iterator[Finding]:
    refuse, bone = Decimal(fuller.refuse), _BONE.findall(leaner.refuse_description)
    if Decimal(leaner.refuse) < refuse - REFUSE_POINTS:
        expected = f"at least {refuse} % as in {fuller.number}"
        yield Finding(leaner.number, "refuse of siblings", f"{leaner.refuse} %", expected)
    itemised = len(bone) == 1 and "skin" in fuller.description and leaner.number not in CORRECTED
    if itemised and abs(_percent(bone[0]) - refuse) > REFUSE_POINTS:
        expected = f"bone {refuse} % as in {fuller.number}"
        yield Finding(leaner.number, "refuse of siblings", f"bone {_percent(bone[0])} %", expected)


def _percent(groups: tuple[str, str]) -> Decimal:
    return Decimal(groups[0] or groups[1])
