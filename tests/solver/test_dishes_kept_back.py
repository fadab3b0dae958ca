"""What is taken out of a dish again, and what it yields: nothing else leaves."""

from dataclasses import replace

import pytest

from solver.components import Component, Placed
from tests.solver.dish_making import SALT, WATER, made, of, refused, weight, with_values
from tests.solver.larder import BREAD, BUTTER, CHICKEN, macronutrients


def test_bones_that_are_strained_out_leave_none_of_their_numbers() -> None:
    bones = macronutrients("bones", protein=20, fat=15)
    stock = made(of(bones, 1000.0), of(WATER, 900.0), of(SALT, 10.0), strained_out=frozenset({"bones"}))
    assert stock.value("protein_g") == 0
    assert stock.value("sodium_mg") == pytest.approx(387.58 / 910 * 1000)
    assert any("is not known and not counted: bones." in remark for remark in stock.remarks)
    assert stock.made is not None
    assert {part.food.name: part.grams for part in stock.made.ingredients}["bones"] == 0


def test_fat_that_is_skimmed_balances() -> None:
    fatty = replace(BUTTER, per_100g=with_values(BUTTER, saturated_fat_g=50.0, sodium_mg=600.0))
    lean = replace(CHICKEN, per_100g=with_values(CHICKEN, saturated_fat_g=1.0, sodium_mg=80.0))
    pot = (of(fatty, 100.0), of(lean, 500.0))
    before, after = made(*pot), made(*pot, skimmed_fat_g=30.0)
    assert weight(after, "chicken", 500.0) == pytest.approx(100 + 500 - 30)
    for nutrient, lost in {"fat_g": 30.0, "saturated_fat_g": 30 * 55 / 100, "protein_g": 0.0, "sodium_mg": 0.0}.items():
        left = after.value(nutrient) * 5.7
        assert left == pytest.approx(before.value(nutrient) * 6 - lost), nutrient
    assert before.made is not None
    assert after.made is not None
    assert after.made.kcal["general"][1] * 5.7 == pytest.approx((100 - 30) * 9)


def test_more_fat_than_there_is_cannot_be_skimmed() -> None:
    problem = refused(of(BUTTER, 100.0), of(WATER, 100.0), skimmed_fat_g=80.1)
    assert (problem.pointer, problem.code) == ("/skimmed_fat", "skimmed_exceeds_fat")
    assert made(of(BUTTER, 100.0), of(WATER, 100.0), skimmed_fat_g=80.0).value("fat_g") == pytest.approx(0, abs=1e-12)


def test_of_a_marinade_counts_what_was_not_thrown_away() -> None:
    marinade = made(of(SALT, 10.0), of(WATER, 190.0))
    chicken = replace(CHICKEN, per_100g=with_values(CHICKEN, sodium_mg=80.0))
    meat = made(of(chicken, 500.0), of(marinade, 200.0, "marinade"), discarded=(("marinade", 150.0),))
    assert meat.value("sodium_mg") * 5.5 == pytest.approx(5 * 80 + 50 * 0.05 * 387.58)
    assert weight(meat, "chicken", 500.0) == pytest.approx(550)


def test_no_more_can_be_thrown_away_than_went_in() -> None:
    problem = refused(of(CHICKEN, 500.0), of(WATER, 100.0), discarded=(("water", 60.0), ("water", 60.0)))
    assert problem.code == "discarded_exceeds_ingredient"


def test_a_dish_of_nothing_is_refused() -> None:
    assert refused(of(BUTTER, 100.0), strained_out=frozenset({"butter"})).code == "dish_of_nothing"
    assert refused(of(BUTTER, 100.0), discarded=(("butter", 100.0),)).code == "dish_of_nothing"
    pure = macronutrients("oil", fat=100)
    assert refused(of(pure, 100.0), skimmed_fat_g=100.0).code == "dish_of_nothing"


def test_a_dish_weighs_no_more_than_went_in() -> None:
    problem = refused(of(BREAD, 100.0), of(WATER, 50.06), yield_g=151.0)
    assert (problem.pointer, problem.code) == ("/makes", "yield_exceeds_ingredients")
    assert "150.0 g or less" in problem.remedy
    assert weight(made(of(BREAD, 100.0), of(WATER, 50.0), yield_g=150.0), "bread", 100.0) == pytest.approx(150)


def test_dry_matter_does_not_evaporate() -> None:
    dried = replace(BREAD, per_100g=with_values(BREAD, water_g=38.0))
    problem = refused(of(dried, 100.0), of(WATER, 100.0), yield_g=61.9)
    assert (problem.pointer, problem.code) == ("/makes", "yield_below_dry_matter")
    assert "Give 62.0 g or more" in problem.remedy
    assert made(of(dried, 100.0), of(WATER, 100.0), yield_g=62.0).value("water_g") == pytest.approx(0, abs=1e-9)


def test_where_water_is_missing_it_is_at_most_what_is_nothing_else() -> None:
    assert refused(of(BREAD, 100.0), yield_g=61.9).code == "yield_below_dry_matter"
    assert made(of(BREAD, 100.0), yield_g=62.1).is_missing("water_g")


def test_alcohol_that_left_is_no_water() -> None:
    wine = replace(macronutrients("wine"), per_100g=with_values(macronutrients("wine"), alcohol_g=10.0, water_g=90.0))
    simmered = Component("sauce", "simmered", minutes=15)
    placed = Placed("sauce", retention={"alcohol_g": 0.4})
    sauce = made(of(wine, 100.0, placed=placed), yield_g=50.0, components=(simmered,))
    # By hand: 50 g left, 6 g of them alcohol; 4 g alcohol and 46 g water stayed.
    assert sauce.value("alcohol_g") == pytest.approx(8)
    assert sauce.value("water_g") == pytest.approx(92)
