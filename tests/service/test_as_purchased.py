"""What is weighed as it is bought is said as it is bought: who weighs a bone in must not get a fifth too little."""

from typing import Any

import httpx2
import pytest

CHOPS = {"name": "chops", "source": {"kind": "food", "id": "sr28:10036"}}


def quantities(client: httpx2.Client, *pantry: dict[str, Any]) -> list[dict[str, Any]]:
    brief = {"title": "Chops", "pantry": list(pantry), "targets": [{"of": "protein_g", "aim": 40}]}
    answer = client.post("/v1/plans", json=brief).json()
    assert answer["outcome"] == "plan", answer
    found: list[dict[str, Any]] = answer["quantities"]
    return found


def test_the_weight_with_its_bone_stands_beside_the_edible_portion(client: httpx2.Client) -> None:
    # USDA SR28, FOOD_DES: pork chops with their bone have 25 % refuse.
    (chops,) = quantities(client, {**CHOPS, "weighed": "as purchased"})
    assert chops["as_purchased_grams"] == pytest.approx(chops["grams"] / 0.75)


def test_where_the_edible_portion_is_weighed_there_is_no_other_weight(client: httpx2.Client) -> None:
    (chops,) = quantities(client, CHOPS)
    assert chops["as_purchased_grams"] is None


def test_a_step_as_purchased_is_said_in_its_own_words(client: httpx2.Client) -> None:
    (chops,) = quantities(client, {**CHOPS, "weighed": "as purchased", "step": "10 g"})
    assert chops["text"] == f"{chops['as_purchased_grams']:g} g"
