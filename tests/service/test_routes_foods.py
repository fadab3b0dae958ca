import httpx2
import pytest

from solver.nutrients import NUTRIENTS


def test_a_food_is_shown_with_its_composition(client: httpx2.Client) -> None:
    food = client.get("/v1/foods/sr28:23572").json()
    assert food["name"] == "Beef, ground, 80% lean meat / 20% fat, raw"
    # USDA SR28, FOOD_DES and NUT_DATA rows of 23572.
    expected = {"protein_g": 17.17, "fat_g": 20.0, "water_g": 61.87, "energy_kcal": 254.0}
    assert {name: food["per_100g"][name] for name in expected} == expected
    assert food["specific_factors"] == {"protein": 4.27, "fat": 9.02, "carbohydrate": 3.87}


def test_a_missing_value_is_null_and_not_zero(client: httpx2.Client) -> None:
    per_100g = client.get("/v1/foods/sr28:15236").json()["per_100g"]
    assert set(per_100g) == {nutrient.name for nutrient in NUTRIENTS}
    # USDA SR28, NUT_DATA: farmed salmon has a row for fibre, which is 0, and none for trans fatty acids.
    assert per_100g["fibre_g"] == 0
    assert per_100g["trans_fat_g"] is None


def test_every_nutrient_is_explained(client: httpx2.Client) -> None:
    food = client.get("/v1/foods/sr28:01123").json()
    assert set(food["nutrients"]) == set(food["per_100g"])
    # SR28's nutrient definition file: number 203, unit g, INFOODS tagname PROCNT.
    assert food["nutrients"]["protein_g"] == {"tagname": "PROCNT", "unit": "g", "title": "protein"}


def test_measures_come_with_their_weights(client: httpx2.Client) -> None:
    food = client.get("/v1/foods/sr28:01123").json()
    # USDA SR28, WEIGHT table: 1 large egg is 50 g.
    assert {"amount": 1.0, "unit": "large", "grams": 50.0} in food["measures"]
    assert {"large", "g", "oz"} <= set(food["units"])


def test_refuse_is_null_where_the_source_does_not_know_it(client: httpx2.Client) -> None:
    # USDA SR28, FOOD_DES: shell is 12 % of an egg; the field of farmed salmon is blank.
    assert client.get("/v1/foods/sr28:01123").json()["refuse_percent"] == 12
    assert client.get("/v1/foods/sr28:15236").json()["refuse_percent"] is None


@pytest.mark.parametrize("food_id", ["sr28:00000", "23572", "x" * 5000, "%F0%9F%8D%B3", "%FF", "label:0"])
def test_an_unknown_food_is_a_problem(client: httpx2.Client, food_id: str) -> None:
    response = client.get(f"/v1/foods/{food_id}")
    assert response.status_code == 404
    assert response.headers["content-type"] == "application/problem+json"
    assert food_id not in response.text
