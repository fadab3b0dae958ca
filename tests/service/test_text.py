"""The readable answer, from answers made by hand."""

from typing import Any

import pytest

from service.schemas.answer import ConflictAnswer, PlanAnswer, UndecidedAnswer
from service.text import readable
from tests.service.handmade import AS_IT_IS, COMMON, COOKED, DISH, OFF, TARGET, quantity

STEP = {
    "dish": None,
    "text": "Broil.",
    "component": "patties",
    "vessel": "tray",
    "celsius": 240.0,
    "minutes": 12.0,
    "until_safe": True,
}


def plan(**changes: Any) -> str:  # noqa: ANN401  any field of an answer
    known: dict[str, Any] = {
        "exactness": "Exact.",
        "plate_may_be_off": OFF,
        "allergens": [],
        "worth": None,
        "alternatives": None,
        "in_the_way": [],
        "brings": [],
        "nutrition": [{"name": "fat_g", "title": "Total Fat", "text": None, "value": None}],
        "method_steps": [STEP],
    }
    answer = {**COMMON, **DISH, **known, "outcome": "plan", **changes}
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


def test_steps_and_nutrition_numbers_are_said() -> None:
    lines = plan().splitlines()
    assert "  1. Broil. (patties, tray, 240 °C, 12 min, until the centre is safe)" in lines
    assert "  Total Fat  unknown" in lines


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


def test_a_missed_wish_is_said_with_what_stands_in_its_way() -> None:
    wish: dict[str, Any] = {
        "kind": "target",
        "name": "fibre_g",
        "why": "these stand in its way",
        "closer_by_percent": 1.0,
        "members": [{"kind": "on hand", "name": "kale", "text": "kale, 100 g on hand"}],
        "irreducible": True,
        "text": "fibre, at least 5 g per portion",
    }
    lines = plan(in_the_way=[wish]).splitlines()
    at = lines.index("Wishes that are missed")
    assert lines[at + 1 : at + 3] == [
        "  fibre, at least 5 g per portion: these stand in its way",
        "  - kale, 100 g on hand",
    ]
    assert "not proven" in plan(in_the_way=[{**wish, "irreducible": False}])
    late = {**wish, "members": [], "why": "not decided in time"}
    assert "  fibre, at least 5 g per portion: not decided in time\n" in plan(in_the_way=[late])
    assert "Wishes that are missed" not in plan()


def conflict(**changes: Any) -> str:  # noqa: ANN401  any field of an answer
    answer = {
        **COMMON,
        "outcome": "conflict",
        "irreducible": True,
        "checked": "certificate checked",
        "nearest": None,
        "ways_out": None,
        "tolerance_carried": None,
        "other_conflicts": [],
        "members": [{"kind": "target", "name": "share", "text": "fat, at least 74 %"}],
        **changes,
    }
    return readable(ConflictAnswer.model_validate(answer))


def test_a_conflict_lists_its_members_and_says_whether_each_is_needed() -> None:
    assert "  - fat, at least 74 %\n" in conflict()
    one = {"kind": "target", "name": "share", "text": "fat, at least 74 %"}
    assert "Without any one of them the others can be met." in conflict(members=[one, {**one, "text": "at most 300 g"}])
    assert "It alone cannot be met." in conflict()
    assert "It is not proven that each" in conflict(irreducible=False)


def test_what_leads_out_of_a_conflict_is_kept_apart_from_what_no_food_can_do() -> None:
    bound = {"target": "share", "value": 68.9, "is_ceiling": True, "text": "450 kcal cannot exceed 68.9 % fat"}
    ways: dict[str, Any] = {"changes": [], "together": None, "additions": [], "no_food_helps": None}
    assert "Ways out" not in conflict()
    assert "confirmed by a plan\n  (none found: " in conflict(ways_out=ways)
    assert "\nNo food can help here\n  450 kcal cannot exceed 68.9 % fat.\n" in conflict(
        ways_out={**ways, "no_food_helps": bound}
    )


def test_the_nearest_dish_is_shown_where_there_is_one() -> None:
    assert "nearest dish" not in conflict()
    assert "3 large" in conflict(nearest=DISH)
    assert "Weigh out" not in conflict(nearest={**DISH, "quantities": []})


def test_what_is_worth_and_what_others_lose_is_said_with_its_measure() -> None:
    one = {
        "kind": "on hand",
        "name": "egg",
        "end": "on_hand",
        "by": 1.0,
        "unit": "steps of 1 large",
        "level": "cheapest",
    }
    said = {
        "more": -0.25,
        "more_reason": None,
        "less": None,
        "less_reason": "no plan then",
        "checked": "solver's claim",
    }
    assert (
        "  - egg, on_hand: 1 step of 1 large more room changes cheapest by: -0.25; less room by: no plan then\n"
        in plan(worth=[{**one, **said}])
    )
    other = {"differs_by": ["egg", "tallow"], "mass_share_percent": 38.5, "loss": 0.12, "cautions": [], "warnings": []}
    others = {"plans": [{**other, "dish": DISH}], "level": "cheapest", "most_loss": 0.3, "ended": "as many as asked"}
    told = " ".join(plan(alternatives=others).split())
    assert "(differs by egg, tallow; cheapest +0.12) (as many as asked; each loses at most 0.3 of cheapest)" in told


def test_undecided_says_why_and_what_would_help() -> None:
    answer = {**COMMON, "outcome": "undecided", "reason": "The clock ended.", "advice": "Allow more time."}
    text = readable(UndecidedAnswer.model_validate(answer))
    assert "The clock ended." in text
    assert "Allow more time." in text


def test_what_is_cooked_is_said_from_the_board_to_the_plate() -> None:
    lines = plan().splitlines()
    (cooked,) = [at for at, line in enumerate(lines) if line == "Cook"]
    assert " ".join(line.strip() for line in lines[cooked + 1 : cooked + 3]) == (
        "patties (broiled patty): 900 g raw become 506 g (estimated, give or take 70 g); 175 g of 270 g fat run out "
        "(estimated, give or take 9 g), spoon back 18 tsp of it."
    )
    assert not any(line.startswith("  at the table (") for line in lines), "nothing is cooked at the table"
    assert "Cook" not in plan(components=[AS_IT_IS]).splitlines()


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"rendered_g": 0.0}, "; no fat runs out."),
        ({"spoon_back": None, "drippings": "served"}, "give or take 9 g), served."),
        ({"spoon_back": None, "drippings": "spooned back"}, "give or take 9 g), spoon none back."),
        ({"cooked_weight_is": "measured", "cooked_off_by_g": 0.0}, "become 506 g (measured); "),
    ],
)
def test_a_component_is_said_as_it_was_cooked(changes: dict[str, Any], words: str) -> None:
    assert words in " ".join(plan(components=[{**COOKED, **changes}]).split())


def test_the_component_is_named_beside_an_amount_where_there_are_several() -> None:
    several = plan(quantities=[quantity("egg", 50.0), quantity("tallow", 9.0, component="at the table")])
    assert "at the table" in several.partition("Weigh out")[2].partition("Cook")[0]
    assert "patties" not in plan().partition("Weigh out")[2].partition("Cook")[0]


def test_cautions_and_what_is_excluded_are_said_with_their_reason() -> None:
    lines = plan().splitlines()
    assert lines[lines.index("Cautions") + 1] == "  - Eggs are raw. (sauce: egg)"
    assert lines[lines.index("Excluded") + 1] == "  butter: contains milk"


def test_how_far_the_plate_may_be_off_is_said_with_its_largest_sources() -> None:
    lines = plan().splitlines()
    at = lines.index("The plate may be off")
    said = " ".join(" ".join(lines[at + 1 : at + 4]).split())
    assert "energy +-40.0 kcal, fat -4.1 +5.2 g, fat share -2.0 +? percentage points." in said
    assert lines.count("  - cooking, patties: the fat may be off.") == 3, "the three largest are named"
    assert "percentage points." not in plan(plate_may_be_off={**OFF, "fat_share_points": None})
