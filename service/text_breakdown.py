"""The numbers of a dish as text for the terminal: what goes in, what it comes to, its portions, what does not fit."""

from collections.abc import Iterator

from service.schemas.breakdown import BreakdownAnswer
from service.schemas.dish import TotalsAnswer
from service.text_off import off_lines
from service.text_part import part
from service.text_shares import share_lines

_NUTRIENTS = ("protein_g", "fat_g", "available_carbohydrate_g", "fibre_g")


def readable_breakdown(answer: BreakdownAnswer) -> str:
    """The answer as lines of text; every nutrient, and who brings what, is in the answer."""
    return "\n".join(_lines(answer)) + "\n"


def _lines(answer: BreakdownAnswer) -> Iterator[str]:
    yield f"{answer.title} ({answer.portions} {'portion' if answer.portions == 1 else 'portions'})"
    yield from part("What goes in, for the whole batch", (f"{each.name}: {each.text}" for each in answer.quantities))
    sizes = (("the batch", answer.batch), ("a portion", answer.portion), ("100 g", answer.per_100g))
    yield from part("What it comes to, as eaten", (f"{name}: {_totals(of)}" for name, of in sizes))
    yield from part("Of the energy", share_lines(answer.energy_distribution_percent, answer.ketogenic_ratio))
    energies = (f"{each.basis}: {each.energy_kcal:.0f} kcal, {each.energy_kj:.0f} kJ" for each in answer.bases)
    yield from part("Energy of the batch on every basis", energies)
    portions = (f"{each.name}: {each.text}, {each.totals.energy_kcal:.0f} kcal" for each in answer.divided)
    yield from part("Portions", portions)
    yield from part("What does not fit", (f"- {each.text}" for each in answer.findings))
    printed = (f"{line.title}: {'not known' if line.text is None else line.text}" for line in answer.nutrition)
    yield from part("As a label prints it", printed)
    yield from part("Mind", answer.warnings)
    yield from part("Cautions", (f"- {each.text} ({each.trigger})" for each in answer.cautions))
    yield from part("The plate may be off", off_lines(answer.plate_may_be_off))
    yield from part("Exactness", [answer.exactness])
    yield from part("Reminder", [answer.reminder])


def _totals(of: TotalsAnswer) -> str:
    parts = [f"{of.grams:.1f} g", f"{of.energy_kcal:.0f} kcal", *(_amount(of, name) for name in _NUTRIENTS)]
    return ", ".join(parts)


def _amount(of: TotalsAnswer, name: str) -> str:
    title, _, unit = name.rpartition("_")
    value, words = of.nutrients.get(name), title.replace("_", " ")
    if value is None:
        return f"{words} unknown"
    return f"{words} {'at least ' if name in of.lacking else ''}{value:.1f} {unit}"
