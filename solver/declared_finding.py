"""A finding of an audit, and how a declared number is held against what follows from others."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from solver.declared_numbers import FIELDS, Declared, Known
from solver.label_rounding import Interval

#: Distances below this part of a number are floating-point noise.
NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class Finding:
    """Declared numbers that do not go together, or not with the food.

    code: kind of finding, stable. about: the declared number, by its name in `declared_numbers.FIELDS`, or "weight_g".
    declared: as declared; follows: what follows instead. by: how far apart they are as they stand, in `unit`, at
    least 0. rounding_explains: some true amounts would be printed as all these numbers are.
    fits: the ways of counting that the declared number fits, rounding allowed for; empty where none does or there are
    not several ways.
    """

    code: str
    about: str
    declared: str
    follows: str
    by: float
    unit: str
    rounding_explains: bool
    text: str
    fits: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Follows:
    """What a declared number would be by one way of counting it from the others."""

    way: str
    known: Known


def compare(code: str, about: str, declared: Declared, ways: Sequence[Follows], excuse: str = "") -> Finding | None:
    """A finding where no way comes to a number that would be printed as the declared one is.

    None where one does, or where there is no way to count. excuse: what else may explain it, for the sentence.
    """
    return differs(code, about, declared, declared.known(about), ways, excuse=excuse)


def differs(
    code: str, about: str, declared: Declared, stated: Known, ways: Sequence[Follows], *, excuse: str = ""
) -> Finding | None:
    """The same, for a number whose interval is not that of its own rounding."""
    if not ways or any(holds(stated.interval, way.known.value) for way in ways):
        return None
    fits = tuple(way.way for way in ways if overlap(stated.interval, way.known.interval))
    nearest = min(ways, key=lambda way: abs(way.known.value - stated.value))
    title, unit = FIELDS[about].title, FIELDS[about].unit
    left = figure(min(apart(stated.interval, way.known.interval) for way in ways), unit_apart(unit))
    verdict = (
        f"rounding alone explains it ({', '.join(fits)})"
        if fits
        else f"rounding cannot explain it, {left} remain{excuse}"
    )
    return Finding(
        code=code,
        about=about,
        declared=declared.text(about),
        follows=in_words(ways, unit),
        by=abs(nearest.known.value - stated.value),
        unit=unit_apart(unit),
        rounding_explains=bool(fits),
        text=f"{title} is declared as {declared.text(about)}, but comes to {in_words(ways, unit)}; {verdict}.",
        fits=fits,
    )


def in_words(ways: Iterable[Follows], unit: str) -> str:
    """What they come to, each number with the ways that lead to it: "900 kcal (general, regulation)"."""
    by_number: dict[str, list[str]] = {}
    for way in ways:
        by_number.setdefault(figure(way.known.value, unit), []).append(way.way)
    return ", ".join(f"{number} ({', '.join(names)})" for number, names in by_number.items())


def unit_apart(unit: str) -> str:
    """The unit of a difference: shares differ by percentage points, ratios by a plain number."""
    return {"%": "percentage points", ": 1": "1"}.get(unit, unit)


def holds(interval: Interval, value: float) -> bool:
    """A value is inside, floating-point noise allowed for."""
    noise = NOISE * max(1.0, abs(value))
    return interval.low - noise <= value <= interval.high + noise


def overlap(one: Interval, other: Interval) -> bool:
    """Two intervals have a number in common."""
    return apart(one, other) <= NOISE * max(1.0, min(one.high, other.high))


def apart(one: Interval, other: Interval) -> float:
    """The gap between two intervals, 0 where they meet."""
    return max(0.0, one.low - other.high, other.low - one.high)


def figure(value: float, unit: str) -> str:
    """A number with its unit, to two decimals; the unit 1 is not said."""
    digits = f"{round(value, 2):.10g}"
    return digits if unit == "1" else f"{digits} {unit}"
