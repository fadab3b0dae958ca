"""No food is proposed that a rule or a choice bounds by its allergen or its food group."""

import httpx2
import pytest

from tests.service.asking import Document, answer_to
from tests.service.briefs import food


def lean(**more: object) -> Document:
    """Chicken alone, which has no fat to speak of: something fat has to be added."""
    return {
        "title": "Lean",
        "pantry": [food("chicken", "05064", on_hand="400 g"), food("butter", "01001", on_hand="2 g")],
        "targets": [{"of": "energy_kcal", "aim": 600, "within": 20}, {"of": "fat_share_percent", "at_least": 65}],
        **more,
    }


def proposed(client: httpx2.Client, brief: Document) -> list[Document]:
    answer = answer_to(client, brief)
    assert answer["outcome"] == "conflict"
    found: list[Document] = answer["ways_out"]["additions"]
    assert found
    return found


def excluded(client: httpx2.Client, addition: Document, exclusion: Document) -> list[str]:
    """What an exclusion of the same says of the food, asked for alone."""
    brief = {
        "title": "One food",
        "pantry": [
            food("it", addition["food_id"].removeprefix("sr28:")),
            food("lard", "04002"),
        ],
        "targets": [{"of": "energy_kcal", "aim": 100}],
        "exclude": [exclusion],
    }
    return [each["name"] for each in answer_to(client, brief)["excluded"]]


def test_without_a_rule_there_is_milk_among_what_is_proposed(client: httpx2.Client) -> None:
    assert any(excluded(client, each, {"allergen": "milk"}) for each in proposed(client, lean()))


@pytest.mark.parametrize(
    ("bound", "exclusion"),
    [
        ({"rules": [{"id": "milk", "of_allergens": ["milk"], "at_most": 10}]}, {"allergen": "milk"}),
        (
            {"rules": [{"id": "dairy", "of_food_groups": ["Dairy and Egg Products"], "at_most": 10}]},
            {"food_group": "Dairy and Egg Products"},
        ),
        ({"choices": [{"number_of_allergens": ["milk"], "at_most": 1}]}, {"allergen": "milk"}),
    ],
)
def test_nothing_that_is_bounded_by_its_group_is_proposed(
    client: httpx2.Client, bound: Document, exclusion: Document
) -> None:
    for each in proposed(client, lean(**bound)):
        assert excluded(client, each, exclusion) == []
