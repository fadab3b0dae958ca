"""Which ends of a plan press on it, and the briefs in which one of them is moved by one unit.

An end is a limit that the plan stands at: an end of the band of a binding target or rule, the missed end of a wish, a
stock that is used up, a least amount that is only just met. Looser means one unit more room; tighter, one unit less.

One unit is 1 of the target's or rule's own unit (1 kcal, 1 g, 1 mg, 1 percentage point), 0.1 of a ratio, 1 g of an
item, or one step of an item that has steps. Where the end, or the width of the band, is less than two of these, it is a
tenth of that, and so on, so that a unit is never more than half of what it is taken from.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TypeVar

from solver.bands import NARROWEST
from solver.brief import Brief
from solver.outcome import MemberKind, Plan, RuleResult, TargetResult
from solver.quantities import QUANTITY
from solver.rules import By, Rule
from solver.targets import Per, Target

#: One unit of a ratio that is no share.
RATIO_UNIT = 0.1

#: What one unit of a rule without a second group is called.
_WORDS: Mapping[By, str] = MappingProxyType(
    {
        By.RAW_MASS: "g for the batch",
        By.SALT: "g for the batch",
        By.AS_EATEN_MASS: "g for the batch",
        By.PIECES: "pieces for the batch",
        By.ENERGY_SHARE: "percentage points",
    }
)

#: How many times a unit may be divided by ten.
FINEST = 3

#: Distances nearer than this are the same.
SAME = 1e-6

_Band = TypeVar("_Band", Target, Rule)


@dataclass(frozen=True, slots=True)
class End:
    """One limit that the plan stands at. kind, name: as of a conflict's members. field: the brief's, e.g. "at_most".

    by, unit: what one unit is, e.g. 1.0 and "kcal a portion". looser, tighter: the brief with the end one unit out or
    in; None where nothing lies between the limits then.
    """

    kind: MemberKind
    name: str
    field: str
    by: float
    unit: str
    looser: Brief | None
    tighter: Brief | None


def band_ends(plan: Plan) -> Iterator[End]:
    """The ends that press on a plan, of its targets, then of its rules, each in the brief's order."""
    for result in plan.dish.targets:
        for field in _pressing(result, result.target):
            yield _of_target(plan.brief, result.target, field)
    for each in plan.dish.rules:
        for field in _pressing(each, each.rule):
            yield _of_rule(plan.brief, each.rule, field)


def _pressing(result: TargetResult | RuleResult, band: Target | Rule) -> Iterator[str]:
    """The ends that the value is at, or, of a wish, beyond. At least 0 asks for nothing."""
    given = {"at_least": band.lower, "at_most": band.upper}
    value = result.value
    away = {field: abs(end - value) for field, end in given.items() if end is not None and value is not None}
    if result.binding or not result.met:
        nearest = min(away.values(), default=0.0) + SAME
        asks = band.lower != 0
        yield from (field for field, each in away.items() if each <= nearest and (asks or field == "at_most"))


def _of_target(brief: Brief, target: Target, field: str) -> End:
    quantity = QUANTITY[target.of]
    is_ratio = quantity.denominator is not None and quantity.unit != "%"
    if quantity.denominator is None:
        words = f"{quantity.unit} {'a portion' if target.per is Per.PORTION else 'for the batch'}"
    else:
        words = "of the ratio" if is_ratio else "percentage points"
    by, moved = _moved(target, field, RATIO_UNIT if is_ratio else 1.0)
    briefs = (_with_target(brief, replace(each, aim=None, within=None)) for each in moved)
    return End(MemberKind.TARGET, target.id, field, by, words, *briefs)


def _of_rule(brief: Brief, rule: Rule, field: str) -> End:
    by, moved = _moved(rule, field, 1.0 if rule.to is None else RATIO_UNIT)
    words = _WORDS[rule.by] if rule.to is None else "g for each g"
    return End(MemberKind.RULE, rule.id, field, by, words, *(_with_rule(brief, each) for each in moved))


def _moved(band: _Band, field: str, unit: float) -> tuple[float, tuple[_Band, _Band]]:
    """What one unit is, and the band with the end one unit out, and one unit in."""
    end = (band.lower if field == "at_least" else band.upper) or 0.0
    room = [end]
    if band.lower is not None and band.upper is not None:
        width = band.upper - band.lower
        room += [width] if width > NARROWEST * max(1.0, band.upper) else []
    by = fitting(unit, room)
    if field == "at_least":
        return by, (replace(band, lower=end - by), replace(band, lower=end + by))
    return by, (replace(band, upper=end + by), replace(band, upper=end - by))


def fitting(unit: float, room: list[float]) -> float:
    """The unit, or the tenth, hundredth or thousandth of it that goes into each of `room` twice."""
    fine = (unit / 10.0**n for n in range(FINEST))
    return next((each for each in fine if all(of <= 0 or of >= 2 * each for of in room)), unit / 10.0**FINEST)


def _with_target(brief: Brief, moved: Target) -> Brief:
    return replace(brief, targets=tuple(moved if each.id == moved.id else each for each in brief.targets))


def _with_rule(brief: Brief, moved: Rule) -> Brief:
    return replace(brief, rules=tuple(moved if each.id == moved.id else each for each in brief.rules))
