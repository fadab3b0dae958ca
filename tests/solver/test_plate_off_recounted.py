"""What an error is said to move is what the dish comes to when its food is changed and the whole is counted anew."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.brief import Brief, EnergyBasis
from solver.components import Component, Drippings, Placed
from solver.foods import Food
from solver.label_intervals import nutrient_row
from solver.nutrients import COLUMN
from solver.outcome import Dish, Quantity
from solver.plate_off import plate_off
from solver.verify import dish_of
from tests.solver.larder import PATTIES, ROAST, brief, cooking_row, food, into, item

LEAN = food("lean", protein_g=21, fat_g=6, total_carbohydrate_g=0, available_carbohydrate_g=0, fibre_g=0)
PLACES = {
    PATTIES: Placed(PATTIES.name),
    replace(PATTIES, drippings=Drippings.SERVED): Placed(PATTIES.name),
    ROAST: Placed(ROAST.name, cooking_row(kept=0.6, shrunk=0.7), "a pair of this food"),
    Component("at the table"): Placed("at the table"),
}


def counted(of: Food, component: Component, basis: EnergyBasis) -> tuple[Dish, Brief]:
    """400 g of a food with 300 g of lean."""
    place = PLACES[component]
    quantities = [Quantity(into(item(each), place), grams, None, place) for each, grams in ((of, 400.0), (LEAN, 300.0))]
    asked = replace(brief(*(each.item for each in quantities)), components=(component,), energy_basis=basis)
    return dish_of(quantities, asked, frozenset()), asked


def bran(fat: float = 20.0, protein: float = 9.0, total: float = 40.0, fibre: float = 15.0) -> Food:
    carbohydrate = {"total_carbohydrate_g": total, "available_carbohydrate_g": total - fibre, "fibre_g": fibre}
    return food("bran", protein_g=protein, fat_g=fat, saturated_fat_g=fat * 0.4, energy_kcal=300.0, **carbohydrate)


CHANGED = {"fat_g": "fat", "protein_g": "protein", "total_carbohydrate_g": "total", "fibre_g": "fibre"}
WITHOUT = {"fat_g": 20.0, "protein_g": 9.0, "total_carbohydrate_g": 40.0, "fibre_g": 15.0}


@given(
    nutrient=st.sampled_from(sorted(CHANGED)),
    component=st.sampled_from(sorted(PLACES, key=lambda place: (place.name, place.drippings.value))),
    basis=st.sampled_from([EnergyBasis.GENERAL, EnergyBasis.REGULATION, EnergyBasis.SPECIFIC]),
    error=st.floats(0.1, 3),
)
def test_an_error_moves_what_counting_anew_moves(
    nutrient: str, component: Component, basis: EnergyBasis, error: float
) -> None:
    uncertain = replace(bran(), tolerance=(nutrient_row({nutrient: error}), nutrient_row({nutrient: error})))
    dish, asked = counted(uncertain, component, basis)
    (source,) = (each for each in plate_off(dish, asked).sources if each.about == "bran")
    ends = [
        counted(bran(**{CHANGED[nutrient]: WITHOUT[nutrient] + sign * error}), component, basis)[0] for sign in (1, -1)
    ]
    moved = [end.batch.energy_kcal - dish.batch.energy_kcal for end in ends]
    assert source.energy_kcal.above == pytest.approx(max(*moved, 0.0), abs=1e-6)
    assert source.energy_kcal.below == pytest.approx(-min(*moved, 0.0), abs=1e-6)
    shares = [_fat_share(end) - _fat_share(dish) for end in ends] if basis is EnergyBasis.GENERAL else None
    if shares is not None:
        assert source.fat_share_points is not None
        assert source.fat_share_points.above == pytest.approx(max(*shares, 0.0), abs=1e-6)
        assert source.fat_share_points.below == pytest.approx(-min(*shares, 0.0), abs=1e-6)


def _fat_share(dish: Dish) -> float:
    return 100 * 9 * (dish.batch.values["fat_g"] or 0.0) / dish.batch.energy_kcal


def test_the_food_that_is_changed_is_the_food_that_is_uncertain() -> None:
    assert {name: bran().value(name) for name in WITHOUT} == WITHOUT
    assert bran().value("available_carbohydrate_g") == bran().per_100g[COLUMN["available_carbohydrate_g"]] == 25
