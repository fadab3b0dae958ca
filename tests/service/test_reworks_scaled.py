"""A dish for four is made anew for six: scaled first, as a breakdown scales it, and the rules of the brief hold."""

import json
from copy import deepcopy
from pathlib import Path

import httpx2
import pytest

from tests.service.asking import Document, breakdown_of, told
from tests.service.tasted_dishes import DISHES, band, item

EXAMPLE = Path(__file__).parents[2] / "openapi" / "examples" / "reworks" / "loaf-for-six-without-egg.json"


def made_anew(client: httpx2.Client, brief: Document, portions: int, **asked: object) -> Document:
    """Of a dish for four."""
    body = {"brief": {**brief, "portions": portions}, "base_portions": 4, **asked}
    return told(client.post("/v1/reworks", json=body))


def texts(dish: Document) -> dict[str, str]:
    return {each["name"]: each["text"] for each in dish["quantities"]}


def test_four_portions_of_patties_become_eight(client: httpx2.Client) -> None:
    """By hand: twice of each, and two eggs in place of one; a portion comes to the same, so nothing else changes."""
    four = told(client.post("/v1/reworks", json={"brief": DISHES["patties"]}))
    eight = made_anew(client, DISHES["patties"], 8)
    assert (four["scaling"], eight["changes"]) == ([], [])
    assert texts(eight["answer"]) == {
        "beef mince": "1000 g",
        "egg": "2 large",
        "onion": "120 g",
        "salt": "12 g",
        "paprika": "4 g",
        "butter": "40 g",
        "cream": "120 g",
        "lemon juice": "2 tsp",
    }
    assert eight["before"]["portion"]["energy_kcal"] == pytest.approx(
        four["before"]["portion"]["energy_kcal"], rel=1e-6
    )


@pytest.mark.parametrize("portions", [2, 6, 7, 11])
def test_it_is_scaled_as_a_breakdown_is(client: httpx2.Client, portions: int) -> None:
    """The same amounts, in the same words, and the same sentences, by the other address."""
    brief = DISHES["patties"]
    sources = {each["name"]: each["source"] for each in brief["pantry"]}
    dish = {
        "title": "Patties",
        "portions": 4,
        "scale_to": portions,
        "components": brief["components"],
        "ingredients": [
            {
                "name": each["item"],
                "source": sources[each["item"]],
                "goes_in": each["goes_in"],
                "amount": each["amount"],
            }
            for each in brief["base"]
        ],
    }
    scaled, answer = breakdown_of(client, dish), made_anew(client, brief, portions)
    assert texts(answer["before"]) == texts(scaled)
    assert set(answer["scaling"]) <= set(scaled["warnings"])
    assert answer["before"]["portion"]["grams"] == pytest.approx(scaled["portion"]["grams"], abs=0.01)


@pytest.mark.parametrize("portions", [3, 6, 7])
def test_a_rule_holds_in_the_scaled_dish(client: httpx2.Client, portions: int) -> None:
    """An egg of 50 g to 500 g of mince is a tenth; whole eggs for 3, 6 or 7 would leave the band, so egg is weighed."""
    rule = {"id": "binder", "of": ["egg"], "to": ["beef mince"], "at_least": 0.09, "at_most": 0.11}
    answer = made_anew(client, {**DISHES["patties"], "rules": [rule]}, portions, reason="dry")
    assert answer["outcome"] == "plan"
    assert all(each["met"] for each in answer["before"]["rules"])
    assert all(each["met"] for each in answer["answer"]["rules"])
    assert texts(answer["answer"])["egg"] == f"{12.5 * portions:g} g"
    assert answer["fix"]["component"] == "pan sauce"


def test_eggs_that_come_whole_break_a_rule_and_the_dish_is_mended(client: httpx2.Client) -> None:
    """By hand: 1.5 eggs become two, 100 g to 750 g, 0.133; the mince rises to 100 / 0.11 = 909.1 g, or an egg goes."""
    brief = deepcopy(DISHES["patties"])
    next(each for each in brief["pantry"] if each["name"] == "egg")["step"] = "1 large"
    brief["rules"] = [{"id": "binder", "of": ["egg"], "to": ["beef mince"], "at_least": 0.05, "at_most": 0.11}]
    answer = made_anew(client, brief, 6)
    assert "egg: 2 large, 100 g, in place of 75 g, as it comes in whole steps." in answer["scaling"]
    assert not answer["before"]["rules"][0]["met"]
    assert answer["answer"]["rules"][0]["met"]
    assert [each["name"] for each in answer["changes"]] in (["egg"], ["beef mince"])


def test_a_pot_that_was_weighed_loses_the_same_steam(client: httpx2.Client) -> None:
    """By hand: 2100 g reduced to 1200 g lose 900 g; 3150 g in the same pot are left as 2250 g."""
    brief = {
        "title": "Stock and butter",
        "components": [
            {"name": "stock", "method": "simmered", "drippings": "served", "cooked_weight": "1200 g"},
            {"name": "finish"},
        ],
        "pantry": [
            item("water", goes_in=["stock"], already_in="1800 g"),
            item("chicken", goes_in=["stock"], already_in="300 g"),
            item("butter", goes_in=["finish"]),
        ],
        "base": [{"item": "butter", "amount": "2 tbsp"}],
        "targets": [band("energy_kcal", 80, 400)],
    }
    answer = made_anew(client, brief, 6, said=[{"says": "more", "of": ["butter"]}])
    pot = next(each for each in answer["answer"]["components"] if each["name"] == "stock")
    assert (pot["evaporated_g"], pot["cooked_g"]) == (pytest.approx(900), pytest.approx(2250))
    assert any("as much evaporates as before, 900 g" in each for each in answer["scaling"])
    (butter,) = answer["changes"]
    assert (butter["before"], butter["after_grams"]) == ("3 tbsp", pytest.approx(1.2 * 42.6, abs=0.1))


def test_the_example_is_scaled_and_then_does_without_egg(client: httpx2.Client) -> None:
    answer = told(client.post("/v1/reworks", json=json.loads(EXAMPLE.read_text())))
    assert [each["name"] for each in answer["changes"]] == ["egg"]
    assert texts(answer["answer"])["butter"] == "3 tbsp"
    first = answer["substitutes"][0]
    assert (first["name"], first["at_home"], first["grams"]) == ("flaxseed", True, 14.0)


@pytest.mark.parametrize("number", [0, 501, 1.5, "4"])
def test_a_number_of_portions_that_is_none_is_refused(client: httpx2.Client, number: object) -> None:
    answer = client.post("/v1/reworks", json={"brief": DISHES["patties"], "base_portions": number})
    assert answer.status_code == 422
    assert answer.json()["problems"][0]["pointer"] == "/base_portions"


@pytest.mark.parametrize(("made", "portions"), [(1, 500), (500, 1), (500, 500)])
def test_any_two_numbers_are_answered(client: httpx2.Client, made: int, portions: int) -> None:
    for brief in (DISHES["mash"], DISHES["loaf"]):
        body = {"brief": {**brief, "portions": portions}, "base_portions": made}
        assert client.post("/v1/reworks", json=body).status_code == 200
