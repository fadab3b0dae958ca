"""What of 100 g of an item comes to the plate when it is cooked."""

from dataclasses import replace

import numpy as np
import pytest

from solver.as_eaten import PLACE, as_eaten, as_weighed, rendered
from solver.brief import EnergyBasis
from solver.components import Component, Drippings, Placed
from solver.foods import Food
from solver.numerics import FloatArray
from tests.solver.larder import NOTHING, PATTIES, ROAST, TABLE, cooking_row, food

MEAT = {"protein_g": 20.0, "fat_g": 20.0, "saturated_fat_g": 8.0, "cholesterol_mg": 70.0, "water_g": 59.0}
CHOP = food("chop", **NOTHING | MEAT | {"alcohol_g": 1.0, "sodium_mg": 60.0})

#: Half of the fat runs out; 65 g of 100 g are left.
HALF = Placed("roast", cooking_row(kept=0.5, shrunk=0.65))


def raw(of: Food = CHOP) -> FloatArray:
    (row,) = as_weighed((of,), EnergyBasis.GENERAL)
    return np.asarray(row, dtype=np.float64)


def eaten(component: Component = ROAST, placed: Placed = HALF) -> dict[str, float]:
    row = as_eaten(raw(), component, placed)
    return {name: float(row[place]) for name, place in PLACE.items()}


def test_what_is_not_cooked_is_the_row_itself() -> None:
    np.testing.assert_array_equal(as_eaten(raw(), TABLE, Placed(TABLE.name)), raw())


def test_pieces_lose_fat_with_its_fatty_acids_its_energy_and_water() -> None:
    row = eaten()
    assert (row["protein_g"], row["sodium_mg"]) == (20, 60)
    assert (row["fat_g"], row["saturated_fat_g"]) == (10, 4)
    assert row["energy_from_fat_kcal"] == 90
    assert row["basis_energy_kcal"] == pytest.approx(80 + 90 + 7)
    # 100 g raw are 65 g cooked and 10 g of drippings: 25 g evaporate.
    assert row["water_g"] == pytest.approx(59 - 25)


def test_no_more_cholesterol_goes_than_rendered_fat_holds() -> None:
    assert eaten()["cholesterol_mg"] == pytest.approx(70 - 10 * 1.09)


def test_served_drippings_are_eaten_and_only_water_is_gone() -> None:
    row = eaten(replace(ROAST, drippings=Drippings.SERVED))
    assert (row["fat_g"], row["cholesterol_mg"]) == (20, 70)
    assert row["water_g"] == pytest.approx(59 - 25)


def test_in_a_mix_no_item_loses_fat_by_itself() -> None:
    row = eaten(PATTIES, Placed("patties"))
    assert [row["fat_g"], row["basis_energy_kcal"]] == pytest.approx([20, 80 + 180 + 7])


def test_what_the_scale_said_of_the_pan_is_not_an_items_own_loss() -> None:
    assert eaten(replace(ROAST, drippings_g=5.0, finished=True))["fat_g"] == 20


def test_retention_takes_its_part_and_the_energy_of_alcohol() -> None:
    row = eaten(placed=replace(HALF, retention={"alcohol_g": 0.4, "sodium_mg": 0.9}))
    assert [row["alcohol_g"], row["sodium_mg"]] == pytest.approx([0.4, 54])
    assert row["energy_from_alcohol_kcal"] == pytest.approx(7 * 0.4)
    assert row["basis_energy_kcal"] == pytest.approx(80 + 90 + 2.8)


def test_missing_values_stay_missing_and_spoil_no_others() -> None:
    row = as_eaten(raw(food("unknown", protein_g=20.0, fat_g=20.0)), ROAST, HALF)
    assert np.isnan(row[PLACE["saturated_fat_g"]])
    assert np.isnan(row[PLACE["water_g"]])
    assert row[PLACE["fat_g"]] == 10


def test_rendered_fat_takes_nothing_else_along() -> None:
    held = rendered(raw())
    named = {name for name, place in PLACE.items() if held[place] > 0}
    assert named == {"fat_g", "saturated_fat_g", "cholesterol_mg", "energy_from_fat_kcal", "basis_energy_kcal"}
