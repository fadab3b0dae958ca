"""What is left out of a dish has something proposed in its place, which does the same and breaks nothing."""

import json
from pathlib import Path

import httpx2
import pytest

from solver.backends import open_backend
from solver.outcome import Plan
from solver.solve import solve
from tests.service.asking import Document, answer_to, told
from tests.service.conftest import Translate


@pytest.fixture
def mash(examples: Path) -> Document:
    """Without a word on what stands in for the butter and the cream."""
    body: Document = json.loads((examples / "reworks" / "mash-without-dairy.json").read_text())
    body["said"] = [each for each in body["said"] if each["says"] != "use instead"]
    return body


def substitutes(client: httpx2.Client, body: Document) -> list[Document]:
    found: list[Document] = told(client.post("/v1/reworks", json=body))["substitutes"]
    return found


def test_fat_stands_in_for_fat_where_the_item_was(client: httpx2.Client, mash: Document) -> None:
    found = substitutes(client, mash)
    assert {each["in_place_of"] for each in found} == {"butter", "cream"}
    for each in found:
        assert each["role"] == "fat"
        assert each["component"] == "the dish"
        used = next(q["grams"] for q in each["dish"]["quantities"] if q["name"] == each["name"])
        assert used == each["grams"]
        assert all(target["met"] for target in each["dish"]["targets"])


@pytest.mark.parametrize("also", [{"allergen": "tree nuts"}, {"food_group": "Fats and Oils"}, {"food": "coconut"}])
def test_nothing_that_is_excluded_is_proposed_and_nothing_that_may_hold_it(
    client: httpx2.Client, mash: Document, also: Document
) -> None:
    """Asked for as a pantry of its own under the same exclusions, none of the proposals is left out."""
    mash["brief"]["exclude"] = [also]
    found = substitutes(client, mash)
    assert found or "food_group" in also
    for each in found:
        brief = {
            "title": each["name"],
            "pantry": [{"name": each["name"], "source": {"kind": "food", "id": each["food_id"]}}],
            "targets": [{"of": "energy_kcal", "aim": 300}],
            "exclude": [{"allergen": "milk"}, also],
        }
        assert answer_to(client, brief)["excluded"] == []


def test_a_proposal_is_confirmed_by_a_solver_that_shares_no_code(
    client: httpx2.Client, mash: Document, translate: Translate
) -> None:
    """The same brief with the proposal in the pantry, in just the amount that was said, has a plan by CBC."""
    each = substitutes(client, mash)[0]
    brief = {field: value for field, value in mash["brief"].items() if field not in {"base", "prefer"}}
    amount = f"{each['grams']} g"
    stands_in = {"name": "it", "source": {"kind": "food", "id": each["food_id"]}, "at_least": amount, "on_hand": amount}
    brief["pantry"] = [*brief["pantry"], stands_in]
    brief["exclude"] = [{"allergen": "milk"}]
    assert isinstance(solve(translate(brief), open_backend("pulp-cbc")), Plan)


def test_nothing_is_proposed_where_the_cook_names_what_to_use(client: httpx2.Client, examples: Path) -> None:
    body = json.loads((examples / "reworks" / "mash-without-dairy.json").read_text())
    assert "butter" not in {each["in_place_of"] for each in substitutes(client, body)}
