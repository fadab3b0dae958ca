"""What a reader must know of the cooking: where a curve is a guess, what no row speaks of, whose fat is in the pan."""

from collections.abc import Iterator

from solver.brief import Brief, EnergyBasis
from solver.cooked import CookedComponent
from solver.drippings import FATTY_ACIDS
from solver.outcome import Dish
from solver.protein import collagen_protein_g, counted_protein_g
from solver.targets import WeightBasis

#: Targets that depend on whose fat is lost.
_OF_SOURCES = frozenset({*FATTY_ACIDS, "cholesterol_mg"})


def cooking_notes(brief: Brief, dish: Dish | None) -> Iterator[str]:
    """Sentences for the answer's warnings. dish: None when nothing was planned."""
    for cooked in () if dish is None else dish.cooked:
        yield from _range(cooked)
        yield from _without_row(cooked)
        yield from _sources(brief, cooked)


#: The same, where foods have energy factors of their own.
_OF_ENERGY = frozenset({"energy_kcal", *(f"{of}_share_percent" for of in ("fat", "protein", "carbohydrate"))})

#: Bases on which the fat of all foods has one factor.
_ONE_FACTOR = frozenset({EnergyBasis.GENERAL, EnergyBasis.REGULATION})


def collagen_notes(brief: Brief, dish: Dish | None) -> Iterator[str]:
    """How much protein a least amount of it did not count. dish: None when nothing was planned."""
    asked = [target for target in brief.targets if target.of == "protein_g" and target.lower is not None]
    if dish is None or not asked:
        return
    protein = dish.raw.values["protein_g"] or 0.0
    collagen = {each.item.name: collagen_protein_g(each.item.food) * each.grams / 100 for each in dish.quantities}
    left = protein - counted_protein_g(protein, sum(collagen.values()), brief.collagen_part)
    if left > 0:
        items = ", ".join(name for name, grams in collagen.items() if grams > 0)
        yield (
            f"Collagen counts for at most {100 * brief.collagen_part:.0f} % of the protein that counts, so "
            f"{left:.1f} g protein of the batch does not: {items}."
        )


def _range(cooked: CookedComponent) -> Iterator[str]:
    curve = cooked.component.curve
    if curve is None or cooked.raw_g <= 0:
        return
    share = cooked.fat_g / cooked.raw_g
    if not curve.covers(cooked.raw_g, cooked.fat_g):
        yield (
            f"{cooked.component.name}: {100 * share:.0f} % fat is outside what was measured for {curve.mix}, "
            f"{100 * curve.least_fat_g_per_g:.0f} to {100 * curve.most_fat_g_per_g:.0f} %, so its numbers are a guess."
        )


def _without_row(cooked: CookedComponent) -> Iterator[str]:
    if cooked.component.method is None or cooked.component.is_mix:
        return
    unknown = [item.name for item in cooked.items if item.lacks_row]
    if unknown:
        name, method = cooked.component.name, cooked.component.method
        yield f"{name}: the cooking table has no row for these {method}, see their evidence: {', '.join(unknown)}."


def _sources(brief: Brief, cooked: CookedComponent) -> Iterator[str]:
    if cooked.component.is_weighed or (cooked.component.is_mix and cooked.component.finished):
        return  # what is settled has one mixture, and that was counted
    of_sources = _OF_SOURCES if brief.energy_basis in _ONE_FACTOR else _OF_SOURCES | _OF_ENERGY
    asked = {target.of for target in brief.targets if target.basis is WeightBasis.AS_EATEN} & of_sources
    rendering = [item.name for item in cooked.items if item.rendered_g > 0]
    if asked and len(rendering) > 1 and cooked.lost_g > 0:
        yield (
            f"{cooked.component.name}: the fat that is lost is a mixture of {', '.join(rendering)}; where "
            f"{', '.join(sorted(asked))} has a target, it was counted as the one that is worst for it."
        )
