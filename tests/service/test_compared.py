import json
from copy import deepcopy
from typing import Any

import pytest

from service.compared import Comparison, compared, compared_reach
from service.seen import SeenAnswer, SeenReach

Document = dict[str, Any]


def plan() -> Document:
    return {
        "outcome": "plan",
        "title": "Mash",
        "proof": {
            "levels": [{"level": "balanced", "value": 0.02, "gap": 0.001}],
            "solver": "highs",
            "solver_version": "1",
        },
        "quantities": [
            {"name": "celeriac", "component": "the dish", "grams": 400.0},
            {"name": "butter", "component": "the dish", "grams": 60.0},
        ],
        "targets": [{"id": "fat_g", "unit": "g", "value": 50.0}],
        "cost": None,
    }


def held_against(after: Document, before: Document | None = None) -> Comparison:
    return compared(SeenAnswer.model_validate(before or plan()), SeenAnswer.model_validate(after))


def told(found: Comparison) -> list[tuple[str, object, object]]:
    return [(each.what, each.before, each.after) for each in found.differences]


def test_the_same_amounts_that_come_to_the_same_are_the_same() -> None:
    assert held_against(plan()) == Comparison("the same")


def test_other_amounts_that_reach_as_much_within_the_gap_are_as_good() -> None:
    after = plan()
    after["quantities"] = [{"name": "butter", "component": "the dish", "grams": 61.5}, *after["quantities"][:1]]
    after["proof"]["levels"][0]["value"] = 0.0208
    found = held_against(after)
    assert found.verdict == "as good, other amounts"
    assert told(found) == [("butter in the dish, g", 60.0, 61.5)]


@pytest.mark.parametrize("value", [0.0215, 0.0185], ids=["worse", "better"])
def test_a_level_that_reaches_another_value_beyond_the_gap_is_different(value: float) -> None:
    after = plan()
    after["proof"]["levels"][0]["value"] = value
    after["quantities"].append({"name": "leek", "component": "the dish", "grams": 12.3})
    found = held_against(after)
    assert found.verdict == "different"
    assert told(found) == [("level balanced", 0.02, value), ("leek in the dish, g", None, 12.3)]


def test_the_same_amounts_that_come_to_something_else_are_different() -> None:
    """As with another food table."""
    after = plan()
    after["targets"][0]["value"] = 50.1
    assert told(held_against(after)) == [("fat_g, g", 50.0, 50.1)]
    assert held_against(after).verdict == "different"


def test_a_target_that_is_read_in_another_way_is_different_however_well_it_is_met() -> None:
    before, after = plan(), plan()
    before["targets"][0] |= {"at_least": 45.0, "at_most": 55.0}
    after["targets"][0] |= {"at_least": 45.0, "at_most": 60.0}
    found = held_against(after, before)
    assert (found.verdict, told(found)) == ("different", [("fat_g at most, g", 55.0, 60.0)])


def test_another_outcome_is_all_there_is_to_say() -> None:
    after = {**plan(), "outcome": "undecided", "quantities": []}
    assert told(held_against(after)) == [("outcome", "plan", "undecided")]


def test_a_conflict_is_the_same_with_the_same_members_in_any_order() -> None:
    members = [{"kind": "target", "name": "fat_g"}, {"kind": "steps", "name": None}]
    before = {**plan(), "outcome": "conflict", "quantities": [], "targets": [], "members": members}
    after = {**before, "members": members[::-1]}
    assert held_against(after, before).verdict == "the same"
    other = {**before, "members": members[:1]}
    assert told(held_against(other, before)) == [("member of the conflict", "steps", None)]


def test_what_is_saved_by_another_version_may_have_more_fields_and_fewer() -> None:
    before = deepcopy(plan())
    del before["cost"], before["title"]
    assert held_against(plan(), {**before, "new": 1}).verdict == "the same"


def test_reach_is_held_against_reach_by_its_ends_and_its_frontier() -> None:
    before: Document = {
        "title": "Mash",
        "solver": "highs",
        "solver_version": "1",
        "ranges": [{"id": "fat_g", "unit": "g", "least": {"value": 1.0, "gap": 0.0}, "most": {"value": 9.0}}],
        "frontier": {"vertices": [{"x": 1.0, "y": 2.0}]},
    }
    after = json.loads(json.dumps(before))
    assert compared_reach(SeenReach.model_validate(before), SeenReach.model_validate(after)).verdict == "the same"
    after["ranges"][0]["most"]["value"] = 9.5
    after["frontier"]["vertices"][0]["y"] = 2.5
    found = compared_reach(SeenReach.model_validate(before), SeenReach.model_validate(after))
    assert found.verdict == "different"
    assert told(found) == [("most of fat_g, g", 9.0, 9.5), ("frontier, vertices 1, y", 2.0, 2.5)]
