"""POST /v1/breakdowns over HTTP: the numbers of a dish as it is."""

import json
from pathlib import Path

import httpx2
import pytest

from tests.service.asking import breakdown_of, hold_the_balance
from tests.service.briefs import PATTIES, TABLE, component, food, from_dish

EXAMPLES = sorted((Path(__file__).parents[2] / "openapi" / "examples" / "breakdowns").glob("*.json"))

SHARED = {"energy_kcal", "fat_g", "protein_g", "available_carbohydrate_g", "sodium_mg"}

#: Two eggs and a tablespoon of butter, as they are.
EGGS = {
    "title": "Eggs with butter",
    "ingredients": [food("egg", "01123", amount="2 large"), food("butter", "01001", amount="1 tbsp")],
}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_is_broken_down(client: httpx2.Client, path: Path) -> None:
    dish = json.loads(path.read_text())
    told = breakdown_of(client, dish)
    hold_the_balance(told)
    assert [each["name"] for each in told["quantities"]] == [each["name"] for each in dish["ingredients"]]
    assert "declared" in dish or not told["findings"]
    assert bool(told["nutrition"]) == ("nutrition_as" in dish)
    assert bool(told["divided"]) == ("division" in dish)
    assert told["plate_may_be_off"]["portion"]["energy_kcal"]["above"] > 0
    assert not [warning for warning in told["warnings"] if "aim" in warning], "nothing is chosen"


def test_a_dish_is_counted_by_hand(client: httpx2.Client) -> None:
    told = breakdown_of(client, EGGS)
    # USDA SR28, WEIGHT: a large egg 50 g, a tablespoon of butter 14.2 g; NUT_DATA: fat 9.51 and 81.11 g in 100 g,
    # protein 12.56 and 0.85, carbohydrate 0.72 and 0.06.
    fat, protein, carbohydrate = 9.51 + 0.142 * 81.11, 12.56 + 0.142 * 0.85, 0.72 + 0.142 * 0.06
    assert told["batch"]["grams"] == pytest.approx(114.2)
    assert told["batch"]["nutrients"]["fat_g"] == pytest.approx(fat, abs=1e-6)
    # Regulation (EU) No 1169/2011, Annex XIV: 4 and 17, 9 and 37, 4 and 17 per g; kJ has factors of its own.
    kcal = 4 * protein + 9 * fat + 4 * carbohydrate
    assert told["batch"]["energy_kcal"] == pytest.approx(kcal, abs=1e-5)
    assert told["batch"]["energy_kj"] == pytest.approx(17 * protein + 37 * fat + 17 * carbohydrate, abs=1e-5)
    assert told["fat_share_percent"] == pytest.approx(900 * fat / kcal, abs=1e-5)
    assert told["ketogenic_ratio"] == pytest.approx(fat / (protein + carbohydrate), abs=1e-5)
    # Woodyatt, Arch Intern Med 1921;28:125-141 (quoted second hand).
    woodyatt = (0.9 * fat + 0.46 * protein) / (carbohydrate + 0.58 * protein + 0.1 * fat)
    assert told["fatty_acid_to_glucose"] == pytest.approx(woodyatt, abs=1e-5)


def test_portion_and_hundred_grams_are_parts_of_the_batch(client: httpx2.Client) -> None:
    told = breakdown_of(client, {**EGGS, "portions": 4})
    for nutrient in ("fat_g", "protein_g", "sodium_mg"):
        whole = told["batch"]["nutrients"][nutrient]
        assert told["portion"]["nutrients"][nutrient] == pytest.approx(whole / 4, abs=1e-6)
        assert told["per_100g"]["nutrients"][nutrient] == pytest.approx(whole / 1.142, abs=1e-5)
    assert told["per_100g"]["grams"] == pytest.approx(100)


def test_energy_is_told_on_every_basis(client: httpx2.Client) -> None:
    avocado = {"title": "avocado", "ingredients": [food("avocado", "09037", amount="100 g")]}
    bases = {each["basis"]: each for each in breakdown_of(client, avocado)["bases"]}
    # USDA SR28: protein 2.00, fat 14.66, carbohydrate 8.53 of which fibre 6.7; factors 3.36, 8.37, 3.60; 160 kcal.
    assert bases["general"]["energy_kcal"] == pytest.approx(4 * 2.00 + 9 * 14.66 + 4 * 8.53)
    assert bases["regulation"]["energy_kcal"] == pytest.approx(4 * 2.00 + 9 * 14.66 + 4 * 1.83 + 2 * 6.7)
    assert bases["specific"]["energy_kcal"] == pytest.approx(3.36 * 2.00 + 8.37 * 14.66 + 3.60 * 8.53)
    assert bases["declared"]["energy_kcal"] == pytest.approx(160)
    # 1 kcal = 4.184 kJ where a basis has no factors of its own (USDA SR28 documentation).
    assert bases["declared"]["energy_kj"] == pytest.approx(160 * 4.184)
    assert bases["regulation"]["energy_kj"] == pytest.approx(17 * 2.00 + 37 * 14.66 + 17 * 1.83 + 8 * 6.7)
    assert all(sum(each["energy_distribution_percent"].values()) == 100 for each in bases.values())


@pytest.mark.parametrize("basis", ["general", "regulation", "specific", "declared"])
def test_the_totals_are_those_of_the_basis_that_was_asked_for(client: httpx2.Client, basis: str) -> None:
    told = breakdown_of(client, {**EGGS, "energy_basis": basis})
    (own,) = [each for each in told["bases"] if each["basis"] == basis]
    assert told["energy_basis"] == basis
    assert own["energy_kcal"] == told["batch"]["energy_kcal"]
    assert own["fat_share_percent"] == told["fat_share_percent"]
    assert own["energy_distribution_percent"] == told["energy_distribution_percent"]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_who_brings_what_sums_to_all_of_it(client: httpx2.Client, path: Path) -> None:
    told = breakdown_of(client, json.loads(path.read_text()))
    for name in SHARED:
        assert sum(each["percent"][name] for each in told["brings"]) == pytest.approx(100, abs=1e-4)
        whole = told["batch"]["energy_kcal"] if name == "energy_kcal" else told["batch"]["nutrients"][name]
        assert sum(each["amounts"][name] for each in told["brings"]) == pytest.approx(whole, abs=1e-4)
    assert {each["name"] for each in told["brings"]} == {each["name"] for each in told["quantities"]}


def test_seasonings_bring_their_carbohydrate_alone_and_inside_a_dish(client: httpx2.Client) -> None:
    spices = [
        food("paprika", "02028", amount="2 tbsp"),
        food("garlic powder", "02020", amount="1 tbsp"),
    ]
    alone = breakdown_of(client, {"title": "rub", "ingredients": spices})
    # Two tablespoons of paprika and one of garlic powder are 8.8 g in 23 g (USDA SR28).
    assert alone["seasoning_carbohydrate_g"] == pytest.approx(8.8, abs=0.1)
    assert alone["seasoning_carbohydrate_g"] == alone["batch"]["nutrients"]["available_carbohydrate_g"]
    whole = {"value": alone["batch"]["grams"], "unit": "g"}
    inside = {
        "title": "rubbed",
        "dishes": [{"name": "rub", "ingredients": spices}],
        "ingredients": [from_dish("rub", "rub", amount=whole), food("mince", "13498", amount="500 g")],
    }
    assert breakdown_of(client, inside)["seasoning_carbohydrate_g"] == pytest.approx(8.8, abs=0.1)
    assert breakdown_of(client, EGGS)["seasoning_carbohydrate_g"] == 0


def test_a_dish_flattened_equals_the_dish_nested(client: httpx2.Client) -> None:
    parts = [food("oil", "04053", amount="30 g"), food("yolk", "01125", amount="17 g")]
    flat = breakdown_of(client, {"title": "flat", "ingredients": [*parts, food("salt", "02047", amount="1 g")]})
    nested = {
        "title": "nested",
        "dishes": [{"name": "sauce", "ingredients": parts}],
        "ingredients": [from_dish("sauce", "sauce", amount="47 g"), food("salt", "02047", amount="1 g")],
    }
    told = breakdown_of(client, nested)
    known = {name: amount for name, amount in flat["batch"]["nutrients"].items() if amount is not None}
    assert {name: told["batch"]["nutrients"][name] for name in known} == pytest.approx(known, abs=1e-5)
    assert told["batch"]["energy_kcal"] == pytest.approx(flat["batch"]["energy_kcal"], abs=1e-5)


def test_pure_water_has_no_shares_and_no_ratios(client: httpx2.Client) -> None:
    told = breakdown_of(client, {"title": "water", "ingredients": [food("water", "14411", amount="1 cup")]})
    for field in ("energy_distribution_percent", "fat_share_percent", "ketogenic_ratio", "fatty_acid_to_glucose"):
        assert told[field] is None
    assert {each["percent"]["fat_g"] for each in told["brings"]} == {None}


def test_teaspoons_that_were_spooned_back_are_eaten(client: httpx2.Client) -> None:
    dish = {"title": "patties", "ingredients": [food("mince", "13498", amount="900 g", goes_in="patties")]}
    fat = {}
    for teaspoons in (0, 12):
        parts = [{**PATTIES, "teaspoons": teaspoons}, TABLE]
        told = breakdown_of(client, {**dish, "components": parts})
        hold_the_balance(told)
        fat[teaspoons] = told["batch"]["nutrients"]["fat_g"]
        assert component(told, "patties")["spoon_back"] == (f"{teaspoons} tsp" if teaspoons else None)
    # A tablespoon of rendered fat is 12.8 g (USDA SR28, WEIGHT, lard 04002 and tallow 04001).
    assert fat[12] - fat[0] == pytest.approx(12 * 12.8 / 3, abs=1e-4)
