"""The cooking methods of a food over HTTP."""

import httpx2
import pytest


def test_a_raw_food_has_methods_with_their_evidence(client: httpx2.Client) -> None:
    answer = client.get("/v1/cooking-methods", params={"food": "sr28:23572"}).json()
    assert answer["name"] == "Beef, ground, 80% lean meat / 20% fat, raw"
    assert answer["none_because"] is None
    assert "broiled patty" in {mix["mix"] for mix in answer["mixes"]}
    assert all(row["why"] and row["source"] for row in answer["methods"] + answer["mixes"])


def test_a_cooked_food_says_why_nothing_applies(client: httpx2.Client) -> None:
    answer = client.get("/v1/cooking-methods", params={"food": "sr28:23573"}).json()
    assert (answer["mixes"], answer["methods"]) == ([], [])
    assert "raw" in answer["none_because"]


def test_an_unknown_food_is_a_problem_about_the_parameter(client: httpx2.Client) -> None:
    response = client.get("/v1/cooking-methods", params={"food": "sr28:1123"})
    assert response.status_code == 404
    (problem,) = response.json()["problems"]
    assert (problem["code"], problem["parameter"]) == ("unknown_food", "food")


@pytest.mark.parametrize("query", ["", "?food=", "?food=" + "x" * 500])
def test_a_missing_food_is_a_problem(client: httpx2.Client, query: str) -> None:
    response = client.get(f"/v1/cooking-methods{query}")
    assert response.status_code == 422
    assert response.headers["content-type"] == "application/problem+json"
