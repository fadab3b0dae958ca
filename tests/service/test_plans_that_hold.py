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


@pytest.mark.parametrize(
    ("label", "lowest", "highest"),
    [
        # Commission guidance of December 2012, on rounding: fat of 10 g and more to 1 g, below that to 0.1 g.
        ({"layout": "EU", "per": "100 g", "fat_g": 35}, 3 * 34.5, 3 * 35.5),
        ({"layout": "EU", "per": "100 g", "fat_g": 9.4}, 3 * 9.35, 3 * 9.45),
        # 21 CFR 101.9(c)(2): fat above 5 g to the nearest gram, below to the nearest half gram, of a serving.
        ({"layout": "US", "serving": "30 g", "fat_g": 9}, 10 * 8.5, 10 * 9.5),
        ({"layout": "US", "serving": "30 g", "fat_g": 3}, 10 * 2.75, 10 * 3.25),
    ],
)
def test_a_label_moves_inside_what_its_rules_round(
    client: httpx2.Client, label: dict[str, Any], lowest: float, highest: float
) -> None:
    """300 g of a spread from a printed label: as much fat as its number may stand for."""
    source = {"kind": "label", "energy_kcal": 400, "protein_g": 1, "carbohydrate_g": 5, **label}
    if label["layout"] == "US":
        source["total_carbohydrate_g"] = source.pop("carbohydrate_g")
    brief = {
        "title": "A spread of the inn",
        "pantry": [{"name": "spread", "source": source, "on_hand": "300 g", "at_least": "300 g"}],
        "targets": [{"of": "fat_g", "at_least": lowest - 0.01, "at_most": highest + 0.01}],
        "holds_within": {"tolerance": "label rounding"},
    }
    answer = answer_to(client, brief)
    assert answer["outcome"] == "plan"
    worst = answer["targets"][0]["worst_case"]
    assert (worst["lowest"], worst["highest"]) == pytest.approx((lowest, highest), abs=1e-5)
    brief["targets"] = [{"of": "fat_g", "at_least": lowest + 0.01, "at_most": highest + 0.01}]
    assert answer_to(client, brief)["outcome"] == "conflict"


def test_a_card_shows_each_worst_case_and_how_much_of_the_tolerance_is_carried(client: httpx2.Client) -> None:
    document = example("supper-that-holds")
    share = next(each for each in answer_to(client, document)["targets"] if each["id"] == "fat_share_percent")
    lowest, highest = (round(share["worst_case"][end], 2) for end in ("lowest", "highest"))
    said = f"{lowest:g} to {highest:g} %"
    narrow = example("conflict-beyond-the-tolerance")
    for form in ("html", "markdown"):
        card = client.post("/v1/plans", params={"format": form}, json=document).text
        assert "at its worst" in card
        assert said in card
        conflict = client.post("/v1/plans", params={"format": form}, json=narrow).text
        assert "How much the pantry can carry" in conflict
        assert " percent of " in conflict
    del document["holds_within"]
    assert "at its worst" not in client.post("/v1/plans", params={"format": "markdown"}, json=document).text


def test_what_a_tolerance_takes_in_is_said_in_the_conflict(client: httpx2.Client) -> None:
    narrow = example("conflict-beyond-the-tolerance")
    narrow["holds_within"] |= {"with_cooking": True, "most_items_off": 2}
    member = next(each for each in answer_to(client, narrow)["members"] if each["kind"] == "tolerance")
    assert "no more than 2 of the items off at once" in member["text"]
    assert "what the cooking table leaves open" in member["text"]
