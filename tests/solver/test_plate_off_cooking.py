"""What the estimate of cooking leaves open, by hand: 900 g of mince, of whose 270 g fat the pan takes 175.5 g."""

from dataclasses import replace

from solver.components import Component, Drippings, Placed
from solver.cook import SPOON_G
from solver.label_intervals import nutrient_row
from solver.outcome import Quantity
from solver.plate_off import PlateOff, plate_off
from solver.plate_off_moves import Kind, OffBy
from solver.verify import dish_of
from tests.solver.larder import PATTIES, ROAST, brief, food, into, item
from tests.solver.off_by import either, off_by

NO_CARBOHYDRATE = {"total_carbohydrate_g": 0.0, "available_carbohydrate_g": 0.0}
MINCE = food("mince", protein_g=15, fat_g=30, cholesterol_mg=70, saturated_fat_g=12, water_g=55, **NO_CARBOHYDRATE)


def off(component: Component, grams: float = 900.0, spoons: int = 0, place: Placed | None = None) -> PlateOff:
    placed = place or Placed(component.name)
    one = into(item(MINCE), placed)
    asked = replace(brief(one), components=(component,))
    dish = dish_of([Quantity(one, grams, None, placed)], asked, frozenset(), {component.name: spoons})
    return plate_off(dish, asked)


def test_fat_that_runs_out_and_the_weight_that_is_left_by_hand() -> None:
    found = off(PATTIES)
    # Half-intervals of the curve: 0.01 x 900 g of fat, 0.08 x 900 g of weight.
    assert found.batch.values["fat_g"] == either(9)
    assert found.batch.values["saturated_fat_g"] == either(9 * 12 / 30)
    assert found.batch.values["cholesterol_mg"] == either(9 * 1.09)  # not 70 / 30: most of it is in the lean
    assert found.batch.energy_kcal == either(81)
    assert found.batch.energy_kj == either(9 * 37)
    assert found.batch.grams == either(72)
    assert found.batch.values["water_g"] == either((72**2 + 9**2) ** 0.5)
    assert found.batch.values["protein_g"] == OffBy(0, 0)
    share = 100 * 850.5 / 1390.5
    assert found.fat_share_points == off_by(share - 100 * 769.5 / 1309.5, 100 * 931.5 / 1471.5 - share)
    (source,) = found.sources
    assert (source.kind, source.about, source.energy_kcal) == (Kind.COOKING, "patties", either(81))
    assert "175.5 g of fat that run out may be off by 9.0 g" in source.why
    assert "invented curve" in source.why


def test_drippings_that_are_served_leave_only_the_weight_open() -> None:
    found = off(replace(PATTIES, drippings=Drippings.SERVED))
    assert found.batch.values["fat_g"] == found.batch.energy_kcal == found.fat_share_points == OffBy(0, 0)
    assert found.batch.grams == either((72**2 + 9**2) ** 0.5)


def test_spooned_back_drippings_are_fixed_by_their_spoons() -> None:
    component = replace(PATTIES, drippings=Drippings.SPOONED_BACK)
    assert off(component, spoons=2).batch.values["fat_g"] == either(9)
    # 41 teaspoons leave 0.567 g in the pan, so that no more than this may have stayed in the food instead.
    left = 175.5 - 41 * SPOON_G
    assert off(component, spoons=41).batch.values["fat_g"] == off_by(9, left)


def test_what_was_weighed_has_no_error() -> None:
    whole = off(replace(PATTIES, cooked_g=520.0, drippings_g=170.0, finished=True))
    assert whole.sources == ()
    weight = off(replace(PATTIES, cooked_g=520.0, finished=True))
    assert weight.batch.grams == OffBy(0, 0)
    assert weight.batch.values["fat_g"] == weight.batch.values["water_g"] == either(9)
    fat = off(replace(PATTIES, drippings_g=170.0, finished=True))
    assert fat.batch.values["fat_g"] == OffBy(0, 0)
    assert fat.batch.grams == either(72)


def test_more_fat_in_a_mix_goes_where_its_curve_says() -> None:
    fatter = replace(MINCE, standard_error=nutrient_row({"fat_g": 1.0}))
    one = into(item(fatter), Placed(PATTIES.name))
    for component, kept in ((PATTIES, -0.15), (replace(PATTIES, drippings_g=170.0, finished=True), 1.0)):
        asked = replace(brief(one), components=(component,))
        dish = dish_of([Quantity(one, 900.0, None, Placed(PATTIES.name))], asked, frozenset())
        (source,) = (each for each in plate_off(dish, asked).sources if each.kind is Kind.STANDARD_ERROR)
        # 9 x 1.645 g more fat go in; the leaner the rest, the less it holds: 0.15 of a gram less to the gram.
        assert source.energy_kcal == either(abs(kept) * 9 * 1.645 * 9)


def test_what_nobody_knows_of_pieces_is_wholly_open() -> None:
    found = off(ROAST, 100.0)
    # No row: none of the 30 g runs out, but all may; all of the 55 g of water may leave.
    assert found.batch.values["fat_g"] == off_by(30, 0)
    assert found.batch.grams == either(55)


def test_what_is_not_cooked_has_no_error_of_cooking() -> None:
    assert off(Component("at the table")).sources == ()
