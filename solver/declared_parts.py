"""Whether declared parts fit into their wholes: the food into its weight, fatty acids into fat, sugars and fibre."""

from collections.abc import Iterator, Sequence

from solver.declared_finding import NOISE, Finding, Follows, compare, figure
from solver.declared_numbers import FIELDS, NONE, Declared, Known
from solver.label_audit import SALT_PER_SODIUM
from solver.label_rounding import Interval

_MACRONUTRIENTS = ("protein_g", "fat_g", "alcohol_g")
_SWEETENERS = ("polyols_g", "erythritol_g", "allulose_g")


def part_findings(declared: Declared) -> Iterator[Finding]:
    """Macronutrients heavier than the food, parts above their wholes, and salt against sodium."""
    yield from _weight(declared)
    yield from _parts(declared, "fat_g", ("saturated_fat_g", "trans_fat_g"))
    inside = ("sugars_g", *(("fibre_g",) if declared.states_total else ()), *_SWEETENERS)
    yield from _parts(declared, declared.carbohydrate, inside)
    if declared.has("salt_g", "sodium_mg"):
        by_sodium = declared.known("sodium_mg").times(SALT_PER_SODIUM / 1000)
        finding = compare("salt_differs", "salt_g", declared, [Follows("2.5 times the sodium", by_sodium)])
        yield from () if finding is None else (finding,)


def _weight(declared: Declared) -> Iterator[Finding]:
    """The weight itself is exact. Fibre counts where carbohydrate is declared without it."""
    if declared.weight_g is not None:
        names = [*_MACRONUTRIENTS, declared.carbohydrate, *(() if declared.states_total else ("fibre_g",))]
        weight = Known(declared.weight_g, Interval(declared.weight_g, declared.weight_g))
        yield from _too_much(declared, "weight_g", weight, _stated(declared, names))


def _parts(declared: Declared, whole: str, parts: Sequence[str]) -> Iterator[Finding]:
    if declared.has(whole):
        held = _stated(declared, parts)
        yield from _too_much(declared, whole, declared.known(whole), held)


def _stated(declared: Declared, names: Sequence[str]) -> list[str]:
    return [name for name in names if declared.has(name)]


def _too_much(declared: Declared, about: str, whole: Known, parts: Sequence[str]) -> Iterator[Finding]:
    held = sum((declared.known(part) for part in parts), NONE)
    over, left = held.value - whole.value, held.interval.low - whole.interval.high
    if over <= NOISE * max(1.0, whole.value):
        return
    explains = left <= NOISE * max(1.0, whole.value)
    verdict = "rounding alone explains it" if explains else f"rounding cannot explain it, {figure(left, 'g')} remain"
    of_food = about == "weight_g"
    text, title = (figure(whole.value, "g"), "the food") if of_food else (declared.text(about), FIELDS[about].title)
    words = " and ".join(FIELDS[part].title for part in parts)
    yield Finding(
        code="heavier_than_food" if of_food else "parts_above_whole",
        about=about,
        declared=text,
        follows=figure(held.value, "g"),
        by=over,
        unit="g",
        rounding_explains=explains,
        text=f"{words} come to {figure(held.value, 'g')}, more than the {text} of {title}; {verdict}.",
    )
