"""What stands beside a plan and a conflict, over HTTP and in the terminal."""

from collections.abc import Callable
from subprocess import CompletedProcess
from typing import Any

import httpx2
import pytest

from tests.service.asking import answer_to
from tests.service.briefs import food

Run = Callable[..., CompletedProcess[str]]


def lean(**fields: object) -> dict[str, Any]:
    """Chicken breast alone, which is far from 70 % of its energy from fat."""
    targets = [{"of": "protein_g", "at_least": 30}, {"of": "fat_share_percent", "at_least": 70}]
    return {"title": "Lean", "pantry": [food("chicken", "05062")], "targets": targets, **fields}


def test_a_conflict_comes_with_ways_out_that_are_plans(client: httpx2.Client) -> None:
    found = answer_to(client, lean())["ways_out"]
    assert found["changes"]
    assert [each["kind"] for each in found["additions"]]
    for way in (*found["changes"], *found["additions"]):
        assert all(target["met"] for target in way["dish"]["targets"])
        assert way["dish"]["quantities"]


def test_the_addition_named_makes_the_brief_possible_when_it_is_bought(client: httpx2.Client) -> None:
    """And less of it does not: the amount is the least there is, so nine tenths of it leave the conflict."""
    first = answer_to(client, lean())["ways_out"]["additions"][0]
    outcome = {}
    for part in (1.0, 0.9):
        bought = {
            "name": "bought",
            "source": {"kind": "food", "id": first["food_id"]},
            "on_hand": f"{part * first['grams']} g",
        }
        outcome[part] = answer_to(client, lean(pantry=[food("chicken", "05062"), bought]))["outcome"]
    assert outcome == {1.0: "plan", 0.9: "conflict"}


def test_what_is_excluded_is_never_proposed(client: httpx2.Client) -> None:
    found = answer_to(client, lean(exclude=[{"allergen": "milk"}, {"food": "oil"}]))["ways_out"]
    kinds = {each["kind"] for each in found["additions"]}
    assert kinds
    assert not kinds & {"oil", "butter", "ghee", "cream", "cheese"}


def test_what_no_food_can_help_is_said(client: httpx2.Client) -> None:
    """(450 - 4 x 35) / 450 = 68.9 %: at 4 kcal to a gram of protein there is no room for more fat."""
    targets = [
        {"of": "energy_kcal", "at_most": 450},
        {"of": "protein_g", "at_least": 35},
        {"of": "fat_share_percent", "at_least": 75},
    ]
    bound = answer_to(client, lean(targets=targets))["ways_out"]["no_food_helps"]
    assert bound["target"] == "fat_share_percent"
    assert bound["value"] == pytest.approx(100 * (450 - 4 * 35) / 450, abs=1e-6)


def test_a_conflict_is_answered_when_no_time_is_left_for_ways_out(client: httpx2.Client) -> None:
    answer = answer_to(client, lean(time_limit_s=0.02))
    assert answer["outcome"] in {"conflict", "undecided"}


def test_other_good_plans_come_when_asked_for_and_are_plans(client: httpx2.Client) -> None:
    pantry = [food("chicken", "05062"), food("butter", "01001"), food("oil", "04053"), food("lard", "04002")]
    assert answer_to(client, lean(pantry=pantry))["alternatives"] is None
    found = answer_to(client, lean(pantry=pantry, alternatives=2))["alternatives"]
    assert len(found["plans"]) == 2
    for other in found["plans"]:
        assert other["differs_by"]
        assert all(target["met"] for target in other["dish"]["targets"])


def test_the_terminal_names_the_ways_out(larderline: Run) -> None:
    done = larderline("plan", "openapi/examples/conflict-too-little-energy.json")
    assert "\nWays out, each confirmed by a plan\n  - " in done.stdout


def test_the_terminal_says_what_limits_are_worth_and_lists_other_plans(larderline: Run) -> None:
    done = larderline("plan", "openapi/examples/cheapest-stew.json")
    assert "\nWhat it is worth\n  - " in done.stdout
    assert "\nOther good plans\n  - " in done.stdout


def test_two_conflicts_that_have_nothing_in_common_are_both_told(client: httpx2.Client) -> None:
    """Chicken and tallow bring no fibre, and no vitamin C."""
    targets = [{"of": "fibre_g", "at_least": 5}, {"of": "vitamin_c_mg", "at_least": 40}]
    pantry = [food("chicken", "05062", on_hand="300 g"), food("tallow", "04001")]
    answer = answer_to(client, lean(pantry=pantry, targets=targets))
    told = [[member["name"] for member in one] for one in (answer["members"], *answer["other_conflicts"])]
    assert sorted(told) == [["fibre_g"], ["vitamin_c_mg"]]
