"""How far the plate may be off, as the contract has it; labels keep what their print leaves open on the way there."""

from dataclasses import replace
from math import inf, isnan, nan
from typing import Any

import pytest

from service.translate.plate_off import to_plate_off
from solver.foods import Food
from solver.nutrients import COLUMN
from solver.outcome import Quantity
from solver.plate_off import PlateOff, plate_off
from solver.plate_off_moves import OffBy
from solver.verify import dish_of
from tests.service.labels import eu, us
from tests.solver.larder import brief, item


def off(of: Food, grams: float = 100.0) -> PlateOff:
    asked = brief(item(of), portions=2)
    return plate_off(dish_of([Quantity(item(of), grams, None)], asked, frozenset()), asked)


SAUSAGE = eu(fat_g=28, protein_g=15, carbohydrate_g="1,2", fibre_g=0, salt_g=2.3, saturated_fat_g=11)


def ends(of: Food, nutrient: str) -> tuple[float, float, float]:
    """Half-interval of the print, and what is tolerated below and above; in 100 g."""
    assert of.half_interval is not None
    assert of.tolerance is not None
    rows = (of.half_interval, *of.tolerance)
    half, below, above = (float(row[COLUMN[nutrient]]) for row in rows)
    return half, below, above


def test_an_answer_has_the_words_and_six_decimals() -> None:
    answer = to_plate_off(off(SAUSAGE))
    assert "exact for these inputs" in answer.text
    # Printed to 1 g: half a gram; 20 % are tolerated, 5.6 g. sqrt(0.5^2 + 5.6^2) = 5.62228...
    assert answer.batch.nutrients["fat_g"].below == answer.batch.nutrients["fat_g"].above == 5.622277
    assert answer.portion.nutrients["fat_g"].below == 2.811139
    assert [source.kind for source in answer.sources] == ["label tolerance", "label rounding"]
    assert answer.nothing_stated_for == {}


def test_a_ratio_without_limit_is_null_above() -> None:
    fat_alone = replace(off(SAUSAGE), ketogenic_ratio=OffBy(1.23456789, inf))
    answer = to_plate_off(fat_alone).ketogenic_ratio
    assert answer is not None
    assert (answer.below, answer.above) == (1.234568, None)


def test_what_is_undefined_is_null() -> None:
    answer = to_plate_off(off(eu(fat_g=28)))
    assert answer.fat_share_points is answer.ketogenic_ratio is answer.sources[0].fat_share_points is None


def test_an_eu_label_keeps_its_intervals_by_nutrient() -> None:
    assert ends(SAUSAGE, "fat_g") == pytest.approx((0.5, 5.6, 5.6))
    assert ends(SAUSAGE, "available_carbohydrate_g") == pytest.approx((0.05, 1.2, 2))
    # Salt to 0.1 g: 0.05 g of salt are 20 mg of sodium; 20 % of 920 mg.
    assert ends(SAUSAGE, "sodium_mg") == pytest.approx((20, 184, 184))
    assert all(isnan(each) for each in ends(SAUSAGE, "total_carbohydrate_g"))
    by_kj = eu("25 g", energy_kj=419)
    assert ends(by_kj, "energy_kcal") == pytest.approx((0.5 * 4 / 4.184, nan, nan), nan_ok=True)


def test_a_us_label_keeps_its_intervals_of_100_g() -> None:
    cheese = us("28 g", fat_g=9, protein_g=7, total_carbohydrate_g=0, sodium_mg=180)
    assert ends(cheese, "fat_g") == pytest.approx((50 / 28, nan, 180 / 28), nan_ok=True)
    assert ends(cheese, "protein_g") == pytest.approx((50 / 28, 140 / 28, nan), nan_ok=True)
    assert ends(cheese, "sodium_mg") == pytest.approx((500 / 28, nan, 3600 / 28), nan_ok=True)
    # Read as its upper bound, 0.5 g, it may be none.
    assert ends(cheese, "total_carbohydrate_g")[0] == pytest.approx(50 / 28)
    assert all(isnan(each) for each in ends(cheese, "available_carbohydrate_g"))


def test_fibre_of_a_us_label_moves_available_carbohydrate_and_that_of_an_eu_label_does_not() -> None:
    printed: dict[str, Any] = {"fat_g": 10, "protein_g": 10, "fibre_g": 10}
    american = off(us("100 g", total_carbohydrate_g=20, **printed))
    european = off(eu("100 g", carbohydrate_g=20, **printed))
    # US: 0.5 g by print of each, 20 % less of the total, or 20 % less fibre, which leaves more available.
    assert american.batch.values["available_carbohydrate_g"].above == pytest.approx((2 * 0.5**2 + 2**2) ** 0.5)
    # EU: 0.5 g by print and 20 % of 20 g, of the carbohydrate alone.
    assert european.batch.values["available_carbohydrate_g"].above == pytest.approx((0.5**2 + 4**2) ** 0.5)
