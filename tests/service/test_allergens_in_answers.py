"""Allergens over HTTP: two published lists, and two words only, in every answer to every example.

United States: 21 USC 343(w), FALCPA 2004 with the FASTER Act 2021, nine. European Union: Regulation (EU) No 1169/2011,
Annex II, fourteen. Both read in second-hand restatements.
"""

import json
import re
from pathlib import Path
from typing import Any

import httpx2
import pytest
from pydantic import TypeAdapter

from service.schemas.answer import Answer
from service.text import readable
from tests.service.allergens import PROMISE, contained, statements, texts
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

_FOLDER = REPOSITORY / "openapi" / "examples"
EXAMPLES = sorted((*_FOLDER.glob("*.json"), *(_FOLDER / "breakdowns").glob("*.json")))


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
