"""Safe temperatures over HTTP. Numbers are those of foodsafety.gov's chart and the FDA Food Code 2022 (3-401.11)."""

import httpx2
import pytest


def rows(client: httpx2.Client, **query: str) -> dict[str, dict[str, object]]:
    """The answer's rows by class."""
    answer = client.get("/v1/safe-temperatures", params=query)
    assert answer.status_code == 200
    return {row["kind"]: row for row in answer.json()["temperatures"]}


def test_the_consumer_chart_is_listed_when_no_profile_is_named(client: httpx2.Client) -> None:
    answer = client.get("/v1/safe-temperatures").json()
    assert answer["profile"] == "us consumer"
    assert "come before this chart" in answer["local_codes"]
    minced = next(row for row in answer["temperatures"] if row["kind"] == "minced")
    assert (minced["fahrenheit"], minced["celsius"], minced["rest_min"]) == (160, 71.2, None)
    assert all(row["edition"] and row["source"] for row in answer["temperatures"])


@pytest.mark.parametrize(
    ("profile", "fahrenheit", "held_s"), [("us consumer", 160, None), ("us retail", 155, 17), ("uk", 158, 120)]
)
def test_a_profile_has_its_own_rows_alone(
    client: httpx2.Client, profile: str, fahrenheit: float, held_s: float | None
) -> None:
    found = rows(client, profile=profile)
    row = found.get("minced") or found["any"]
    assert (row["fahrenheit"], row["held_s"]) == (fahrenheit, held_s)


@pytest.mark.parametrize(
    ("food", "kind"),
    [("ground chicken", "poultry"), ("Steaks", "whole cut"), ("venison", "game"), ("mussels", "mollusc")],
)
def test_a_food_is_found_by_its_words(client: httpx2.Client, food: str, kind: str) -> None:
    assert kind in rows(client, food=food)
    assert len(rows(client, food=food)) < len(rows(client))


def test_the_one_row_of_the_uk_speaks_of_every_food(client: httpx2.Client) -> None:
    assert list(rows(client, profile="uk", food="chicken")) == ["any"]


def test_a_food_of_which_the_chart_is_silent_has_no_rows(client: httpx2.Client) -> None:
    assert rows(client, food="cucumber") == {}


def test_shellfish_has_a_sign_and_no_degrees(client: httpx2.Client) -> None:
    row = rows(client)["crustacean"]
    assert (row["fahrenheit"], row["celsius"]) == (None, None)
    assert "opaque" in str(row["sign"])


@pytest.mark.parametrize("query", ["?profile=moon", "?profile=", f"?food={'x' * 101}"])
def test_what_is_no_profile_is_a_problem(client: httpx2.Client, query: str) -> None:
    response = client.get(f"/v1/safe-temperatures{query}")
    assert response.status_code == 422
    assert response.headers["content-type"] == "application/problem+json"


@pytest.mark.parametrize("profile", ["us consumer", "us retail", "uk"])
def test_celsius_is_never_below_the_fahrenheit_of_its_source(client: httpx2.Client, profile: str) -> None:
    for row in rows(client, profile=profile).values():
        fahrenheit, celsius = row["fahrenheit"], row["celsius"]
        assert (fahrenheit is None) == (celsius is None)
        if isinstance(fahrenheit, int | float) and isinstance(celsius, int | float):
            assert 0 <= celsius - (fahrenheit - 32) * 5 / 9 <= 0.11


@pytest.mark.parametrize(
    ("kind", "fahrenheit", "rest_min"),
    [("whole cut", 145, 3), ("minced", 160, None), ("poultry", 165, None), ("casserole", 165, None)],
)
def test_the_consumer_chart_is_the_published_one(
    client: httpx2.Client, kind: str, fahrenheit: float, rest_min: float | None
) -> None:
    # foodsafety.gov, "Cook to a Safe Minimum Internal Temperature".
    row = rows(client)[kind]
    assert (row["fahrenheit"], row["rest_min"]) == (fahrenheit, rest_min)


@pytest.mark.parametrize("blank", ["", " "])
def test_a_food_without_words_leaves_out_no_row(client: httpx2.Client, blank: str) -> None:
    assert rows(client, food=blank) == rows(client)
