"""A dish made anew as text for the terminal: what changed and why, the numbers before and after, then the dish."""

import textwrap
from collections.abc import Iterator, Sequence

from service.schemas.answer import PlanAnswer
from service.schemas.dish import DishAnswer, TargetAnswer
from service.schemas.rework import AmountChangeAnswer, ReworkAnswer
from service.text import readable
from service.words import number

_WIDTH = 100
_NUTRIENTS = ("protein_g", "fat_g", "available_carbohydrate_g")


def readable_rework(answer: ReworkAnswer, *, bars: bool = False) -> str:
    """The answer as lines of text. bars: with small bars, for a terminal."""
    return "\n".join(_lines(answer)) + "\n" + readable(answer.answer, bars=bars)


def _lines(answer: ReworkAnswer) -> Iterator[str]:
    yield from _listed("The dish was scaled first", answer.scaling)
    if answer.fix is not None:
        place = f" ({answer.fix.component})" if answer.fix.component is not None else ""
        yield f"It was {answer.fix.reason}: {answer.fix.what}{place}."
        yield ""
    if isinstance(answer.answer, PlanAnswer):
        yield from _changes(answer, answer.answer)
    yield from _listed(
        "What may stand in for what is left out", [f"({each.role}) {each.text}" for each in answer.substitutes]
    )
    together = answer.substitutes_together
    yield from _listed("All of it replaced at once", [] if together is None else [together.text])


def _changes(answer: ReworkAnswer, plan: PlanAnswer) -> Iterator[str]:
    yield "What changes" if answer.changes else "Nothing has to change."
    for change in answer.changes:
        yield from _change(change)
    yield "  Everything else stays as it was."
    yield ""
    yield "A portion, before and after"
    yield from _numbers(answer.before, plan)
    yield ""


def _listed(title: str, texts: Sequence[str]) -> Iterator[str]:
    if texts:
        yield title
        for text in texts:
            yield from textwrap.wrap(text, _WIDTH, initial_indent="  ", subsequent_indent="    ")
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
