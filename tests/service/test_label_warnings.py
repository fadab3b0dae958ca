"""What is said of labels reaches whoever asked, whatever the answer is."""

import json
from pathlib import Path
from typing import Any

import httpx2
import pytest

from service.planner import open_planner
from service.schemas.brief import BriefBody
from service.settings import Settings
from solver.catalogue import Catalogue
from solver.deadline import Deadline

CREAM = {"kind": "label", "layout": "US", "serving": "15 g", "fat_g": 5, "total_carbohydrate_g": "0 g", "protein_g": 0}
ODD = {"kind": "label", "layout": "EU", "per": "100 g", "energy_kcal": 100, "fat_g": 30, "carbohydrate_g": 2}
LABELS = {"cream": CREAM, "odd cheese": {**ODD, "protein_g": 20}}


def asked(**changes: Any) -> dict[str, Any]:  # noqa: ANN401  any field of a brief
    pantry = [{"name": name, "source": source} for name, source in LABELS.items()]
    targets = [{"of": "energy_kcal", "aim": 500}, {"of": "protein_g", "at_least": 10}]
    return {"title": "labels", "pantry": pantry, "targets": targets, **changes}


IMPOSSIBLE = [{"of": "energy_kcal", "aim": 500, "within": 5}, {"of": "protein_g", "at_least": 500}]


@pytest.mark.parametrize(
    ("outcome", "changes", "seconds"),
    [("plan", {}, 10), ("conflict", {"targets": IMPOSSIBLE}, 10), ("undecided", {}, 0)],
)
def test_every_answer_says_how_labels_were_read_and_what_does_not_add_up(
    catalogue: Catalogue, outcome: str, changes: dict[str, Any], seconds: float
) -> None:
    planner = open_planner(Settings(), catalogue=catalogue)
    wanted = planner.asked(BriefBody.model_validate(asked(**changes)))
    answer = planner.answer(wanted, Deadline.after(seconds)).model_dump()
    assert answer["outcome"] == outcome
    (read,) = [warning for warning in answer["warnings"] if warning.startswith("cream: ")]
    assert "total carbohydrate" in read
    assert "0.5 g in 15 g" in read
    # At least 29.5 x 9 + 1.95 x 4 + 19.5 x 4 = 351.3 kcal, at most 100.5 are printed.
    (doubt,) = [warning for warning in answer["warnings"] if warning.startswith("odd cheese: ")]
    assert "250.8 kcal apart" in doubt


def test_equal_labels_share_one_warning(client: httpx2.Client) -> None:
    pantry = [{"name": name, "source": CREAM} for name in ("cream", "more cream")]
    answer = client.post("/v1/plans", json=asked(pantry=pantry, targets=[{"of": "energy_kcal", "aim": 500}])).json()
    assert [warning for warning in answer["warnings"] if warning.startswith("cream, more cream: ")]


def test_a_label_that_is_wrong_is_refused_field_by_field(client: httpx2.Client) -> None:
    source = {**CREAM, "fat": 5, "protein_g": [], "sodium_mg": "3 g 4", "polyols": {"xylitol": 1}}
    document = client.post("/v1/plans", json=asked(pantry=[{"name": "cream", "source": source}])).json()
    found = {problem["pointer"]: (problem["code"], problem["remedy"]) for problem in document["problems"]}
    assert found["/pantry/0/source/fat"] == (
        "unknown_field",
        "Remove the field, or mend its spelling. The nearest is fat_g.",
    )
    assert found["/pantry/0/source/polyols/xylitol"][1].endswith("The nearest is xylitol_g.")
    assert found["/pantry/0/source/protein_g"][0] == "wrong_type"


def test_an_unknown_layout_is_met_with_those_there_are(client: httpx2.Client) -> None:
    for layout in ("UK", "us", 1, None, ""):
        pantry = [{"name": "cream", "source": {**CREAM, "layout": layout}}]
        response = client.post("/v1/plans", json=asked(pantry=pantry))
        assert response.status_code == 422, layout
    (problem,) = client.post(
        "/v1/plans", json=asked(pantry=[{"name": "cream", "source": {**CREAM, "layout": "UK"}}])
    ).json()["problems"]
    assert (problem["pointer"], problem["code"]) == ("/pantry/0/source", "unknown_value")
    assert '"US"' in problem["remedy"]


def test_the_three_variants_have_names_of_their_own_in_the_description(client: httpx2.Client) -> None:
    schemas = client.get("/openapi.json").json()["components"]["schemas"]
    variants = {variant["$ref"].rpartition("/")[2] for variant in schemas["LabelSource"]["anyOf"]}
    assert variants == {"PlainLabel", "UsLabel", "EuLabel"}
    source = schemas["PantryItemBody"]["properties"]["source"]
    assert source["discriminator"]["mapping"] == {
        "dish": "#/components/schemas/DishSource",
        "food": "#/components/schemas/FoodSource",
        "label": "#/components/schemas/LabelSource",
    }


@pytest.mark.parametrize("variant", ["PlainLabel", "UsLabel", "EuLabel", "PolyolAmounts"])
def test_every_field_of_a_label_is_described(client: httpx2.Client, variant: str) -> None:
    schema = client.get("/openapi.json").json()["components"]["schemas"][variant]
    assert schema["description"]
    assert all(field["description"] for field in schema["properties"].values())


def test_the_labels_of_the_example_add_up_and_make_a_plan(client: httpx2.Client, examples: Path) -> None:
    brief = json.loads((examples / "labels-us-and-eu.json").read_text())
    answer = client.post("/v1/plans", json=brief).json()
    assert answer["outcome"] == "plan"
    assert not [warning for warning in answer["warnings"] if "does not add up" in warning]
    assert any("60% of maltitol" in warning for warning in answer["warnings"])
