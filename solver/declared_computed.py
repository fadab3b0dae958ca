"""Declared numbers against ours for the same amount: outside the tolerance of their layout, or just different.

Without a layout both tolerances are looked at. The US limits are one-sided (see `tolerances`); the EU ranges are for
100 g, so they need the weight. What neither has a row for (energy in the EU, shares, the ratio) has no tolerance: there
a number that would be printed otherwise is said to differ.
"""

from collections.abc import Iterator, Mapping

from solver.declared_finding import Finding, figure, holds, unit_apart
from solver.declared_numbers import FIELDS, Declared
from solver.declared_shares import widened
from solver.label_audit import SALT_PER_SODIUM
from solver.label_rounding import LabelLayout
from solver.outcome import Totals
from solver.tolerances import eu_range, us_complies, us_group


def computed_of(totals: Totals, grams: float) -> dict[str, float | None]:
    """Our numbers of an amount of a dish, g as eaten, from the totals of any amount of it, by declared name.

    None where there is none, or where an ingredient lacks a value, since the sum is then only a lower bound.
    """
    share = grams / totals.grams if totals.grams > 0 else 0.0
    energy = {"energy_kcal": totals.energy_kcal, "energy_kj": totals.energy_kj}
    whole = {name: None if name in totals.lacking else value for name, value in totals.values.items()} | energy
    return {name: None if value is None else value * share for name, value in whole.items() if name in FIELDS}


def computed_findings(declared: Declared, computed: Mapping[str, float | None]) -> Iterator[Finding]:
    """One finding for each number and tolerance. computed: by declared name, None or left out where not known."""
    sodium = computed.get("sodium_mg")
    ours = {"salt_g": None if sodium is None else sodium / 1000 * SALT_PER_SODIUM, **computed}
    for name in declared.values:
        value = ours.get(name)
        if value is not None:
            yield from _one(declared, name, value)


def _one(declared: Declared, name: str, computed: float) -> Iterator[Finding]:
    in_us = declared.layout is not LabelLayout.EU and us_group(name) is not None
    in_eu = declared.layout is not LabelLayout.US and eu_range(name, 0.0) is not None
    if in_us:
        yield from _us(declared, name, computed)
    if in_eu:
        yield from _eu(declared, name, computed)
    if not (in_us or in_eu):
        yield from _plain(declared, name, computed)


def _us(declared: Declared, name: str, computed: float) -> Iterator[Finding]:
    breach = us_complies(name, declared.values[name].number, computed)
    if breach is not None:
        group, limit = breach.group, figure(breach.limit, FIELDS[name].unit)
        side = "at most" if group.is_ceiling else "at least"
        words = f"the US limit is {side} {group.share:.0%} of it, {limit} ({group.title})"
        yield _finding("outside_us_tolerance", declared, name, computed, words)


def _eu(declared: Declared, name: str, computed: float) -> Iterator[Finding]:
    if declared.weight_g is None:
        return
    to_100g = 100 / declared.weight_g
    allowed = eu_range(name, declared.values[name].number * to_100g)
    if allowed is not None and not holds(allowed, computed * to_100g):
        unit = FIELDS[name].unit
        limits = f"{figure(allowed.low, unit)} to {figure(allowed.high, unit)} in 100 g"
        words = f"the EU tolerance is {limits}, where we compute {figure(computed * to_100g, unit)}"
        yield _finding("outside_eu_tolerance", declared, name, computed, words)


def _plain(declared: Declared, name: str, computed: float) -> Iterator[Finding]:
    if not holds(widened(declared, name).interval, computed):
        yield _finding("differs_from_computed", declared, name, computed, "no published tolerance is for it")


def _finding(code: str, declared: Declared, name: str, computed: float, limit: str) -> Finding:
    field, known = FIELDS[name], widened(declared, name)
    explains = holds(known.interval, computed)
    verdict = "rounding alone explains it" if explains else "rounding cannot explain it"
    ours = figure(computed, field.unit)
    return Finding(
        code=code,
        about=name,
        declared=declared.text(name),
        follows=ours,
        by=abs(computed - known.value),
        unit=unit_apart(field.unit),
        rounding_explains=explains,
        text=f"{field.title} is declared as {declared.text(name)}, but we compute {ours}; {limit}; {verdict}.",
    )
