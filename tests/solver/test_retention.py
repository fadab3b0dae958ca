"""What cooking leaves of vitamins, minerals and alcohol.

Figures: USDA Table of Nutrient Retention Factors, Release 6 (2007), DOI 10.15482/USDA.ADC/1409034, read second hand;
alcohol after two and a half hours is from memory.
"""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference_data import reference_folder
from solver.as_eaten import COLUMNS, PLACE, as_eaten, as_weighed
from solver.brief import EnergyBasis
from solver.catalogue import Catalogue
from solver.components import Component, Drippings, Placed
from solver.cook import Content, cook
from solver.cooking_kinds import FAMILY
from solver.cooking_table import load_cooking_table
from solver.errors import ReferenceDataError
from solver.foods import Food
from solver.retention import RetentionTable, load_retention
from solver.tables import read_table
from tests.solver.larder import food

CHEDDAR, EGG, HAM, BACON, WINE = "sr28:01009", "sr28:01123", "sr28:10150", "sr28:10123", "sr28:14096"
THIGH = "sr28:05091"
MINERALS = ("calcium_mg", "iron_mg", "magnesium_mg", "phosphorus_mg", "potassium_mg", "sodium_mg", "zinc_mg")
WHOLE = dict.fromkeys((*MINERALS, "copper_mg"), 1.0)
EGGS = {
    **WHOLE,
    "vitamin_a_rae_ug": 1.0,
    "thiamin_mg": 0.85,
    "riboflavin_mg": 0.95,
    "niacin_mg": 0.95,
    "vitamin_b6_mg": 0.95,
    "folate_dfe_ug": 0.75,
    "vitamin_b12_ug": 0.85,
}
BROILED = {
    "sodium_mg": 0.9,
    "potassium_mg": 0.85,
    "phosphorus_mg": 0.9,
    "zinc_mg": 1.0,
    "thiamin_mg": 0.7,
    "riboflavin_mg": 1.0,
    "vitamin_b12_ug": 0.9,
}
TABLE = load_retention(reference_folder() / "retention.csv")
MIXES = read_table(reference_folder() / "cooking" / "mixes.csv").texts("mix")
METHODS = (*FAMILY, *MIXES)
DRINK = food("drink", alcohol_g=10.0)
HEADER = (
    "release row,what,description begins,description lacks,state,group,method,minutes,nutrient,retention g/g,source\n"
)


@pytest.mark.parametrize(
    ("food_id", "method", "left"),
    [
        # 0001 cheese, 0103 and 0105 eggs, 1451 and 1459 cured pork.
        (
            CHEDDAR,
            "baked",
            {**WHOLE, "thiamin_mg": 0.75, "folate_dfe_ug": 0.8, "vitamin_b12_ug": 0.55, "vitamin_c_mg": 0.65},
        ),
        (EGG, "pan-fried", {**EGGS, "choline_mg": 0.85}),
        (EGG, "simmered", {**EGGS, "choline_mg": 0.8}),
        (HAM, "broiled", BROILED),
        (HAM, "roasted", {"sodium_mg": 0.8, "thiamin_mg": 0.6}),
    ],
)
def test_the_rows_of_the_release_are_told_whole(
    catalogue: Catalogue, food_id: str, method: str, left: dict[str, float]
) -> None:
    assert TABLE.of(catalogue.food(food_id), method, None) == left


@pytest.mark.parametrize(
    ("minutes", "left"),
    [
        (None, 0.85),
        (0, 0.85),
        (14.9, 0.85),
        (15, 0.4),
        (29, 0.4),
        (30, 0.35),
        (60, 0.25),
        (90, 0.2),
        (120, 0.1),
        (149, 0.1),
        (150, 0.05),
        (600, 0.05),
    ],
)
def test_alcohol_stays_by_the_last_row_that_the_time_has_reached(minutes: float | None, left: float) -> None:
    for method in ("simmered", "baked", "baked loaf"):
        assert TABLE.of(DRINK, method, minutes) == {"alcohol_g": left}


@pytest.mark.parametrize("method", ["broiled", "pan-fried", "steamed", "microwaved", "broiled patty"])
def test_no_time_counts_where_the_release_has_no_rows_with_a_time(method: str) -> None:
    assert TABLE.of(DRINK, method, 150) == {"alcohol_g": 0.85}


@given(st.sampled_from(METHODS), st.one_of(st.none(), st.floats(0, 1000)), st.floats(0, 1000), st.sampled_from(METHODS))
def test_longer_cooking_never_leaves_more_alcohol_and_unknown_time_leaves_most(
    method: str, shorter: float | None, more: float, other: str
) -> None:
    of_short = TABLE.of(DRINK, method, shorter)["alcohol_g"]
    longer = (shorter or 0.0) + more
    assert 0 < TABLE.of(DRINK, method, longer)["alcohol_g"] <= of_short <= TABLE.of(DRINK, other, None)["alcohol_g"]


def test_wine_of_the_food_table_loses_alcohol_only(catalogue: Catalogue) -> None:
    assert TABLE.of(catalogue.food(WINE), "simmered", 60) == {"alcohol_g": 0.25}


@pytest.mark.parametrize("dry", [food("dry", alcohol_g=0.0), food("nobody knows")])
def test_a_food_without_alcohol_gets_none(dry: Food) -> None:
    assert all(TABLE.of(dry, method, 30) == {} for method in METHODS)


def test_a_method_that_no_row_names_leaves_nothing_to_say(catalogue: Catalogue) -> None:
    for of in (catalogue.food(EGG), catalogue.food(HAM), DRINK):
        assert TABLE.of(of, "pickled", 30) == {}


@pytest.mark.parametrize(
    ("food_id", "why_not"),
    [
        (BACON, "bacon fries out: the rows of cured pork are not of it"),
        ("sr28:10136", "ham that is roasted already"),
        ("sr28:10137", "canned ham is cooked already"),
        ("sr28:10166", "separable fat"),
        ("sr28:10880", "pumped: brine leaves first"),
        ("sr28:01128", "an egg that is fried already"),
        ("sr28:01138", "a duck's egg"),
        ("sr28:01125", "a yolk by itself"),
        ("sr28:11209", "an eggplant"),
        ("sr28:01042", "process cheese"),
        ("sr28:18148", "cheesecake"),
        (THIGH, "a thigh has no row"),
    ],
)
def test_what_a_row_is_not_of_is_kept_whole(catalogue: Catalogue, food_id: str, why_not: str) -> None:
    assert all(TABLE.of(catalogue.food(food_id), method, 30) == {} for method in METHODS), why_not


def test_a_label_or_a_plain_food_in_a_mix_has_no_row(catalogue: Catalogue) -> None:
    egg = catalogue.food(EGG)
    assert TABLE.of(replace(egg, group=None), "pan-fried", None) == {}
    assert all(TABLE.of(egg, mix, None) == {} for mix in MIXES)


def test_no_food_of_the_table_loses_protein_fat_or_carbohydrate_or_vitamins_without_a_source(
    catalogue: Catalogue,
) -> None:
    told = {name for of in map(catalogue.food, catalogue.ids) for method in FAMILY for name in TABLE.of(of, method, 30)}
    energy = {name for name in COLUMNS if name.startswith("energy")}
    unsourced = {"retinol_ug", "vitamin_d_ug", "vitamin_e_mg", "vitamin_k_ug", "water_g", "cholesterol_mg"}
    macros = {"protein_g", "fat_g", "total_carbohydrate_g", "available_carbohydrate_g", "fibre_g", "sugars_g"}
    assert told == {*EGGS, "choline_mg", "vitamin_c_mg", "alcohol_g"}
    assert not told & (energy | unsourced | macros)


def test_100_g_cooked_hold_raw_by_retention_over_yield_and_the_macronutrients_are_untouched(
    catalogue: Catalogue,
) -> None:
    # The formula of the release: nutrient in 100 g cooked = raw x retention / yield.
    egg, method = catalogue.food(EGG), "pan-fried"
    row = load_cooking_table(reference_folder() / "cooking").row(catalogue.food(THIGH), "roasted")  # for any yield
    assert row is not None
    left = TABLE.of(egg, method, None)
    component, placed = Component("eggs", method, Drippings.SERVED), Placed("eggs", row, retention=left)
    raw = as_weighed((egg,), EnergyBasis.SPECIFIC)[0]
    eaten = as_eaten(raw, component, placed)
    cooked_g = cook(component, [Content("egg", egg, 100.0, placed)]).cooked_g
    for nutrient, kept in left.items():
        in_100g_cooked = 100 * eaten[PLACE[nutrient]] / cooked_g
        assert in_100g_cooked == pytest.approx(egg.value(nutrient) * kept / row.yield_g_per_g)
    macros = [PLACE[name] for name in ("protein_g", "fat_g", "total_carbohydrate_g", "basis_energy_kcal")]
    np.testing.assert_array_equal(eaten[macros], raw[macros])
    assert eaten[PLACE["thiamin_mg"]] == pytest.approx(0.034)  # 0.040 mg in the raw egg, 85 % kept


def read(tmp_path: Path, line: str) -> RetentionTable:
    path = tmp_path / "retention.csv"
    path.write_text(HEADER + line + "\n", encoding="utf-8")
    return load_retention(path)


@pytest.mark.parametrize(
    ("line", "complaint"),
    [
        (",,Egg,,,Eggs,baked,,protein_g,0.9,x", "'protein_g' has no retention factors"),
        (",,Egg,,,Eggs,baked,,thiamin_mg,85,x", "85.0 is not in 0 to 1"),
        (",,Egg,,,Eggs,baked,,thiamin_mg,,x", "nan is not in 0 to 1"),
        (",,Egg,,,Eggs,baked,,thiamin_mg,most,x", "'most'"),
    ],
)
def test_a_damaged_row_is_refused_with_its_line(tmp_path: Path, line: str, complaint: str) -> None:
    with pytest.raises(ReferenceDataError, match=r"retention\.csv, line 2") as caught:
        read(tmp_path, line)
    assert complaint in str(caught.value)


def test_a_table_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ReferenceDataError, match=r"retention\.csv"):
        load_retention(tmp_path / "retention.csv")
