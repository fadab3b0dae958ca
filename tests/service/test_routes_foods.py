from contextlib import closing, suppress
from http.client import HTTPConnection
from typing import Any

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


@pytest.mark.parametrize("food_id", ["sr28:00000", "x" * 5000, "%F0%9F%8D%B3", "%FF", "label:0"])
def test_an_unknown_food_is_a_problem(client: httpx2.Client, food_id: str) -> None:
    response = client.get(f"/v1/foods/{food_id}")
    assert response.status_code == 404
    assert response.headers["content-type"] == "application/problem+json"
    assert food_id not in response.text


def test_the_problem_of_an_unknown_food_names_the_nearest(client: httpx2.Client) -> None:
    response = client.get("/v1/foods/sr28:1123")
    assert (response.status_code, response.json()["type"]) == (404, "/problems/not_found")
    (problem,) = response.json()["problems"]
    assert (problem["code"], problem["parameter"]) == ("unknown_food", "id")
    assert "Egg, whole, raw, fresh (sr28:01123)" in problem["remedy"]


def test_an_unknown_food_of_a_brief_gets_the_nearest_to_its_name(client: httpx2.Client, salmon: dict[str, Any]) -> None:
    salmon["pantry"][0] |= {"name": "beef tallow", "source": {"kind": "food", "id": "sr28:99999"}}
    response = client.post("/v1/plans", json=salmon)
    assert response.status_code == 422
    (problem,) = [each for each in response.json()["problems"] if each["code"] == "unknown_food"]
    assert problem["pointer"] == "/pantry/0/source/id"
    assert "Fat, beef tallow (sr28:04001)" in problem["remedy"]


def test_a_food_is_found_by_what_people_call_it(client: httpx2.Client) -> None:
    found = client.get("/v1/foods", params={"query": "mince 20%"}).json()
    # USDA SR28, FOOD_DES and NUT_DATA rows of 23572; it has no carbohydrate.
    assert found["items"][0] == {
        "id": "sr28:23572",
        "name": "Beef, ground, 80% lean meat / 20% fat, raw",
        "group": "Beef Products",
        "energy_kcal": 254.0,
        "protein_g": 17.17,
        "fat_g": 20.0,
        "available_carbohydrate_g": 0.0,
    }
    assert found["total"] == len(found["items"]) or found["next"]


def test_the_pages_lead_from_one_to_the_next_and_end(client: httpx2.Client) -> None:
    address: str | None = "/v1/foods?query=salm%C3%B3n&limit=20"
    ids: list[str] = []
    while address is not None:
        page = client.get(address).json()
        ids += [item["id"] for item in page["items"]]
        address = page["next"]
    assert len(ids) == len(set(ids)) == page["total"] > 20


def test_beyond_the_last_page_there_is_nothing(client: httpx2.Client) -> None:
    page = client.get("/v1/foods", params={"query": "tallow", "offset": 1000}).json()
    assert (page["items"], page["next"]) == ([], None)
    assert page["total"] > 0


@pytest.mark.parametrize(
    ("parameters", "parameter", "code"),
    [
        ({}, "query", "missing_field"),
        ({"query": ""}, "query", "wrong_length"),
        ({"query": " !? "}, "query", "blank"),
        ({"query": "e" * 201}, "query", "wrong_length"),
        ({"query": "egg", "limit": "0"}, "limit", "out_of_range"),
        ({"query": "egg", "limit": "51"}, "limit", "out_of_range"),
        ({"query": "egg", "offset": "-1"}, "offset", "out_of_range"),
        ({"query": "egg", "limit": "ten"}, "limit", "wrong_type"),
    ],
)
def test_a_search_that_makes_no_sense_is_a_problem_of_its_parameter(
    client: httpx2.Client, parameters: dict[str, str], parameter: str, code: str
) -> None:
    response = client.get("/v1/foods", params=parameters)
    assert response.status_code == 422
    assert response.headers["content-type"] == "application/problem+json"
    (problem,) = response.json()["problems"]
    assert (problem["parameter"], problem["code"]) == (parameter, code)


@pytest.mark.parametrize(
    "query",
    [
        '"',
        '"egg',
        "egg*",
        "NEAR(egg butter, 2)",
        "egg AND",
        "NOT egg",
        "first : egg",
        "^egg",
        "-egg",
        "'; DROP TABLE foods; --",
        "egg\x00\x1b[31m",
        "\u202eegg\u2028",
        "\u5375 \U0001f373",
        "1e308",
        "%FF",
        " ".join("abcdefghijklmnopqrstuvwxyz" * 4)[:200],
        "q" * 200,
        "x" * 60_000,
    ],
)
def test_no_query_is_a_fault(client: httpx2.Client, query: str) -> None:
    response = client.get("/v1/foods", params={"query": query})
    assert response.status_code in {200, 400, 414, 422, 431}
    assert client.get("/v1/foods", params={"query": "tallow"}).json()["total"] > 0


def test_a_query_of_200_kilobytes_is_refused_and_does_no_harm(client: httpx2.Client) -> None:
    # By hand, since the client refuses to send it.
    connection = HTTPConnection(client.base_url.host, client.base_url.port, timeout=10)
    with closing(connection), suppress(ConnectionError):  # the service may close while we still send
        connection.request("GET", "/v1/foods?query=" + "x" * 200_000)
        assert connection.getresponse().status in {400, 414, 422, 431}
    assert client.get("/v1/foods", params={"query": "tallow"}).json()["total"] > 0


def test_the_signs_of_a_query_language_mean_nothing(client: httpx2.Client) -> None:
    plain, signs = (
        client.get("/v1/foods", params={"query": query}).json() for query in ("egg yolk", '"egg* : ^(yolk) --')
    )
    assert plain["items"] == signs["items"]
