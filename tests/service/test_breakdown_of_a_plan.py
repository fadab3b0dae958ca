"""A breakdown of a plan has the plan's own numbers, and weighing what was predicted changes none of them."""

import json
from pathlib import Path
from typing import Any

import httpx2
import pytest

from tests.service.as_dish import as_dish, random_cooked_brief
from tests.service.asking import Document, answer_to, breakdown_of, plan_for
from tests.service.briefs import PATTIES, TABLE, brief, food, mince, tallow

EXAMPLES = sorted((Path(__file__).parents[2] / "openapi" / "examples").glob("*.json"))
PLANS = [path for path in EXAMPLES if not path.stem.startswith("conflict-")]

WEIGHTS = (
    *("raw_g", "cooked_g", "fat_g", "fat_kept_g", "rendered_g"),
    *("returned_g", "lost_g", "evaporated_g", "eaten_g"),
)


def close(expected: Any) -> Any:  # noqa: ANN401  a number, or several
    """Equal to 1e-6: grams go out with six decimals, so sums of them are equal to about as many."""
    return pytest.approx(expected, rel=1e-6, abs=2e-5)


def hold_equal(one: Document, other: Document) -> None:
    """All totals of two dishes."""
    for totals in ("raw", "batch", "portion"):
        known, expected = (_known(dish[totals]["nutrients"]) for dish in (one, other))
        assert known == close(expected), totals
        for total in ("grams", "energy_kcal", "energy_kj"):
            assert one[totals][total] == close(other[totals][total]), totals
    assert one["energy_distribution_percent"] == other["energy_distribution_percent"]
    assert one["ketogenic_ratio"] == close(other["ketogenic_ratio"])


def _known(nutrients: Document) -> Document:
    return {name: amount for name, amount in nutrients.items() if amount is not None}


def hold_same_numbers(breakdown: Document, plan: Document) -> None:
    hold_equal(breakdown, plan)
    for own, planned in zip(breakdown["components"], plan["components"], strict=True):
        assert own["name"] == planned["name"]
        assert [own[weight] for weight in WEIGHTS] == close([planned[weight] for weight in WEIGHTS])
    shares = [target["value"] for target in plan["targets"] if target["of"] == "fat_share_percent"]
    assert shares in ([], [close(breakdown["fat_share_percent"])])


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_every_example_is_broken_down_as_it_was_planned(client: httpx2.Client, path: Path) -> None:
    document = json.loads(path.read_text())
    plan = plan_for(client, document)
    hold_same_numbers(breakdown_of(client, as_dish(document, plan)), plan)


@pytest.mark.parametrize("seed", range(20))
def test_random_dishes_are_broken_down_as_they_were_planned(client: httpx2.Client, seed: int) -> None:
    document = random_cooked_brief(seed)
    answer = answer_to(client, document)
    dish = answer if answer["outcome"] == "plan" else answer["nearest"]
    hold_same_numbers(breakdown_of(client, as_dish(document, dish)), dish)


def test_most_random_briefs_have_a_plan(client: httpx2.Client) -> None:
    """So that the test above is about plans."""
    outcomes = [answer_to(client, random_cooked_brief(seed))["outcome"] for seed in range(20)]
    assert outcomes.count("plan") >= 12


def weighed(dish: Document, told: Document) -> Document:
    """The same dish, with the scale saying what was predicted of whatever is cooked."""
    parts = {part["name"]: part for part in told["components"]}
    return {**dish, "components": [_weighed(part, parts.get(part["name"])) for part in dish["components"]]}


def _weighed(part: Document, told: Document | None) -> Document:
    if told is None or "method" not in part:
        return part
    said = {"cooked_weight": {"value": told["cooked_g"], "unit": "g"}}
    if told["rendered_g"] > 0:
        said["drippings_weight"] = {"value": told["rendered_g"], "unit": "g"}
    return {**part, **said}


@pytest.mark.parametrize("seed", range(10))
def test_measuring_exactly_what_was_predicted_changes_nothing(client: httpx2.Client, seed: int) -> None:
    document = random_cooked_brief(seed)
    answer = answer_to(client, document)
    dish = as_dish(document, answer if answer["outcome"] == "plan" else answer["nearest"])
    predicted = breakdown_of(client, dish)
    measured = breakdown_of(client, weighed(dish, predicted))
    hold_equal(measured, predicted)
    assert {part["cooked_weight_is"] for part in measured["components"] if part["method"]} == {"measured"}


@pytest.mark.parametrize(("part", "number"), [(PATTIES, "13498"), ({"name": "patties", "method": "roasted"}, "05091")])
def test_one_weight_that_was_predicted_changes_nothing_either(
    client: httpx2.Client, part: Document, number: str
) -> None:
    spoons = {"teaspoons": 5} if part is PATTIES else {}
    item = food("meat", number, amount="900 g")
    dish = {"title": "one", "ingredients": [item], "components": [{**part, **spoons}]}
    predicted = breakdown_of(client, dish)
    (told,) = predicted["components"]
    for field, weight in (("cooked_weight", told["cooked_g"]), ("drippings_weight", told["rendered_g"])):
        said = {**part, **spoons, field: {"value": weight, "unit": "g"}}
        hold_equal(breakdown_of(client, {**dish, "components": [said]}), predicted)


def test_a_plan_around_what_was_weighed_is_the_plan_around_what_was_predicted(client: httpx2.Client) -> None:
    wanted = [{"of": "fat_share_percent", "aim": 75, "within": 1}, {"of": "energy_kcal", "aim": 520, "within": 20}]
    items = [mince(already_in="900 g"), tallow(goes_in=["at the table"])]
    done = {**PATTIES, "finished": True}
    predicted = plan_for(client, brief(*items, portions=4, targets=wanted, components=[done, TABLE]))
    told = predicted["components"][0]
    said = {"cooked_weight": f"{told['cooked_g']} g", "drippings_weight": f"{told['rendered_g']} g"}
    measured = plan_for(client, brief(*items, portions=4, targets=wanted, components=[{**PATTIES, **said}, TABLE]))
    assert measured["quantities"] == predicted["quantities"]
    hold_equal(measured, predicted)
