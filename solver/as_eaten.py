"""What 100 g of each item, raw edible portion, brings to the plate.

The columns are the nutrients, then the energy from each macronutrient and the energy, both on the brief's basis.
Nothing is cooked yet, so what is eaten is what was weighed: the identity. Cooking will replace this matrix and
nothing else.
"""

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from solver.brief import EnergyBasis
from solver.energy import SLICES, slices_kcal
from solver.foods import Food
from solver.numerics import FloatArray
from solver.nutrients import COLUMN, NUTRIENTS

#: Macronutrient to the column of its energy.
SLICE_COLUMNS: Mapping[str, str] = MappingProxyType({of: f"energy_from_{of}_kcal" for of in SLICES})

COLUMNS: tuple[str, ...] = (
    *(nutrient.name for nutrient in NUTRIENTS),
    *SLICE_COLUMNS.values(),
    "basis_energy_kcal",
)

PLACE: Mapping[str, int] = MappingProxyType({name: place for place, name in enumerate(COLUMNS)})


def as_eaten(foods: tuple[Food, ...], basis: EnergyBasis) -> FloatArray:
    """Per 100 g of each food, shape (foods, len(COLUMNS)); NaN where a value is missing."""
    nutrients = np.array([food.per_100g for food in foods]).reshape(-1, len(NUTRIENTS))
    slices = slices_kcal(foods, nutrients, basis)
    declared = basis is EnergyBasis.DECLARED
    energy = nutrients[:, COLUMN["energy_kcal"]] if declared else slices.sum(axis=1)
    return np.column_stack((nutrients, slices, energy))
