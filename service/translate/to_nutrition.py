"""Nutrition numbers as a label prints them: US of a portion, EU of 100 g."""

from service.schemas.declared import NutritionLineAnswer
from service.translate.declared import to_nutrition_line
from solver.breakdown import on_basis
from solver.brief import Brief, EnergyBasis
from solver.label_print import nutrition_lines
from solver.label_rounding import LabelLayout
from solver.outcome import Dish
from solver.tally import scaled


def to_nutrition(layout: LabelLayout | None, dish: Dish, brief: Brief) -> list[NutritionLineAnswer]:
    """The lines, none without a layout. On an EU label energy is what its regulation counts, whatever the basis."""
    if layout is None:
        return []
    in_eu = layout is LabelLayout.EU
    share = 100 / dish.batch.grams if dish.batch.grams > 0 else 0.0
    totals = scaled(dish.batch, share) if in_eu else dish.portion
    kcal, kj = totals.energy_kcal, totals.energy_kj
    if in_eu:
        own = on_basis(dish, brief, EnergyBasis.REGULATION)
        kcal, kj = own.energy_kcal * share, own.energy_kj * share
    known = {name: None if name in totals.lacking else value for name, value in totals.values.items()}
    return [to_nutrition_line(line) for line in nutrition_lines(known, kcal, kj, layout)]
