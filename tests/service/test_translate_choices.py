"""Choices and days of the wire in the solver's words, and over HTTP."""

from copy import deepcopy
from typing import Any

import httpx2
import pytest

CHEESES = {"cheddar": "01009", "gouda": "01022", "brie": "01006"}


def board(*choices: dict[str, Any], **fields: object) -> dict[str, Any]:
    """Cheese, butter and walnuts for one."""
    foods = {**CHEESES, "butter": "01145", "walnuts": "12155"}
    pantry = [
        {"name": name, "source": {"kind": "food", "id": f"sr28:{number}"}, "on_hand": "60 g"}
        for name, number in foods.items()
    ]
    targets = [{"of": "energy_kcal", "aim": 500}, {"of": "protein_g", "at_least": 20}]
    return {"title": "A board", "pantry": pantry, "targets": targets, "choices": list(choices), **fields}


def answered(client: httpx2.Client, document: dict[str, Any]) -> dict[str, Any]:
    answer = client.post("/v1/plans", json=document)
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


def refused(client: httpx2.Client, document: dict[str, Any]) -> list[tuple[str, str]]:
    answer = client.post("/v1/plans", json=document)
    assert answer.status_code == 422, answer.text
    return [(problem["pointer"], problem["code"]) for problem in answer.json()["problems"]]


def test_a_choice_is_kept_and_said(client: httpx2.Client) -> None:
    one = {"id": "one cheese", "number_of": list(CHEESES), "at_most": 1}
    plan = answered(client, board(one, {"if_used": ["walnuts"], "then_not_used": ["butter"]}))
    used = {quantity["name"] for quantity in plan["quantities"]}
    assert len(used & set(CHEESES)) == 1
    assert not {"walnuts", "butter"} <= used
    cheese = used & set(CHEESES)
    assert plan["choices"][0] == {"id": "one cheese", "kind": "number", "used": sorted(cheese), "met": True}
    assert plan["choices"][1]["kind"] == "none of"


def test_a_conflict_says_the_choice_in_words(client: httpx2.Client) -> None:
    document = board({"id": "no cheese", "number_of": list(CHEESES), "at_most": 0})
    document["targets"][1]["at_least"] = 30
    conflict = answered(client, document)
    assert conflict["outcome"] == "conflict"
    rule = next(member for member in conflict["members"] if member["kind"] == "rule")
    assert rule["text"] == "no cheese: at most 0 of brie, cheddar, gouda"


@pytest.mark.parametrize(
    "choice",
    [
        {},
        {"number_of": ["brie"]},
        {"if_used": ["brie"]},
        {"number_of": ["brie"], "at_most": 1, "if_used": ["brie"]},
        {"if_used": ["brie"], "then_used": ["butter"], "then_not_used": ["walnuts"]},
        {"if_used": ["brie"], "then_used": ["butter"], "at_most": 1},
    ],
)
def test_what_is_no_choice_is_refused(client: httpx2.Client, choice: dict[str, Any]) -> None:
    assert refused(client, board(choice)) == [("/choices/0", "choice_form")]


def test_names_ids_and_ends_of_choices_are_refused_where_they_stand(client: httpx2.Client) -> None:
    assert refused(client, board({"number_of": ["bree"], "at_most": 1})) == [("/choices/0/number_of/0", "unknown_item")]
    crossed = {"number_of": ["brie"], "at_least": 2, "at_most": 1}
    assert refused(client, board(crossed)) == [("/choices/0/at_least", "crossed_band")]
    taken = {"id": "energy_kcal", "number_of": ["brie"], "at_most": 1}
    assert refused(client, board(taken)) == [("/choices/0/id", "repeated_id")]


def test_what_spoils_first_is_used_up_first(client: httpx2.Client) -> None:
    document = board(prefer=["use up first", "fewest ingredients"])
    document["pantry"][2]["use_by"] = "2026-11-26"
    plan = answered(client, document)
    brie = next(quantity for quantity in plan["quantities"] if quantity["name"] == "brie")
    assert brie["grams"] == 60
    assert [level["level"] for level in plan["proof"]["levels"]] == ["use up first: 2026-11-26", "fewest ingredients"]
    assert plan["proof"]["levels"][1]["value"] == len(plan["quantities"])


@pytest.mark.parametrize("text", ["tomorrow!!", "2026-02-30", "26-11-2026"])
def test_what_is_no_day_is_refused(client: httpx2.Client, text: str) -> None:
    document = deepcopy(board(prefer=["use up first"]))
    document["pantry"][0]["use_by"] = text
    assert ("/pantry/0/use_by", "not_a_date") in refused(client, document)
