"""What is said of a dish, or the dish itself, is refused where it cannot be used, at its own place."""

import json
from copy import deepcopy
from pathlib import Path
from typing import Any

import httpx2
import pytest

from service.problem_pages import PAGES
from tests.service.asking import Document, places_of, refusal

FOLDER = Path(__file__).parents[2] / "openapi" / "examples" / "reworks"
RICHER, DRY, NO_DAIRY = (
    json.loads((FOLDER / f"{name}.json").read_text())
    for name in ("soup-made-richer", "patties-too-dry", "mash-without-dairy")
)


def refused(client: httpx2.Client, document: Document) -> list[tuple[str, str]]:
    places = places_of(refusal(client.post("/v1/reworks", json=document)))
    assert all(code in PAGES for _, code in places)
    return places


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ([{"says": "more"}], [("/said/0", "said_form")]),
        ([{"says": "about", "of": ["leek"]}], [("/said/0", "said_form")]),
        ([{"says": "keep", "of": ["leek"], "factor": 2}], [("/said/0", "said_form")]),
        ([{"says": "more", "of": ["leeks"]}], [("/said/0/of/0", "unknown_item")]),
        ([{"says": "more", "of": ["leek"], "component": "pot"}], [("/said/0/component", "unknown_component")]),
        ([{"says": "use instead", "of": ["leek"], "one_of": ["leek"]}], [("/said/0/one_of", "repeated")]),
        ([{"says": "leave out", "exclude": {"allergen": "milky"}}], [("/said/0/exclude/allergen", "unknown_allergen")]),
        ([{"says": "less", "of": ["leek"], "much": 1}], [("/said/0/much", "unknown_field")]),
        ([{"says": "shout", "of": ["leek"]}], [("/said/0/says", "unknown_value")]),
    ],
)
def test_what_is_said_badly_is_pointed_at(
    client: httpx2.Client, said: list[Any], expected: list[tuple[str, str]]
) -> None:
    assert refused(client, {**RICHER, "said": said}) == expected


@pytest.mark.parametrize(
    ("base", "expected"),
    [
        ([], [("/brief/prefer", "no_base")]),
        ([{"item": "leek", "amount": "0 g"}], [("/brief/base", "empty_base")]),
        ([{"item": "leek"}], [("/brief/base/0", "base_form")]),
        ([{"item": "leek", "amount": "1 g", "teaspoons": 2}], [("/brief/base/0", "base_form")]),
        ([{"drippings_of": "pot", "teaspoons": 2}], [("/brief/base/0/drippings_of", "unknown_component")]),
        ([{"item": "eel", "amount": "1 g"}], [("/brief/base/0/item", "unknown_item")]),
        ([{"item": "leek", "amount": "1 glug"}], [("/brief/base/0/amount", "unknown_measure")]),
        ([{"item": "egg yolk", "amount": "20 g"}], [("/brief/base/0", "base_not_in_steps")]),
        ([{"item": "leek", "amount": "1 g"}, {"item": "leek", "amount": "2 g"}], [("/brief/base/1", "repeated_base")]),
    ],
)
def test_a_base_dish_that_cannot_be_is_pointed_at(
    client: httpx2.Client, base: list[Any], expected: list[tuple[str, str]]
) -> None:
    document = {**RICHER, "brief": {**RICHER["brief"], "base": base}, "said": []}
    assert refused(client, document) == expected


def test_nothing_to_take_less_of_and_nothing_to_mend_with(client: httpx2.Client) -> None:
    less = {"says": "less", "of": ["olive oil"]}
    assert refused(client, {**NO_DAIRY, "said": [less]}) == [("/said/0/of", "said_of_nothing")]
    document = deepcopy(RICHER)
    document["brief"]["pantry"] = [each for each in document["brief"]["pantry"] if each["name"] in {"leek", "egg yolk"}]
    document["brief"]["base"] = [each for each in document["brief"]["base"] if each["item"] in {"leek", "egg yolk"}]
    assert refused(client, {**document, "said": [], "reason": "bland"}) == [("/reason", "reason_without_fix")]
    document["brief"]["prefer"], document["brief"]["base"] = ["balanced"], []
    assert refused(client, {**document, "said": []}) == [("/brief/base", "no_base")]


def test_a_dish_whose_values_are_all_missing_is_pointed_at_in_its_brief(client: httpx2.Client) -> None:
    label = {"kind": "label", "per": "100 g", "energy_kcal": 300}
    brief = {
        "title": "Something",
        "pantry": [{"name": "something", "source": label}],
        "base": [{"item": "something", "amount": "50 g"}],
        "targets": [{"of": "calcium_mg", "at_least": 10}],
    }
    assert refused(client, {"brief": brief}) == [("/brief/pantry", "nothing_left")]


def test_more_is_not_spooned_back_than_ran_out(client: httpx2.Client) -> None:
    document = deepcopy(DRY)
    document["brief"]["base"][-1]["teaspoons"] = 1000
    assert refused(client, document) == [("/brief/base", "spoons_exceed_drippings")]
