"""A declared energy distribution, fat share and ketogenic ratio: in themselves, and against the macronutrients.

A share is exact by closed form: it is least where its own slice is least and all others are most. Percents that were
made to sum to 100 (largest remainder) may each be off by almost one unit of their last digit, others by half of one.
"""

import math
from collections.abc import Iterator

from solver.declared_finding import Finding, Follows, compare, differs, figure, holds
from solver.declared_numbers import NONE, Declared, Known
from solver.declared_slices import bases, energy_slices
from solver.energy import GENERAL_KCAL
from solver.label_rounding import Interval

#: Grams of protein and carbohydrate that are none: no ratio to so little means anything.
_NO_REST = 1e-6

_SLICES = ("fat", "protein", "carbohydrate", "alcohol")
_DISTRIBUTION = tuple(f"{of}_percent" for of in _SLICES)


def share_findings(declared: Declared) -> Iterator[Finding]:
    """The distribution's sum; each percent and the fat share against the macronutrients; the ketogenic ratio."""
    yield from _sum(declared)
    for about, of in (*zip(_DISTRIBUTION, _SLICES, strict=True), ("fat_share_percent", "fat")):
        if declared.has(about):
            stated = widened(declared, about)
            finding = differs("share_differs", about, declared, stated, _share_ways(declared, of))
            yield from () if finding is None else (finding,)
    yield from _ratio(declared)
    yield from _share_against_ratio(declared)


def _stated(declared: Declared) -> Known:
    return sum((declared.known_or_none(name) for name in _DISTRIBUTION), NONE)


def _sum(declared: Declared) -> Iterator[Finding]:
    """A distribution that comes to another sum than 100. Without alcohol declared in it there is none."""
    stated = _stated(declared)
    if not declared.has(*_DISTRIBUTION[:3]) or holds(Interval(100, 100), stated.value):
        return
    explains = holds(stated.interval, 100)
    verdict = "rounding alone explains it" if explains else "rounding cannot explain it"
    parts = ", ".join(declared.text(name) for name in _DISTRIBUTION if declared.has(name))
    yield Finding(
        code="distribution_sum",
        about="energy_distribution_percent",
        declared=parts,
        follows=figure(stated.value, "%"),
        by=abs(stated.value - 100),
        unit="percentage points",
        rounding_explains=explains,
        text=f"the energy distribution ({parts}) comes to {figure(stated.value, '%')}, not 100; {verdict}.",
    )


def widened(declared: Declared, about: str) -> Known:
    """A percent of a distribution that was made to sum to 100 may have been moved a whole unit of its last digit."""
    known = declared.known(about)
    made_to_sum = declared.has(*_DISTRIBUTION[:3]) and holds(Interval(100, 100), _stated(declared).value)
    if about not in _DISTRIBUTION or not made_to_sum or declared.values[about].less_than:
        return known
    unit = 10.0 ** -declared.values[about].decimals
    return Known(known.value, Interval(max(0.0, known.value - unit), known.value + unit))


def _share_ways(declared: Declared, of: str) -> list[Follows]:
    """The share of one slice by each way of counting energy that has all it needs."""
    ways = []
    for basis in bases(declared):
        slices = energy_slices(declared, basis.kcal)
        if slices is not None:
            others = sum((known for name, known in slices.items() if name != of), NONE)
            share = _share(slices[of], others)
            ways += [] if share is None else [Follows(basis.way, share)]
    return ways


def _share(own: Known, others: Known) -> Known | None:
    """Percent of own in both together; None where there is nothing to share."""
    if own.value + others.value <= 0:
        return None
    least = _percent(own.interval.low, others.interval.high)
    return Known(_percent(own.value, others.value), Interval(least, _percent(own.interval.high, others.interval.low)))


def _percent(own: float, others: float) -> float:
    return 100.0 * own / (own + others) if own > 0 else 0.0


def _ratio(declared: Declared) -> Iterator[Finding]:
    """Fat to protein and carbohydrate together, as available (polyols counted, or not) and as total."""
    if declared.has("ketogenic_ratio", "fat_g", "protein_g"):
        ways = [
            Follows(f"{words} carbohydrate", ratio)
            for words, carbohydrate in _carbohydrates(declared)
            if (ratio := _to_one(declared.known("fat_g"), declared.known("protein_g") + carbohydrate)) is not None
        ]
        finding = compare("ratio_differs", "ketogenic_ratio", declared, ways)
        yield from () if finding is None else (finding,)


def _carbohydrates(declared: Declared) -> Iterator[tuple[str, Known]]:
    """What may be meant by carbohydrate in a ratio, of what is declared."""
    if not declared.has(declared.carbohydrate):
        return
    stated = declared.known(declared.carbohydrate)
    if declared.states_total:
        yield "total", stated
    available = stated.less(declared.known_or_none("fibre_g")) if declared.states_total else stated
    if declared.has("fibre_g") or not declared.states_total:
        yield "available", available
        if declared.sweeteners.value > 0:
            yield "available, without polyols and allulose,", available.less(declared.sweeteners)


def _to_one(fat: Known, rest: Known) -> Known | None:
    """Fat to one of the rest; None where there is no rest. Its upper end is infinite where there may be none."""
    if rest.value <= _NO_REST:
        return None
    most = fat.interval.high / rest.interval.low if rest.interval.low > 0 else math.inf
    return Known(fat.value / rest.value, Interval(fat.interval.low / rest.interval.high, most))


def _share_against_ratio(declared: Declared) -> Iterator[Finding]:
    """By 4-9-4 a ratio of k has 9k/(9k+4) of its energy from fat, 4:1 is 90 %; for want of macronutrients."""
    if not declared.has("ketogenic_ratio") or energy_slices(declared, GENERAL_KCAL) is not None:
        return
    ratio = declared.known("ketogenic_ratio").times(GENERAL_KCAL.fat)
    rest = Known(GENERAL_KCAL.protein, Interval(GENERAL_KCAL.protein, GENERAL_KCAL.protein))
    share = _share(ratio, rest)
    for about in ("fat_share_percent", "fat_percent"):
        if declared.has(about) and share is not None:
            way = Follows("the ketogenic ratio", share)
            finding = differs("share_against_ratio", about, declared, widened(declared, about), [way])
            yield from () if finding is None else (finding,)
