"""Cooked weights and fat beside published ones.

USDA SR28 (seen): fat of the cooked rows. USDA Table of Cooking Yields for Meat and Poultry, release 2, 2014 (second
hand: transcriptions of its table; fat columns not seen).
"""

import pytest

from reference_data import reference_folder
from solver.catalogue import Catalogue
from solver.components import UNCOOKED, Component, Placed
from solver.cook import Content, cook
from solver.cooked import Evidence
from solver.cooking_rows import CookingRow
from solver.cooking_table import CookingTable, load_cooking_table


@pytest.fixture(scope="module")
def table() -> CookingTable:
    return load_cooking_table(reference_folder() / "cooking")


def broiled(table: CookingTable) -> Component:
    return Component("patties", "broiled patty", curve=next(c for c in table.curves if c.mix == "broiled patty"))


# SR28 raw row, its cooked row, and the fat of that: 80/20, 75/25 and 70/30 all end alike.
PLATEAU = [("sr28:23572", "sr28:23573", 17.8), ("sr28:23577", "sr28:23578", 18.9), ("sr28:13498", "sr28:13497", 18.7)]


@pytest.mark.parametrize(("raw", "cooked", "fat_g"), PLATEAU)
def test_broiled_mince_ends_at_fifteen_to_nineteen_percent_fat_whatever_it_began_with(
    table: CookingTable, catalogue: Catalogue, raw: str, cooked: str, fat_g: float
) -> None:
    assert catalogue.food(cooked).value("fat_g") == pytest.approx(fat_g, abs=0.05)
    done = cook(broiled(table), [Content("mince", catalogue.food(raw), 100.0, UNCOOKED)])
    per_100g = 100 * done.kept_g / done.cooked_g
    assert 15 <= per_100g <= 19
    assert per_100g == pytest.approx(fat_g, abs=1.0)


# Raw row of SR28, fat per 100 g of its cooked row (SR28, seen): leaner than the plateau, hardly any renders.
@pytest.mark.parametrize(("raw", "fat_g"), [("sr28:23557", 6.80), ("sr28:23562", 11.75), ("sr28:23567", 15.41)])
def test_leaner_mince_keeps_its_fat(table: CookingTable, catalogue: Catalogue, raw: str, fat_g: float) -> None:
    done = cook(broiled(table), [Content("mince", catalogue.food(raw), 100.0, UNCOOKED)])
    assert 100 * done.kept_g / done.cooked_g == pytest.approx(fat_g, abs=1.0)


def test_a_patty_of_ninety_ten_weighs_what_the_table_of_yields_says(table: CookingTable, catalogue: Catalogue) -> None:
    # 23563, low-fat band, patty broiled: 73 %.
    done = cook(broiled(table), [Content("mince", catalogue.food("sr28:23562"), 100.0, UNCOOKED)])
    assert done.cooked_g == pytest.approx(73, abs=5)


# Cooked NDB and yield of the table: 05060 breast 72, 05094 thigh 69, 10039 loin roast 77, 10179 loin chop 76.
@pytest.mark.parametrize(
    ("raw", "method", "percent"),
    [
        ("sr28:05057", "roasted", 72),
        ("sr28:05091", "roasted", 69),
        ("sr28:10036", "roasted", 77),
        ("sr28:10036", "pan-fried", 76),
    ],
)
def test_pieces_weigh_what_the_table_of_yields_says_within_five_points(
    table: CookingTable, catalogue: Catalogue, raw: str, method: str, percent: float
) -> None:
    food = catalogue.food(raw)
    rows = [row for row in table.applies_to(food) if isinstance(row, CookingRow) and row.method == method]
    done = cook(Component("pieces", method), [Content(food.name, food, 100.0, Placed("pieces", rows[0]))])
    assert done.cooked_g == pytest.approx(percent, abs=5)
    assert done.weight is Evidence.MATCHED


@pytest.mark.parametrize("raw", ["sr28:23572", "sr28:23577", "sr28:13498"])
def test_the_fat_that_the_pair_of_rows_lost_is_inside_the_stated_interval(
    table: CookingTable, catalogue: Catalogue, raw: str
) -> None:
    # Protein is conserved: y = P raw / P cooked; fat kept per 100 g raw is y times the fat of the cooked row.
    cooked = next(other for mine, other, _ in PLATEAU if mine == raw)
    before, after = catalogue.food(raw), catalogue.food(cooked)
    kept = before.value("protein_g") / after.value("protein_g") * after.value("fat_g")
    done = cook(broiled(table), [Content("mince", before, 100.0, UNCOOKED)])
    assert done.kept_g == pytest.approx(kept, abs=done.rendered_half_g)


@pytest.mark.parametrize("mix", ["broiled patty", "pan-fried patty", "pan-fried crumbles", "baked loaf"])
@pytest.mark.parametrize("lard_g", [0.0, 100.0, 400.0, 900.0])
def test_however_much_lard_goes_into_a_mix_no_weight_comes_from_nothing(
    table: CookingTable, catalogue: Catalogue, mix: str, lard_g: float
) -> None:
    curve = next(curve for curve in table.curves if curve.mix == mix)
    contents = [
        Content(of, catalogue.food(of), grams, UNCOOKED)
        for of, grams in (("sr28:23572", 100.0), ("sr28:04002", lard_g))
    ]
    done = cook(Component("patties", mix, curve=curve), contents)
    assert done.cooked_g + done.rendered_g <= done.raw_g + 1e-9
