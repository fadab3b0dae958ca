"""Allergens over HTTP: two published lists, and two words only, in every answer to every example.

United States: 21 USC 343(w), FALCPA 2004 with the FASTER Act 2021, nine. European Union: Regulation (EU) No 1169/2011,
Annex II, fourteen. Both read in second-hand restatements.
"""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx2
import pytest
from pydantic import TypeAdapter

from service.schemas.answer import Answer
from service.text import readable
from tests.service.conftest import REPOSITORY

#: By the words of the contract: in the US nine, in the EU fourteen.
LISTS = {
    "milk": (True, True),
    "egg": (True, True),
    "fish": (True, True),
    "crustaceans": (True, True),
    "tree nuts": (True, True),
    "wheat": (True, False),  # in the EU one of the cereals that contain gluten
    "gluten cereals": (False, True),
    "peanuts": (True, True),
    "soybeans": (True, True),
    "sesame": (True, True),
    "celery": (False, True),
    "mustard": (False, True),
    "sulphites": (False, True),
    "lupin": (False, True),
    "molluscs": (False, True),  # not among the US nine
}

EXAMPLES = sorted((REPOSITORY / "openapi" / "examples").rglob("*.json"))

#: What nobody can promise, in any words.
PROMISE = re.compile(
    r"free (from|of)\b|\b(allergen|milk|dairy|gluten|nut|egg|lactose)[- ]?free|\bsafe (for|to eat)\b"
    r"|\b(contains|has) no (allergens?|milk|egg|fish|wheat|gluten|nuts?|peanuts?|soy|sesame|celery|mustard)\b"
    r"|\bwithout allergens?\b|suitable for",
    re.IGNORECASE,
)

SPREAD = {
    "kind": "label",
    "per": "100 g",
    "energy_kcal": 640,
    "fat_g": 66,
    "protein_g": 8,
    "total_carbohydrate_g": 3,
}


@pytest.fixture(scope="module")
def answers(client: httpx2.Client) -> dict[str, dict[str, Any]]:
    """The name of each example to what the service answers."""
    return {path.stem: answered(client, path) for path in EXAMPLES}


def answered(client: httpx2.Client, path: Path) -> dict[str, Any]:
    address = "/v1/breakdowns" if path.parent.name == "breakdowns" else "/v1/plans"
    answer = client.post(address, json=json.loads(path.read_text(encoding="utf-8")))
    assert answer.status_code == 200, answer.text
    document: dict[str, Any] = answer.json()
    return document


def plate(*names: str, exclude: tuple[dict[str, str], ...] = (), **spread: list[str]) -> dict[str, Any]:
    """A brief of beef, butter and a spread with what its label says: 50 g of each, or up to that with `exclude`."""
    sources = {
        "beef": {"kind": "food", "id": "sr28:23572"},
        "butter": {"kind": "food", "id": "sr28:01001"},
        "house spread": {**SPREAD, **spread},
    }
    limit = "at_most" if exclude else "at_least"
    return {
        "title": "A plate at the inn",
        "pantry": [{"name": name, "source": sources[name], limit: "50 g"} for name in names],
        "targets": [{"of": "energy_kcal", "at_least": 100}],
        "exclude": exclude,
    }


def planned(client: httpx2.Client, brief: dict[str, Any]) -> dict[str, Any]:
    response = client.post("/v1/plans", json=brief)
    assert response.status_code == 200, response.text
    document: dict[str, Any] = response.json()
    return document


def refused(client: httpx2.Client, brief: dict[str, Any]) -> list[tuple[str, str]]:
    response = client.post("/v1/plans", json=brief)
    assert response.status_code == 422, response.text
    return [(problem["pointer"], problem["code"]) for problem in response.json()["problems"]]


def statements(answer: dict[str, Any]) -> dict[str, str]:
    return {each["allergen"]: each["statement"] for each in answer["allergens"]}


def contained(answer: dict[str, Any]) -> dict[str, list[str]]:
    return {each["allergen"]: each["items"] for each in answer["allergens"] if each["statement"] == "contains"}


def texts(value: object) -> Iterator[str]:
    """Every string in a document, names of fields too."""
    if isinstance(value, dict):
        for name, inner in value.items():
            yield name
            yield from texts(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from texts(inner)
    elif isinstance(value, str):
        yield value


def test_the_lists_are_of_nine_and_of_fourteen() -> None:
    assert len(LISTS) == 15
    assert sum(us for us, _ in LISTS.values()) == 9
    assert sum(eu for _, eu in LISTS.values()) == 14


def test_every_dish_has_all_fifteen_with_their_lists_and_two_words(answers: dict[str, dict[str, Any]]) -> None:
    dishes = {name: answer for name, answer in answers.items() if answer.get("outcome", "plan") == "plan"}
    assert len(dishes) >= 11
    for name, answer in dishes.items():
        found = {each["allergen"]: (each["us_nine"], each["eu_fourteen"]) for each in answer["allergens"]}
        assert len(answer["allergens"]) == 15, name
        assert found == LISTS, name
        assert set(statements(answer).values()) <= {"contains", "unknown"}, name
        for each in answer["allergens"]:
            assert (each["statement"] == "contains") == bool(each["items"]), name
            assert set(each["items"]) <= {quantity["name"] for quantity in answer["quantities"]}, name


def test_the_known_ones_of_the_examples_are_named(answers: dict[str, dict[str, Any]]) -> None:
    assert contained(answers["patties-spooned-back"]) == {"milk": ["farm cheese"], "egg": ["egg"]}
    assert {"fish", "milk"} <= contained(answers["salmon-for-one"]).keys()
    assert "egg" in contained(answers["mayonnaise-of-the-house"])
    assert contained(answers["patties-with-a-card"]) == {"milk": ["butter"]}


def test_no_answer_to_an_example_promises_what_nobody_knows(answers: dict[str, dict[str, Any]]) -> None:
    for name, answer in answers.items():
        assert [text for text in texts(answer) if PROMISE.search(text)] == [], name
        assert [text for text in texts(answer) if re.search(r"\bfree\b", text, re.IGNORECASE)] == [], name


def test_no_example_printed_for_the_terminal_promises_it(answers: dict[str, dict[str, Any]]) -> None:
    adapter: TypeAdapter[Answer] = TypeAdapter(Answer)
    for name, answer in answers.items():
        if "outcome" in answer:
            assert not PROMISE.search(" ".join(readable(adapter.validate_python(answer)).split())), name


@pytest.mark.parametrize(
    "promise", ["free from milk", "Allergen-free.", "safe for children", "gluten free", "contains no egg", "nut-free"]
)
def test_a_promise_would_be_noticed(promise: str) -> None:
    assert PROMISE.search(promise)


def test_what_a_label_contains_is_contained_and_what_it_is_without_is_unknown(client: httpx2.Client) -> None:
    plan = planned(client, plate("beef", "house spread", contains=["sesame", "wheat"], without=["egg", "milk"]))
    assert contained(plan) == {name: ["house spread"] for name in ("sesame", "wheat", "gluten cereals")}
    assert {statements(plan)[name] for name in ("egg", "milk")} == {"unknown"}
    assert not any(PROMISE.search(text) for text in texts(plan))


def test_two_items_with_one_allergen_are_both_named(client: httpx2.Client) -> None:
    plan = planned(client, plate("beef", "butter", "house spread", contains=["milk"]))
    assert sorted(contained(plan)["milk"]) == ["butter", "house spread"]


def test_raw_beef_by_itself_is_unknown_in_all_fifteen(client: httpx2.Client) -> None:
    assert set(statements(planned(client, plate("beef"))).values()) == {"unknown"}


@pytest.mark.parametrize(
    ("stated", "kept"),
    [({"without": ["egg"]}, True), ({"contains": ["egg"]}, False), ({}, False), ({"without": ["milk"]}, False)],
)
def test_excluding_leaves_out_what_contains_it_and_what_nobody_has_said(
    client: httpx2.Client, stated: dict[str, list[str]], *, kept: bool
) -> None:
    plan = planned(client, plate("beef", "house spread", exclude=({"allergen": "egg"},), **stated))
    assert [each["name"] for each in plan["excluded"]] == ([] if kept else ["house spread"])
    assert statements(plan)["egg"] == "unknown", "even then: unknown is never a promise"


def test_a_label_that_contradicts_itself_is_refused(client: httpx2.Client) -> None:
    brief = plate("house spread", contains=["egg"], without=["egg"])
    assert refused(client, brief) == [("/pantry/0/source/without/0", "contains_and_without")]


def test_an_allergen_that_is_none_is_refused_on_a_label(client: httpx2.Client) -> None:
    assert [pointer for pointer, _ in refused(client, plate("house spread", contains=["dairy"]))] == [
        "/pantry/0/source/contains/0"
    ]
