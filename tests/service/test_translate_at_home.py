"""What is at home, held back or to be bought, and what stands in the way of wishes: over HTTP and in the terminal."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import httpx2
import pytest

from tests.service.asking import answer_to, plan_for
from tests.service.briefs import food

Run = Callable[..., CompletedProcess[str]]


def lean(*items: dict[str, Any], **fields: object) -> dict[str, Any]:
    """Chicken breast, which is far from 70 % of its energy from fat, and what else there is."""
    targets = [{"of": "protein_g", "at_least": 30}, {"of": "fat_share_percent", "at_least": 70}]
    return {"title": "Lean", "pantry": [food("chicken", "05062"), *items], "targets": targets, **fields}


def refused(client: httpx2.Client, document: dict[str, Any]) -> list[tuple[str, str]]:
    response = client.post("/v1/plans", json=document)
    assert response.status_code == 422
    return [(problem["pointer"], problem["code"]) for problem in response.json()["problems"]]


def used(plan: dict[str, Any]) -> set[str]:
    return {each["name"] for each in plan["quantities"]}


def test_as_little_is_bought_as_can_be(client: httpx2.Client) -> None:
    items = (food("oil", "04053", to_buy=True), food("butter", "01001", to_buy=True), food("lard", "04002"))
    plan = plan_for(client, lean(*items, prefer=["fewest new purchases", "balanced"]))
    assert used(plan) == {"chicken", "lard"}
    first = plan["proof"]["levels"][0]
    assert (first["level"], first["value"]) == ("fewest new purchases", 0.0)


def test_what_is_to_be_used_up_is_so_in_the_order_given(client: httpx2.Client) -> None:
    items = (food("butter", "01001", use_up_order=1, on_hand="20 g"), food("lard", "04002", use_up_order=2))
    plan = plan_for(client, lean(*items, prefer=["use up first"]))
    names = [level["level"] for level in plan["proof"]["levels"]]
    assert names == ["use up first: 1", "use up first: 2"]
    assert next(each["grams"] for each in plan["quantities"] if each["name"] == "butter") == pytest.approx(20)


@pytest.mark.parametrize(
    ("fields", "expected"),
    [
        ({"to_buy": True, "on_hand": "100 g"}, ("/pantry/1/to_buy", "to_buy_and_at_home")),
        ({"to_buy": True, "already_in": "100 g"}, ("/pantry/1/to_buy", "to_buy_and_at_home")),
        ({"to_buy": True, "only_if_needed": True}, ("/pantry/1/to_buy", "to_buy_and_at_home")),
        ({"only_if_needed": True, "at_least": "5 g"}, ("/pantry/1/only_if_needed", "held_and_needed")),
        ({"only_if_needed": True, "already_in": "5 g"}, ("/pantry/1/only_if_needed", "held_and_needed")),
        ({"use_up_order": 0}, ("/pantry/1/use_up_order", "out_of_range")),
        ({"to_buy": "yes"}, ("/pantry/1/to_buy", "wrong_type")),
    ],
)
def test_what_contradicts_itself_is_refused_at_its_field(
    client: httpx2.Client, fields: dict[str, Any], expected: tuple[str, str]
) -> None:
    assert refused(client, lean(food("oil", "04053", **fields))) == [expected]


def test_what_a_preference_needs_and_nobody_gives_is_refused(client: httpx2.Client) -> None:
    assert refused(client, lean(prefer=["fewest new purchases"])) == [("/prefer", "nothing_to_buy")]
    items = (food("oil", "04053", use_by="2026-11-28"), food("lard", "04002", use_up_order=1))
    expected = [("/pantry/2/use_up_order", "days_and_order")]
    assert refused(client, lean(*items, prefer=["use up first"])) == expected
    assert used(plan_for(client, lean(*items)))


def test_where_everything_is_held_back_nothing_is_left(client: httpx2.Client) -> None:
    only = lean()
    only["pantry"][0]["only_if_needed"] = True
    assert refused(client, only) == [("/pantry", "nothing_left")]


def test_what_is_held_back_takes_no_part_and_that_is_said(client: httpx2.Client) -> None:
    plan = plan_for(client, lean(food("oil", "04053"), food("our butter", "01001", only_if_needed=True)))
    assert used(plan) == {"chicken", "oil"}
    assert "Held back, since they are only for need: our butter." in plan["warnings"]


def test_where_there_is_no_plan_without_it_what_is_at_home_is_the_first_addition(client: httpx2.Client) -> None:
    held = food("our butter", "01001", only_if_needed=True, on_hand="250 g")
    answer = answer_to(client, lean(held))
    assert answer["outcome"] == "conflict"
    first, *others = answer["ways_out"]["additions"]
    assert (first["name"], first["at_home"], first["food_id"]) == ("our butter", True, "sr28:01001")
    assert others
    assert not any(each["at_home"] or each["food_id"] == "sr28:01001" for each in others)
    assert all(target["met"] for target in first["dish"]["targets"])
    outcome = {
        part: answer_to(client, lean(food("our butter", "01001", at_most=f"{part * first['grams']} g")))["outcome"]
        for part in (1.0, 0.9)
    }
    assert outcome == {1.0: "plan", 0.9: "conflict"}


def test_what_is_excluded_is_not_let_in_however_needed(client: httpx2.Client) -> None:
    held = food("our butter", "01001", only_if_needed=True)
    answer = answer_to(client, lean(held, exclude=[{"allergen": "milk"}]))
    assert not any(each["at_home"] for each in answer["ways_out"]["additions"])
    assert [each["name"] for each in answer["excluded"]] == ["our butter"]
    assert not any("Held back" in each for each in answer["warnings"])


def missed() -> dict[str, Any]:
    """100 g of kale bring 4.1 g of fibre (food table); 8 g are wished for, and nothing else brings any."""
    document = lean(food("oil", "04053"), food("kale", "11233", on_hand="100 g"))
    document["targets"].append({"of": "fibre_g", "at_least": 8, "priority": 1})
    return document


def test_what_stands_in_the_way_of_a_wish_is_said(client: httpx2.Client) -> None:
    (wish,) = plan_for(client, missed())["in_the_way"]
    assert (wish["kind"], wish["name"], wish["why"]) == ("target", "fibre_g", "these stand in its way")
    assert [(member["kind"], member["name"]) for member in wish["members"]] == [("on hand", "kale")]
    assert wish["irreducible"]
    assert wish["text"].endswith("at least 8 g per portion")


def test_where_all_wishes_are_met_nothing_is_in_the_way(client: httpx2.Client) -> None:
    document = missed()
    document["targets"][-1]["at_least"] = 2
    assert plan_for(client, document)["in_the_way"] == []


def test_the_terminal_says_what_is_in_the_way_and_what_is_at_home(larderline: Run) -> None:
    done = larderline("plan", "-", stdin=json.dumps(missed()))
    part = done.stdout.partition("\nWishes that are missed\n")[2].partition("\n\n")[0]
    assert part.splitlines()[1] == "  - kale, 100 g on hand"
    held = lean(food("our butter", "01001", only_if_needed=True))
    conflict = larderline("plan", "-", stdin=json.dumps(held))
    flat = " ".join(conflict.stdout.split())
    assert "- Add our butter: " in flat
    assert "which is at home." in flat


def test_the_example_shows_them_all(client: httpx2.Client, examples: Path) -> None:
    document = json.loads((examples / "supper-from-the-larder.json").read_text())
    plan = plan_for(client, document)
    bought = {item["name"] for item in document["pantry"] if item.get("to_buy")} & used(plan)
    assert len(bought) == 1
    assert [each["name"] for each in plan["in_the_way"]] == ["fibre_g"]
