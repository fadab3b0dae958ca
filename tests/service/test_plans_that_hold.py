"""Plans that hold within a tolerance, over HTTP."""

import json
from pathlib import Path
from typing import Any

import httpx2
import pytest

from tests.service.asking import answer_to

EXAMPLES = Path(__file__).parents[2] / "openapi" / "examples"


def example(name: str) -> dict[str, Any]:
    document: dict[str, Any] = json.loads((EXAMPLES / f"{name}.json").read_text())
    return document


def test_a_plan_that_holds_shows_each_targets_worst_case_inside_its_band(client: httpx2.Client) -> None:
    answer = answer_to(client, example("supper-that-holds"))
    assert answer["outcome"] == "plan"
    for target in answer["targets"]:
        worst = target["worst_case"]
        assert worst["lowest"] <= target["value"] <= worst["highest"]
        assert target["at_least"] is None or worst["lowest"] >= target["at_least"]
        assert target["at_most"] is None or worst["highest"] <= target["at_most"]


def test_without_holds_within_there_is_no_worst_case(client: httpx2.Client) -> None:
    document = example("supper-that-holds")
    del document["holds_within"]
    assert all(target["worst_case"] is None for target in answer_to(client, document)["targets"])


def test_a_conflict_names_the_tolerance_and_says_how_much_is_carried(client: httpx2.Client) -> None:
    answer = answer_to(client, example("conflict-beyond-the-tolerance"))
    assert answer["outcome"] == "conflict"
    assert "tolerance" in {member["kind"] for member in answer["members"]}
    much = answer["tolerance_carried"]
    assert 0 < much["percent"] < much["not_above_percent"] < 100
    assert much["not_above_percent"] - much["percent"] < 0.31
    assert all(target["met"] for target in much["dish"]["targets"])
    assert answer["ways_out"]["changes"]


def test_reach_is_no_further_within_a_tolerance(client: httpx2.Client) -> None:
    brief = example("supper-that-holds")
    held = client.post("/v1/reach", json={"brief": brief, "of": ["protein_g"]}).json()["ranges"][0]
    brief.pop("holds_within")
    stated = client.post("/v1/reach", json={"brief": brief, "of": ["protein_g"]}).json()["ranges"][0]
    assert stated["least"]["value"] <= held["least"]["value"] <= held["most"]["value"] <= stated["most"]["value"]


@pytest.mark.parametrize(
    ("holds", "pointer", "code"),
    [
        ({"tolerance": "US tolerance"}, "/holds_within/tolerance", "one_sided_tolerance"),
        ({}, "/holds_within", "one_tolerance"),
        ({"tolerance": "EU tolerance", "percent": {"fat_g": 1}}, "/holds_within", "one_tolerance"),
        ({"percent": {"fat": 1}}, "/holds_within/percent/fat", "unknown_nutrient"),
        ({"percent": {"fat_g": -1}}, "/holds_within/percent/fat_g", "out_of_range"),
        ({"tolerance": "UK tolerance"}, "/holds_within/tolerance", "unknown_value"),
        ({"tolerances": "EU tolerance"}, "/holds_within/tolerances", "unknown_field"),
        ({"tolerance": "EU tolerance", "most_items_off": 0}, "/holds_within/most_items_off", "out_of_range"),
    ],
)
def test_what_cannot_be_held_is_refused(client: httpx2.Client, holds: dict[str, Any], pointer: str, code: str) -> None:
    refused = client.post("/v1/plans", json={**example("supper-that-holds"), "holds_within": holds})
    assert refused.status_code == 422
    assert (pointer, code) in {(each["pointer"], each["code"]) for each in refused.json()["problems"]}


def test_a_budget_is_carried_to_the_solver(client: httpx2.Client) -> None:
    document = example("supper-that-holds")
    all_off = {each["id"]: each["worst_case"] for each in answer_to(client, document)["targets"]}
    document["holds_within"]["most_items_off"] = 1
    answer = answer_to(client, document)
    assert answer["outcome"] == "plan"
    one_off = {each["id"]: each["worst_case"] for each in answer["targets"]}
    width = {id_: worst["highest"] - worst["lowest"] for id_, worst in one_off.items()}
    assert width["energy_kcal"] < all_off["energy_kcal"]["highest"] - all_off["energy_kcal"]["lowest"]
