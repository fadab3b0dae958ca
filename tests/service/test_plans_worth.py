"""What limits are worth, asked for over HTTP."""

from typing import Any

import httpx2
import pytest


def stew(client: httpx2.Client, examples: dict[str, Any], **fields: object) -> dict[str, Any]:
    answer: dict[str, Any] = client.post("/v1/plans", json={**examples, **fields}).json()
    assert answer["outcome"] == "plan"
    return answer


@pytest.fixture
def two_foods() -> dict[str, Any]:
    """Protein and fat at a price: 30 g protein cost 30 cents, 60 g fat 12."""
    pure = {"kind": "label", "per": "100 g", "protein_g": 0, "fat_g": 0, "total_carbohydrate_g": 0, "fibre_g": 0}
    return {
        "title": "Two foods",
        "pantry": [
            {"name": "powder", "source": {**pure, "protein_g": 100}, "price": {"amount": 1, "per": "100 g"}},
            {"name": "oil", "source": {**pure, "fat_g": 100}, "price": {"amount": 0.2, "per": "100 g"}},
        ],
        "targets": [{"of": "protein_g", "at_least": 30}, {"of": "fat_g", "at_least": 60}],
        "prefer": ["cheapest"],
    }


def test_nothing_is_said_unless_it_is_asked_for(client: httpx2.Client, two_foods: dict[str, Any]) -> None:
    assert stew(client, two_foods)["worth"] is None


def test_a_gram_of_protein_more_costs_what_a_gram_of_it_costs(client: httpx2.Client, two_foods: dict[str, Any]) -> None:
    told = {each["name"]: each for each in stew(client, two_foods, say_worth=True)["worth"]}
    assert told["protein_g"]["less"] == pytest.approx(0.01)
    assert told["protein_g"]["more"] == pytest.approx(-0.01)
    assert told["fat_g"]["less"] == pytest.approx(0.002)
    assert {each["level"] for each in told.values()} == {"cheapest"}
    assert {each["checked"] for each in told.values()} == {"certificate checked"}
