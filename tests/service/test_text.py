"""The readable plan, from a hand-made answer."""

from typing import Any

import pytest

from service.schemas.answer import ConflictAnswer, PlanAnswer, UndecidedAnswer
from service.text import readable

TOTALS = {
    "grams": 400.0,
    "energy_kcal": 1300.4,
    "energy_kj": 5441.2,
    "nutrients": {"protein_g": 70.04, "fat_g": 108.0, "available_carbohydrate_g": 9.0, "fibre_g": None},
    "lacking": {"protein_g": ["stock"]},
}

TARGET = {
    "id": "share",
    "of": "fat_share_percent",
    "per": "portion",
    "unit": "%",
    "at_least": 74.0,
    "at_most": 76.0,
    "aim": 75.0,
    "within": 1.0,
    "priority": None,
    "value": 74.0,
    "reason": None,
    "met": True,
    "binding": True,
    "miss": 0.0,
}

DISH = {
    "quantities": [
        {"name": "egg", "food_id": "f:1", "grams": 150.0, "text": "3 large", "steps": 3, "about": None},
        {"name": "tallow", "food_id": "f:2", "grams": 64.0, "text": "64.0 g", "steps": None, "about": "about 5 tbsp"},
        {"name": "stock", "food_id": "f:3", "grams": 186.0, "text": "186.0 g", "steps": None, "about": None},
    ],
    "batch": {**TOTALS, "grams": 800.0},
    "portion": TOTALS,
    "energy_distribution_percent": {"fat": 75, "protein": 22, "carbohydrate": 3, "alcohol": 0},
    "ketogenic_ratio": 1.3666,
    "ketogenic_ratio_reason": None,
    "targets": [TARGET],
    "cost": 7.5,
}

PROOF = {
    "levels": [
        {
            "level": "balanced",
            "status": "within_gap",
            "checked": "solver's claim",
            "value": 0.3,
            "bound": 0.25,
            "gap": 0.05,
            "seconds": 0.01,
        }
    ],
    "solver": "highs",
    "solver_version": "1.16.0",
    "seconds": 0.02,
}

COMMON = {
    "title": "Dish",
    "portions": 2,
    "energy_basis": "general",
    "proof": PROOF,
    "reminder": "Ask somebody.",
    "left_out": [{"name": "tin", "lacks": ["fibre_g"]}],
    "warnings": ["Mind the pan."],
}


def plan(**changes: Any) -> str:  # noqa: ANN401  any field of an answer
    answer = {**COMMON, **DISH, "outcome": "plan", "exactness": "Exact.", **changes}
    return readable(PlanAnswer.model_validate(answer))


def test_amounts_are_printed_exactly_with_their_orientation_beside_them() -> None:
    lines = plan().splitlines()
    assert "  egg     3 large  150.0 g" in lines
    assert "  tallow   64.0 g  about 5 tbsp" in lines
    assert "  stock   186.0 g" in lines


def test_every_part_has_its_heading() -> None:
    lines = plan().splitlines()
    assert lines[0] == "Dish (2 portions)"
    for heading in ("Targets", "Proof", "Left out", "Mind", "Exactness", "Reminder"):
        assert heading in lines
    assert "  tin: no value for fibre_g" in lines
    assert "  balanced: within gap, gap 0.05 (solver's claim)" in lines


def test_a_sum_with_gaps_is_a_lower_bound_and_a_sum_without_values_unknown() -> None:
    text = plan()
    assert "at least 70.0 g" in text
    assert "unknown" in text


def test_energy_is_in_kcal_and_kj() -> None:
    assert "1300 kcal" in plan()
    assert "5441 kJ" in plan()


def test_cost_is_printed_only_where_it_is_known() -> None:
    assert "7.50" in plan()
    assert "cost" not in plan(cost=None)


@pytest.mark.parametrize(
    ("changes", "verdict"),
    [
        ({}, "met, at its limit"),
        ({"binding": False}, "met"),
        ({"met": False, "miss": 2.5}, "MISSED by 2.5 percentage points"),
        ({"met": False, "miss": None, "value": None, "reason": "no energy"}, "not met: no energy"),
        ({"priority": 2}, "met, at its limit  wish 2"),
    ],
)
def test_each_target_has_its_verdict(changes: dict[str, Any], verdict: str) -> None:
    (line,) = [line for line in plan(targets=[{**TARGET, **changes}]).splitlines() if line.startswith("  share")]
    assert line.endswith(f"  {verdict}")


def test_an_undefined_ratio_has_its_reason() -> None:
    assert "no ketogenic ratio: pure fat" in plan(ketogenic_ratio=None, ketogenic_ratio_reason="pure fat")


def conflict(**changes: Any) -> str:  # noqa: ANN401  any field of an answer
    answer = {
        **COMMON,
        "outcome": "conflict",
        "irreducible": True,
        "checked": "certificate checked",
        "nearest": None,
        "members": [{"kind": "target", "name": "share", "text": "fat, at least 74 %"}],
        **changes,
    }
    return readable(ConflictAnswer.model_validate(answer))


def test_a_conflict_lists_its_members_and_says_whether_each_is_needed() -> None:
    assert "  - fat, at least 74 %\n" in conflict()
    assert "Without any one of them the rest can be met." in conflict()
    assert "The time ended before" in conflict(irreducible=False)


def test_the_nearest_dish_is_shown_where_there_is_one() -> None:
    assert "nearest dish" not in conflict()
    assert "3 large" in conflict(nearest=DISH)
    assert "Weigh out" not in conflict(nearest={**DISH, "quantities": []})


def test_undecided_says_why_and_what_would_help() -> None:
    answer = {**COMMON, "outcome": "undecided", "reason": "The clock ended.", "advice": "Allow more time."}
    text = readable(UndecidedAnswer.model_validate(answer))
    assert "The clock ended." in text
    assert "Allow more time." in text
