"""What a label says of allergens over HTTP, and what `exclude` makes of what it says and of what nobody says."""

from typing import Any

import httpx2
import pytest

from tests.service.allergens import PROMISE, contained, statements, texts
from tests.service.asking import places_of, plan_for, problem_of

SPREAD = {
    "kind": "label",
    "per": "100 g",
    "energy_kcal": 640,
    "fat_g": 66,
    "protein_g": 8,
    "total_carbohydrate_g": 3,
}


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


def test_what_a_label_contains_is_contained_and_what_it_is_without_is_unknown(client: httpx2.Client) -> None:
    plan = plan_for(client, plate("beef", "house spread", contains=["sesame", "wheat"], without=["egg", "milk"]))
    assert contained(plan) == {name: ["house spread"] for name in ("sesame", "wheat", "gluten cereals")}
    assert {statements(plan)[name] for name in ("egg", "milk")} == {"unknown"}
    assert not any(PROMISE.search(text) for text in texts(plan))


def test_two_items_with_one_allergen_are_both_named(client: httpx2.Client) -> None:
    plan = plan_for(client, plate("beef", "butter", "house spread", contains=["milk"]))
    assert sorted(contained(plan)["milk"]) == ["butter", "house spread"]


def test_raw_beef_by_itself_is_unknown_in_all_fifteen(client: httpx2.Client) -> None:
    assert set(statements(plan_for(client, plate("beef"))).values()) == {"unknown"}


@pytest.mark.parametrize(
    ("stated", "kept"),
    [({"without": ["egg"]}, True), ({"contains": ["egg"]}, False), ({}, False), ({"without": ["milk"]}, False)],
)
def test_excluding_leaves_out_what_contains_it_and_what_nobody_has_said(
    client: httpx2.Client, stated: dict[str, list[str]], *, kept: bool
) -> None:
    plan = plan_for(client, plate("beef", "house spread", exclude=({"allergen": "egg"},), **stated))
    assert [each["name"] for each in plan["excluded"]] == ([] if kept else ["house spread"])
    assert statements(plan)["egg"] == "unknown", "even then: unknown is never a promise"


def test_a_label_that_contradicts_itself_is_refused(client: httpx2.Client) -> None:
    brief = plate("house spread", contains=["egg"], without=["egg"])
    assert places_of(problem_of(client, brief)) == [("/pantry/0/source/without/0", "contains_and_without")]


def test_an_allergen_that_is_none_is_refused_on_a_label(client: httpx2.Client) -> None:
    brief = plate("house spread", contains=["dairy"])
    assert [pointer for pointer, _ in places_of(problem_of(client, brief))] == ["/pantry/0/source/contains/0"]
