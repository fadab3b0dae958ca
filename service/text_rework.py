"""A dish made anew as text for the terminal: what changed and why, the numbers before and after, then the dish."""

import textwrap
from collections.abc import Iterator

from service.schemas.answer import PlanAnswer
from service.schemas.dish import DishAnswer, TargetAnswer
from service.schemas.rework import AmountChangeAnswer, ReworkAnswer
from service.text import readable
from service.words import number

_WIDTH = 100
_NUTRIENTS = ("protein_g", "fat_g", "available_carbohydrate_g")


def readable_rework(answer: ReworkAnswer) -> str:
    """The answer as lines of text."""
    return "\n".join(_lines(answer)) + "\n" + readable(answer.answer)


def _lines(answer: ReworkAnswer) -> Iterator[str]:
    if answer.fix is not None:
        place = f" ({answer.fix.component})" if answer.fix.component is not None else ""
        yield f"It was {answer.fix.reason}: {answer.fix.what}{place}."
        yield ""
    if isinstance(answer.answer, PlanAnswer):
        yield "What changes" if answer.changes else "Nothing has to change."
        for change in answer.changes:
            yield from _change(change)
        yield "  Everything else stays as it was."
        yield ""
        yield "A portion, before and after"
        yield from _numbers(answer.before, answer.answer)
        yield ""
    if answer.substitutes:
        yield "What may stand in for what is left out"
        yield from (f"  {each.text} ({each.role})" for each in answer.substitutes)
        yield ""


def _change(change: AmountChangeAnswer) -> Iterator[str]:
    before, after = (
        amount if about is None else f"{amount} ({about})"
        for amount, about in ((change.before, change.before_about), (change.after, change.after_about))
    )
    tasted = ", only tasted before" if change.known == "tasted" else ""
    yield f"  {change.name} in {change.component}: {before} -> {after}{tasted}"
    for why in change.why:
        yield from textwrap.wrap(f"{why.because}: {why.text}", _WIDTH, initial_indent="    ", subsequent_indent="    ")


def _numbers(before: DishAnswer, after: DishAnswer) -> Iterator[str]:
    rows = [
        ("weight", number(round(before.portion.grams, 1), "g"), number(round(after.portion.grams, 1), "g")),
        ("energy", f"{before.portion.energy_kcal:.0f} kcal", f"{after.portion.energy_kcal:.0f} kcal"),
    ]
    for name in _NUTRIENTS:
        title, _, unit = name.rpartition("_")
        values = (dish.portion.nutrients.get(name) for dish in (before, after))
        old, new = ("unknown" if value is None else f"{value:.1f} {unit}" for value in values)
        rows.append((title.replace("_", " "), old, new))
    known = {target.id: target for target in before.targets}
    for target in after.targets:
        old, new = (_value(known.get(target.id)), _value(target))
        rows.append((target.id, old, new))
    widths = [max(len(row[column]) for row in rows) for column in range(3)]
    for name, old, new in rows:
        yield f"  {name.ljust(widths[0])}  {old.rjust(widths[1])}  {new.rjust(widths[2])}"


def _value(target: TargetAnswer | None) -> str:
    return "undefined" if target is None or target.value is None else number(round(target.value, 2), target.unit)
