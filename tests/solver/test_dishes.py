"""A dish as a food: what went in and stayed, each gram of it, and who it is."""

from dataclasses import replace

import numpy as np
import pytest

from solver.catalogue import Catalogue
from solver.dishes import FixedDish, food_of_dish
from solver.foods import Food, Polyols, SpecificFactors
from solver.nutrients import COLUMN, NUTRIENTS
from tests.solver.dish_making import WATER, made, of
from tests.solver.larder import BREAD, BUTTER, CHICKEN, food


def test_two_spoons_of_paprika_and_one_of_garlic_powder_are_nearly_nine_grams_of_carbohydrate(
    catalogue: Catalogue,
) -> None:
    # USDA SR28 02028 (1 tbsp 6.8 g) and 02020 (1 tbsp 9.7 g): total less fibre, 19.09 and 63.73 g in 100 g.
    paprika, garlic = catalogue.food("sr28:02028"), catalogue.food("sr28:02020")
    mix = made(of(paprika, 2 * 6.8), of(garlic, 9.7))
    assert mix.value("available_carbohydrate_g") * 23.3 / 100 == pytest.approx(
        (13.6 * 19.09 + 9.7 * 63.73) / 100, rel=1e-9
    )
    assert mix.value("available_carbohydrate_g") * 23.3 / 100 == pytest.approx(8.8, abs=0.05)


def test_a_stock_that_is_reduced_keeps_its_salt_and_loses_only_water(catalogue: Catalogue) -> None:
    # USDA SR28 06172, chicken stock: water 92.15 g, protein 2.52 g, sodium 143 mg in 100 g; the rest by hand.
    stock = catalogue.food("sr28:06172")
    reduced = made(of(stock, 1000.0), yield_g=250.0)
    assert stock.value("sodium_mg") == 143
    assert reduced.value("sodium_mg") == pytest.approx(4 * 143)
    assert reduced.value("protein_g") == pytest.approx(4 * stock.value("protein_g"))
    assert reduced.value("water_g") * 2.5 == pytest.approx(stock.value("water_g") * 10 - 750)
    assert any("750.0 g evaporated" in remark for remark in reduced.remarks)


def test_mayonnaise_is_what_went_into_it(catalogue: Catalogue) -> None:
    oil, yolk, vinegar = (catalogue.food(f"sr28:{number}") for number in ("04582", "01125", "02053"))
    mayonnaise = made(of(oil, 220.0), of(yolk, 17.0), of(vinegar, 15.0), measure=(1.125, "cup"))
    assert mayonnaise.value("fat_g") == pytest.approx((220 * 100 + 17 * 26.54) / 252)  # SR28: oil 100 g, yolk 26.54 g
    assert 220 / 252 > 0.65  # 21 CFR 169.140: at least 65 % by weight of vegetable oil
    (cup,) = mayonnaise.measures
    assert (cup.amount, cup.unit) == (1.125, "cup")
    assert cup.grams == pytest.approx(252)


def test_each_ingredient_brings_its_own_energy() -> None:
    yolk = replace(BUTTER, id="invented:yolk", factors=SpecificFactors(4.36, 9.02, 3.68))
    sauce = made(of(yolk, 50.0), of(BREAD, 150.0))
    assert sauce.made is not None
    by_hand = [(50 * 0.01 * 4.36 + 150 * 0.1 * 4), (50 * 0.8 * 9.02 + 150 * 0.02 * 9), (50 * 0.01 * 3.68 + 150 * 2), 0]
    assert sauce.made.kcal["specific"] == pytest.approx(np.array(by_hand) / 2)
    assert sauce.made.kj["specific"] == pytest.approx(np.array(by_hand) * 4.184 / 2)
    # Regulation (EU) No 1169/2011, Annex XIV: 17, 37 and 17 kJ, and no conversion from kcal.
    assert sauce.made.kj["general"] == pytest.approx(np.array([15.5 * 17, 43 * 37, 75.5 * 17, 0]) / 2)


def test_missing_stays_missing_however_little_there_is_of_it() -> None:
    spice = food("spice", protein_g=1.0)
    dish = made(of(BREAD, 1000.0), of(spice, 0.1))
    assert dish.is_missing("fat_g")
    assert dish.value("protein_g") == pytest.approx(100.001 / 1000.1 * 100)
    assert dish.made is not None
    assert np.isnan(dish.made.kcal["general"][1])
    assert not np.isnan(dish.made.kcal["general"][0])


def test_missing_is_counted_as_asked_and_said() -> None:
    dish = food_of_dish(FixedDish("dish", (of(BREAD, 100.0), of(food("spice"), 100.0))), {"fibre_g": 40.0})
    assert dish.value("fibre_g") == pytest.approx(20)
    assert any(remark.startswith("fibre_g is missing and was counted as 40 in 100 g") for remark in dish.remarks)


def test_polyols_and_doubts_come_along() -> None:
    sweet = replace(
        BREAD, id="label:sweet", polyols=Polyols(20, 10, 0, 15), total_carbohydrate_counted=True, remarks=("Says so.",)
    )
    dish = made(of(sweet, 50.0, "jam"), of(BUTTER, 150.0))
    assert dish.polyols == Polyols(5, 2.5, 0, 3.75)
    assert dish.total_carbohydrate_counted
    assert "jam: Says so." in dish.remarks
    outer = made(of(dish, 10.0, "filling"), of(BREAD, 10.0))
    assert "jam: Says so." in outer.remarks


def test_standard_errors_add_as_squares_and_rounding_adds_as_it_is() -> None:
    error = np.full(len(NUTRIENTS), np.nan)
    error[COLUMN["fat_g"]] = 3.0
    a, b = (replace(each, standard_error=error, half_interval=error) for each in (BUTTER, BREAD))
    dish = made(of(a, 50.0), of(b, 50.0))
    assert dish.standard_error is not None
    assert dish.half_interval is not None
    assert dish.standard_error[COLUMN["fat_g"]] == pytest.approx(np.hypot(1.5, 1.5))
    assert dish.half_interval[COLUMN["fat_g"]] == pytest.approx(3.0)
    assert np.isnan(dish.standard_error[COLUMN["protein_g"]])
    assert made(of(BUTTER, 1.0)).standard_error is None
    twice = made(of(a, 50.0, "one"), of(a, 50.0, "other"))
    assert twice.standard_error is not None
    assert twice.standard_error[COLUMN["fat_g"]] == pytest.approx(3.0), "one food errs to one side"


def test_allergens_are_contained_where_any_has_them_and_absent_where_all_say_so() -> None:
    a = replace(BUTTER, contains=frozenset({"milk"}), without=frozenset({"egg", "fish"}))
    b = replace(BREAD, contains=frozenset({"wheat"}), without=frozenset({"egg"}))
    dish = made(of(a, 50.0), of(b, 50.0), of(WATER, 100.0), strained_out=frozenset({"bread"}))
    assert dish.contains == {"milk", "wheat"}, "what was strained out has been in the pot"
    assert dish.without == frozenset()
    assert made(of(a, 50.0), of(b, 50.0)).without == {"egg"}


def test_the_id_and_the_numbers_depend_on_no_order_and_no_name() -> None:
    a, b, c = of(BUTTER, 33.3), of(BREAD, 21.7), of(CHICKEN, 11.9)
    one, other = made(a, b, c), replace(made(c, a, of(BREAD, 21.7, "crumbs")), name="other")
    assert one.id == other.id
    assert one.id.startswith("dish:")
    assert len(one.id) == len("dish:") + 12
    assert np.array_equal(one.per_100g, other.per_100g, equal_nan=True)


@pytest.mark.parametrize(
    "other",
    [
        made(of(BUTTER, 33.4), of(WATER, 20.0)),
        made(of(BUTTER, 33.3), of(WATER, 20.0), yield_g=50.0),
        made(of(BUTTER, 33.3), of(WATER, 20.0), skimmed_fat_g=1.0),
        made(of(BUTTER, 33.3), of(WATER, 20.0), strained_out=frozenset({"water"})),
        made(of(BUTTER, 33.3), of(WATER, 20.0), discarded=(("water", 1.0),)),
        made(of(BUTTER, 33.3), of(WATER, 20.0), measure=(1.0, "cup")),
    ],
)
def test_another_dish_has_another_id(other: Food) -> None:
    assert made(of(BUTTER, 33.3), of(WATER, 20.0)).id != other.id
