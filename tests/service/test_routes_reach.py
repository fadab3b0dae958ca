"""POST /v1/reach over HTTP: what a pantry can do."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.settings import Settings
from solver.catalogue import Catalogue
from tests.service.asking import Document
from tests.service.briefs import food

EXAMPLES = sorted((Path(__file__).parents[2] / "openapi" / "examples").glob("*.json"))

#: Salmon, butter and spinach of the SR28 table for one, at the inn.
SUPPER: Document = {
    "title": "Supper at the inn",
    "pantry": [
        food("salmon", "15076", on_hand="200 g"),
        food("butter", "01001", on_hand="60 g"),
        food("spinach", "11457", on_hand="150 g"),
    ],
    "targets": [
        {"of": "energy_kcal", "aim": 500, "within": 50},
        {"of": "fat_share_percent", "at_least": 70},
        {"of": "protein_g", "at_least": 30},
    ],
}


@pytest.fixture(scope="module")
def client(catalogue: Catalogue) -> Iterator[TestClient]:
    with TestClient(create_app(Settings(), catalogue=catalogue)) as client:
        yield client


def reach(client: TestClient, **body: object) -> Document:
    response = client.post("/v1/reach", json={"brief": SUPPER, **body})
    assert response.status_code == 200, response.text
    document: Document = response.json()
    return document


def problems(client: TestClient, body: object) -> list[tuple[str, str]]:
    response = client.post("/v1/reach", json=body)
    assert response.status_code == 422, response.text
    assert response.headers["content-type"] == "application/problem+json"
    return [(each["pointer"], each["code"]) for each in response.json()["problems"]]


def amount(end: Any, name: str) -> float:  # noqa: ANN401  a part of a document
    return float(sum(each["grams"] for each in end["amounts"] if each["name"] == name))


def test_every_target_has_its_range_and_each_end_its_dish(client: TestClient) -> None:
    told = reach(client)
    assert [each["id"] for each in told["ranges"]] == ["energy_kcal", "fat_share_percent", "protein_g"]
    assert told["frontier"] is None
    for each in told["ranges"]:
        assert each["least"]["value"] < each["most"]["value"]
        for end in (each["least"], each["most"]):
            assert end["status"] == "optimal"
            assert end["checked"] == "certificate checked"
            assert end["gap"] == pytest.approx(0, abs=1e-6)
    energy = told["ranges"][0]
    # USDA SR28: protein, fat and carbohydrate in 100 g of salmon 19.84, 6.34, 0; butter 0.85, 81.11, 0.06; 4-9-4.
    kcal = {"salmon": 4 * 19.84 + 9 * 6.34, "butter": 4 * 0.85 + 9 * 81.11 + 4 * 0.06}
    spinach = 4 * 2.86 + 9 * 0.39 + 4 * 3.63  # raw, 11457
    counted = sum(kcal[name] * amount(energy["most"], name) for name in kcal) / 100
    counted += spinach * amount(energy["most"], "spinach") / 100
    assert energy["most"]["value"] == pytest.approx(counted, abs=1e-3)
    # Nothing but the stock holds the energy: all of the salmon, the butter and the spinach are in, for 70 % and more.
    assert amount(energy["most"], "salmon") == pytest.approx(200)
    assert amount(energy["most"], "butter") == pytest.approx(60)


def test_more_quantities_follow_the_targets(client: TestClient) -> None:
    told = reach(client, of=["sodium_mg", "fat_share_percent"])
    assert [each["id"] for each in told["ranges"]] == [
        "energy_kcal",
        "fat_share_percent",
        "protein_g",
        "sodium_mg",
    ]
    assert told["ranges"][3]["at_least"] is None
    assert told["ranges"][3]["unit"] == "mg"


def test_two_amounts_give_a_polygon_with_its_dishes(client: TestClient) -> None:
    frontier = reach(client, frontier={"x": "energy_kcal", "y": "protein_g"})["frontier"]
    assert frontier["kind"] == "polygon"
    assert not frontier["outer"]
    assert frontier["complete"]
    assert len(frontier["vertices"]) >= 3
    for each in frontier["vertices"]:
        protein = sum(
            amount(each, name) * of for name, of in {"salmon": 19.84, "butter": 0.85, "spinach": 2.86}.items()
        )
        assert each["y"] == pytest.approx(protein / 100, abs=1e-4)
        assert each["attained"]


def test_with_steps_the_frontiers_say_their_gap(client: TestClient) -> None:
    stepped = [{**each, "step": "10 g"} for each in SUPPER["pantry"]]
    brief = {**SUPPER, "pantry": stepped, "time_limit_s": 10}
    polygon = reach(client, brief=brief, frontier={"x": "energy_kcal", "y": "protein_g"})["frontier"]
    assert polygon["outer"]
    assert 0 <= polygon["gap_percent"] < 1
    assert all(each["attained"] for each in polygon["vertices"])
    bands = reach(client, brief=brief, frontier={"x": "energy_kcal", "y": "fat_share_percent"})["frontier"]
    assert bands["in_bands"]
    assert bands["complete"]
    assert 0 <= bands["gap"] < 0.5
    exact = reach(client, frontier={"x": "energy_kcal", "y": "fat_share_percent"})["frontier"]
    assert (exact["in_bands"], exact["gap"]) == (False, 0)
    # No dish of whole steps goes further than the same without steps.
    for piece in bands["most"]:
        inside = [max(piece["start"], each["start"]) for each in exact["most"] if each["stop"] > piece["start"]]
        inside += [min(piece["stop"], each["stop"]) for each in exact["most"] if each["start"] < piece["stop"]]
        furthest = max(at(exact["most"], t) for t in inside if piece["start"] <= t <= piece["stop"])
        assert piece["a"] / piece["c"] <= furthest + bands["gap"] + 1e-4


def at(pieces: list[Document], t: float) -> float:
    (piece, *_) = [each for each in pieces if each["start"] <= t <= each["stop"]]
    return float((piece["a"] + piece["b"] * t) / (piece["c"] + piece["d"] * t))


def test_a_share_against_an_amount_gives_its_curve(client: TestClient) -> None:
    told = reach(client, frontier={"x": "fat_share_percent", "y": "energy_kcal"})
    frontier = told["frontier"]
    assert (frontier["kind"], frontier["x"]["of"]) == ("curve", "energy_kcal")
    (share,) = [each for each in told["ranges"] if each["of"] == "fat_share_percent"]
    # The range holds the energy inside its band; the curve tells the most at each energy.
    inside = [
        (piece["a"] + piece["b"] * t) / (piece["c"] + piece["d"] * t)
        for piece in frontier["most"]
        for t in (min(max(piece["start"], 450.0), 550.0), max(min(piece["stop"], 550.0), 450.0))
        if piece["start"] <= t <= piece["stop"]
    ]
    assert max(inside) == pytest.approx(share["most"]["value"], abs=1e-5)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_brief_can_be_asked(client: TestClient, path: Path) -> None:
    document = json.loads(path.read_text())
    told = reach(client, brief=document, frontier={"x": "energy_kcal", "y": "fat_share_percent"})
    assert len(told["ranges"]) >= len(document["targets"])
    assert told["reminder"]


def test_problems_of_the_brief_are_pointed_at_inside_it(client: TestClient) -> None:
    assert problems(client, {"brief": {**SUPPER, "targets": [{"of": "joy"}]}}) == [
        ("/brief/targets/0/of", "unknown_quantity"),
        ("/brief/targets/0", "no_band"),
    ]
    crossed = {"of": "protein_g", "at_least": 40, "at_most": 30}
    assert problems(client, {"brief": {**SUPPER, "targets": [crossed]}}) == [
        ("/brief/targets/0/at_least", "crossed_band")
    ]


def test_names_that_are_unknown_and_pairs_without_a_frontier_are_refused(client: TestClient) -> None:
    assert problems(client, {"brief": SUPPER, "of": ["joy"]}) == [("/of/0", "unknown_quantity")]
    assert problems(client, {"brief": SUPPER, "frontier": {"x": "joy", "y": "fat_g"}}) == [
        ("/frontier/x", "unknown_quantity")
    ]
    same = {"x": "fat_g", "y": "fat_g"}
    assert problems(client, {"brief": SUPPER, "frontier": same}) == [("/frontier/y", "repeated")]
    ratios = {"x": "fat_share_percent", "y": "ketogenic_ratio"}
    assert problems(client, {"brief": SUPPER, "frontier": ratios}) == [("/frontier", "two_ratios")]


def test_fields_outside_the_contract_are_refused(client: TestClient) -> None:
    assert ("/title", "unknown_field") in problems(client, {"brief": SUPPER, "title": "x"})
    assert problems(client, {"of": []}) == [("/brief", "missing_field")]
