"""What 100 g of each item, raw edible portion, brings to the plate.

The columns are the nutrients, then the energy from each macronutrient and the energy, both on the brief's basis. What
is not cooked is eaten as it was weighed: the identity. Cooking takes fat, what is dissolved in it, its energy, and
water.

Drippings take with them the fatty acids of their fat, in proportion, and cholesterol, but of that no more than rendered
fat holds: most of it is in the lean. Everything else stays, except what `Placed.retention` says: what is not known to
leave is counted as eaten, which is the safe side for retinol and sodium.
"""

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from solver.brief import EnergyBasis
from solver.components import Component, Drippings, Placed
from solver.cook import cooked_part, rendered_part
from solver.drippings import CHOLESTEROL_MG_PER_G_FAT, FATTY_ACIDS
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


def as_weighed(foods: tuple[Food, ...], basis: EnergyBasis) -> FloatArray:
    """Per 100 g of each food, raw, shape (foods, len(COLUMNS)); NaN where a value is missing.

    What is worked out of a food stays with it: the same foods come with every brief.
    """
    of = basis.value
    unknown = tuple(food for food in foods if of not in food.weighed)
    if unknown:
        for food, row in zip(unknown, _as_weighed(unknown, basis), strict=True):
            food.weighed[of] = row.copy()  # a row of its own: a view would keep those of all the others
    return np.array([food.weighed[of] for food in foods]).reshape(-1, len(COLUMNS))


def _as_weighed(foods: tuple[Food, ...], basis: EnergyBasis) -> FloatArray:
    nutrients = np.array([food.per_100g for food in foods]).reshape(-1, len(NUTRIENTS))
    slices = slices_kcal(foods, nutrients, basis)
    declared = basis is EnergyBasis.DECLARED
    energy = nutrients[:, COLUMN["energy_kcal"]] if declared else slices.sum(axis=1)
    return np.column_stack((nutrients, slices, energy))


def as_eaten(raw: FloatArray, component: Component, placed: Placed) -> FloatArray:
    """What of a raw row, (len(COLUMNS),) per 100 g, is eaten from a component, apart from a mix's own drippings.

    Water of a mix is no sum over its items and is not counted here; no row may ask for it.
    """
    if component.method is None:
        return raw
    row = raw - _retention_losses(raw, placed)
    row = row - _lost_part(component, placed) * rendered(raw)
    if not component.is_mix:
        row[PLACE["water_g"]] = raw[PLACE["water_g"]] - water_lost_g(raw, component, placed)
    return row


def rendered(raw: FloatArray) -> FloatArray:
    """What leaves a raw row when all of its fat runs out, (len(COLUMNS),) per 100 g of the food; water apart.

    Fat that nobody knows does not run out.
    """
    row = np.zeros(len(COLUMNS))
    if np.isnan(raw[PLACE["fat_g"]]):
        return row
    for name in ("fat_g", *FATTY_ACIDS):
        row[PLACE[name]] = raw[PLACE[name]]
    fat = raw[PLACE["fat_g"]]
    row[PLACE["cholesterol_mg"]] = np.fmin(raw[PLACE["cholesterol_mg"]], CHOLESTEROL_MG_PER_G_FAT * fat)
    row[PLACE[SLICE_COLUMNS["fat"]]] = raw[PLACE[SLICE_COLUMNS["fat"]]]
    energy = np.nan_to_num(raw[[PLACE[SLICE_COLUMNS["fat"]], PLACE["basis_energy_kcal"]]], nan=np.inf)
    row[PLACE["basis_energy_kcal"]] = energy.min() if np.isfinite(energy).any() else 0.0  # stated energy may be less
    return row


def water_lost_g(raw: FloatArray, component: Component, placed: Placed) -> float:
    """Water that leaves 100 g of an item among pieces, g."""
    fat = float(np.nan_to_num(raw[PLACE["fat_g"]]))
    return 100 - 100 * cooked_part(component, fat / 100, placed) - fat * rendered_part(component, placed)


def _lost_part(component: Component, placed: Placed) -> float:
    """The part of the item's own fat that is lost; what is spooned back comes back as a use of its own.

    What the scale says is of the whole pan, so there, as in a mix, no item loses by itself.
    """
    if component.drippings is Drippings.SERVED or component.is_weighed:
        return 0.0
    return rendered_part(component, placed)


def _retention_losses(raw: FloatArray, placed: Placed) -> FloatArray:
    lost = np.zeros(len(COLUMNS))
    for nutrient, kept in placed.retention.items():
        lost[PLACE[nutrient]] = (1 - kept) * raw[PLACE[nutrient]]
    if "alcohol_g" in placed.retention:
        alcohol = PLACE[SLICE_COLUMNS["alcohol"]]
        lost[alcohol] = (1 - placed.retention["alcohol_g"]) * raw[alcohol]
        lost[PLACE["basis_energy_kcal"]] = np.nan_to_num(lost[alcohol])
    return lost
