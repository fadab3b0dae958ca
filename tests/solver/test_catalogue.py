from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from solver.catalogue import Catalogue, load_catalogue, name_parts
from solver.errors import ReferenceDataError
from solver.foods import Measure, SpecificFactors
from solver.nutrients import COLUMN, NUTRIENTS

READ = [nutrient for nutrient in NUTRIENTS if nutrient.sr28_number is not None]
NUTRIENT_HEADER = ",".join(["food id", *(f"{n.tagname} {n.unit}" for n in READ), "source"])

FOODS_COLUMNS = ["food id", "description", "group id", "refuse %"]
FOODS_COLUMNS += ["protein factor kcal/g", "fat factor kcal/g", "carbohydrate factor kcal/g", "source"]


def nutrient_line(food_id: str, **amounts: str) -> str:
    return ",".join([food_id, *(amounts.get(nutrient.name, "") for nutrient in READ), "invented"])


#: An invented table of three foods: a cheese, a bone-in roast without fibre or factors, and a bran.
TABLES = {
    "foods.csv": [
        ",".join(FOODS_COLUMNS),
        'x:1,"Cheese, hard",x:A,2,4.27,8.79,,invented',
        'x:2,"Roast, bone in",x:B,,,,,invented',
        'x:3,"Bran, raw",x:A,0,1.82,8.37,2.35,invented',
    ],
    "food_groups.csv": ["group id,title,source", "x:A,Larder,invented", "x:B,Meat,invented"],
    "composition.csv": [
        NUTRIENT_HEADER,
        nutrient_line("x:1", protein_g="25.0", total_carbohydrate_g="3.1", fibre_g="0.0"),
        nutrient_line("x:2", protein_g="20.0", total_carbohydrate_g="0.4"),
        nutrient_line("x:3", protein_g="15.5", total_carbohydrate_g="40.0", fibre_g="42.8"),
    ],
    "standard_errors.csv": [
        NUTRIENT_HEADER,
        nutrient_line("x:1", protein_g="0.21"),
        nutrient_line("x:2"),
        nutrient_line("x:3"),
    ],
    "measures.csv": [
        "food id,amount,unit,grams g,source",
        'x:1,1,"slice, thin",21.0,invented',
        "x:1,.5,cup,56.5,invented",
        "x:3,1,tbsp,3.6,invented",
    ],
}

Damage = Callable[[list[str]], list[str]]


def write_tables(folder: Path, file: str = "", damage: Damage = lambda lines: lines) -> Path:
    for name, lines in TABLES.items():
        kept = damage(list(lines)) if name == file else lines
        (folder / name).write_text("".join(f"{line}\n" for line in kept), encoding="utf-8")
    return folder


@pytest.fixture
def invented(tmp_path: Path) -> Catalogue:
    return load_catalogue(write_tables(tmp_path))


def test_a_food_carries_its_name_group_measures_factors_refuse_and_source(invented: Catalogue) -> None:
    cheese = invented.food("x:1")
    assert (cheese.id, cheese.name, cheese.group, cheese.source) == ("x:1", "Cheese, hard", "Larder", "invented")
    assert cheese.measures == (Measure(1, "slice, thin", 21), Measure(0.5, "cup", 56.5))
    assert cheese.factors == SpecificFactors(4.27, 8.79, None)
    assert cheese.refuse_percent == 2
    assert cheese.value("protein_g") == 25


def test_a_food_without_measures_or_factors_has_none(invented: Catalogue) -> None:
    roast = invented.food("x:2")
    assert roast.measures == ()
    assert roast.factors is None


def test_what_the_table_leaves_empty_is_missing_not_zero(invented: Catalogue) -> None:
    roast = invented.food("x:2")
    assert np.isnan(roast.value("iron_mg"))
    assert np.isnan(roast.refuse_percent)


def test_available_carbohydrate_is_the_total_less_fibre_and_never_below_0(invented: Catalogue) -> None:
    assert invented.food("x:1").value("available_carbohydrate_g") == 3.1
    assert invented.food("x:3").value("available_carbohydrate_g") == 0
    assert not invented.food("x:3").total_carbohydrate_counted


def test_available_carbohydrate_is_the_total_where_fibre_is_missing_and_the_food_says_so(invented: Catalogue) -> None:
    roast = invented.food("x:2")
    assert roast.value("available_carbohydrate_g") == 0.4
    assert roast.total_carbohydrate_counted


def test_a_missing_total_leaves_available_carbohydrate_missing(tmp_path: Path) -> None:
    def without_total(lines: list[str]) -> list[str]:
        return [*lines[:3], nutrient_line("x:3", fibre_g="42.8")]

    bran = load_catalogue(write_tables(tmp_path, "composition.csv", without_total)).food("x:3")
    assert np.isnan(bran.value("available_carbohydrate_g"))
    assert not bran.total_carbohydrate_counted


def test_standard_errors_stand_beside_their_nutrient(invented: Catalogue) -> None:
    error = invented.food("x:1").standard_error
    assert error is not None
    assert error[COLUMN["protein_g"]] == 0.21
    assert np.isnan(error).sum() == len(NUTRIENTS) - 1


def test_an_unknown_food_is_a_key_error(invented: Catalogue) -> None:
    assert "x:9" not in invented
    with pytest.raises(KeyError):
        invented.food("x:9")


def test_a_name_comes_apart_at_its_commas_but_not_inside_parentheses() -> None:
    assert name_parts("Egg, whole (white, yolk), raw") == ("Egg", "whole (white, yolk)", "raw")


def without(line: int) -> Damage:
    return lambda lines: lines[:line] + lines[line + 1 :]


def replaced(line: int, old: str, new: str) -> Damage:
    return lambda lines: [*lines[:line], lines[line].replace(old, new), *lines[line + 1 :]]


@pytest.mark.parametrize(
    ("file", "damage", "message"),
    [
        ("foods.csv", replaced(2, "x:2", "x:1"), "foods.csv, line 3: 'x:1' is there twice"),
        ("foods.csv", replaced(2, "x:B", "x:C"), "foods.csv, line 3: 'x:C' is not in food_groups.csv"),
        ("foods.csv", replaced(1, "8.79", "8,79"), "foods.csv, line 2: 9 cells under a header of 8"),
        ("foods.csv", replaced(1, "8.79", "many"), "foods.csv, line 2: 'many' in column 'fat factor kcal/g'"),
        ("composition.csv", replaced(2, "x:2", "x:7"), "composition.csv, line 3: 'x:7' where foods.csv has 'x:2'"),
        ("composition.csv", without(3), "composition.csv, line 4: 2 foods where foods.csv has 3"),
        ("composition.csv", replaced(0, "PROCNT g", "PROCNT mg"), "composition.csv, line 1: there is no column"),
        ("standard_errors.csv", replaced(1, "0.21", "-0.21"), "standard_errors.csv, line 2: '-0.21' in column"),
        ("measures.csv", replaced(3, "x:3", "x:8"), "measures.csv, line 4: 'x:8' is not in foods.csv"),
        ("measures.csv", replaced(1, "x:1", "x:3"), "measures.csv, line 3: 'x:1' is not in foods.csv, or not in"),
        ("measures.csv", replaced(1, "21.0", ""), "measures.csv, line 2: a measure needs an amount and grams"),
        ("measures.csv", replaced(2, ".5", "0"), "measures.csv, line 3: a measure needs an amount and grams"),
        ("food_groups.csv", lambda _: [], "food_groups.csv, line 1: there is no header"),
    ],
)
def test_a_damaged_table_is_refused_with_file_line_and_reason(
    tmp_path: Path, file: str, damage: Damage, message: str
) -> None:
    with pytest.raises(ReferenceDataError) as error:
        load_catalogue(write_tables(tmp_path, file, damage))
    assert message in str(error.value)


def test_the_whole_table_is_arrays_in_the_order_of_the_nutrients(catalogue: Catalogue) -> None:
    assert catalogue.composition.shape == (len(catalogue), len(NUTRIENTS))
    assert catalogue.standard_errors.shape == catalogue.composition.shape
    assert len(catalogue.ids) == len(catalogue.names) == len(catalogue.groups) == len(catalogue)


def test_a_food_is_a_view_of_its_row_and_cannot_change_the_table(catalogue: Catalogue) -> None:
    butter = catalogue.food("sr28:01001")
    assert np.shares_memory(butter.per_100g, catalogue.composition)
    with pytest.raises(ValueError, match="read-only"):
        butter.per_100g[0] = 0


def test_every_food_of_the_table_can_be_made(catalogue: Catalogue) -> None:
    foods = [catalogue.food(food_id) for food_id in catalogue.ids]
    assert sum(len(food.measures) for food in foods) == len(catalogue.measures.unit)
    assert all(measure.amount > 0 and measure.grams > 0 for food in foods for measure in food.measures)
