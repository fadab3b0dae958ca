"""What kind of place a component is in the base dish: whether what is not cooked there is an emulsion."""

from solver.brief import Brief
from solver.closest import Base
from solver.components import Component
from solver.foods import Food

#: From so much fat on, g in 100 g, a food is a fat and nothing else: oil, lard, butter (our choice).
PURE_FAT_G = 75.0

#: Of such a part of its weight pure fat, what is not cooked is an emulsion: mayonnaise, a dressing, herb butter.
EMULSION_PART = 0.5


def is_emulsion(part: Component, brief: Brief, base: Base) -> bool:
    """Whether at least half of what the base dish has there is pure fat, and it is not cooked."""
    foods = {item.name: item.food for item in brief.pantry}
    there = [each for each in base.amounts if each.component == part.name and each.item in foods]
    whole, fat = (sum(each.grams for each in found) for found in (there, [e for e in there if is_fat(foods[e.item])]))
    return part.method is None and whole > 0 and fat >= EMULSION_PART * whole


def is_fat(food: Food) -> bool:
    """Whether it is a fat and nothing else."""
    return food.value("fat_g") >= PURE_FAT_G
