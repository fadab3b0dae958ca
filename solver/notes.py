"""What a reader of the numbers must know: assumptions that were made and that another choice would change."""

from collections.abc import Iterable, Iterator

from solver.bands import is_two_sided
from solver.brief import Brief, EnergyBasis, Preference
from solver.holds_notes import holds_notes
from solver.notes_cooking import collagen_notes, cooking_notes
from solver.outcome import Dish
from solver.pantry import PantryItem
from solver.tally import MACRONUTRIENTS


def notes(brief: Brief, dish: Dish | None) -> tuple[str, ...]:
    """Sentences for the answer's warnings. dish: what was planned, None when nothing was."""
    used = [] if dish is None else list({each.item.name: each.item for each in dish.quantities}.values())
    gaps = () if dish is None else _gaps(dish)
    choices = (*_balance(brief), *_factors(brief, used), *_fibre(used), *_counted(brief, used))
    choices += tuple(holds_notes(brief))
    return (*choices, *gaps, *cooking_notes(brief, dish), *collagen_notes(brief, dish), *_remarks(brief.pantry))


def _balance(brief: Brief) -> Iterator[str]:
    two_sided = any(is_two_sided(target) for target in brief.targets)
    if Preference.BALANCED in brief.prefer and not two_sided:
        yield "No target has two sides, so there was nothing to balance; give an aim to steer the amounts."


def _factors(brief: Brief, used: Iterable[PantryItem]) -> Iterator[str]:
    without = [item.name for item in used if item.food.factors is None and item.food.made is None]
    if without and brief.energy_basis is EnergyBasis.SPECIFIC:
        yield f"No energy factors of their own, counted with the general 4-9-4: {', '.join(without)}."
    if without and brief.energy_basis is EnergyBasis.DECLARED:
        yield f"Energy as declared, but divided among the macronutrients by 4-9-4: {', '.join(without)}."


def _fibre(used: Iterable[PantryItem]) -> Iterator[str]:
    total = [item.name for item in used if item.food.total_carbohydrate_counted]
    if total:
        yield f"Fibre is unknown, so all carbohydrate counts as available, an upper bound: {', '.join(total)}."


def _gaps(dish: Dish) -> Iterator[str]:
    for nutrient in MACRONUTRIENTS:
        if nutrient in dish.batch.lacking:
            items = ", ".join(dish.batch.lacking[nutrient])
            yield f"{nutrient} is missing, so energy is a lower bound and its distribution is not stated: {items}."


def _counted(brief: Brief, used: Iterable[PantryItem]) -> Iterator[str]:
    items = list(used)
    for nutrient, value in sorted(brief.count_missing_as.items()):
        gaps = [item.name for item in items if item.food.is_missing(nutrient)]
        if gaps:
            yield f"{nutrient} is missing and was counted as {value:g} in 100 g, as asked: {', '.join(gaps)}."


def _remarks(pantry: Iterable[PantryItem]) -> Iterator[str]:
    """What the sources of all items say, used or not: what was read into a label may be why an item was not used."""
    items_of: dict[str, list[str]] = {}
    for item in pantry:
        for remark in item.food.remarks:
            items_of.setdefault(remark, []).append(item.name)
    for remark, names in items_of.items():
        yield f"{', '.join(names)}: {remark}"
