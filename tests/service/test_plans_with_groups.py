"""Rules and choices over groups by food group and by allergen, over HTTP. Foods are of USDA SR28."""

import httpx2
import pytest

from tests.service.asking import Document, answer_to, places_of, plan_for, problem_of
from tests.service.briefs import brief, food, grams

FED: Document = {"of": "energy_kcal", "per": "batch", "at_least": 900}

#: Nobody has said whether it contains milk.
SAUSAGE: Document = {
    "name": "farm sausage",
    "source": {"kind": "label", "per": "100 g", "fat_g": 30, "protein_g": 15, "total_carbohydrate_g": 1, "fibre_g": 0},
}


def table(*rules: Document, **fields: object) -> Document:
    """Salmon, butter, olive oil, and a sausage from a farm, eaten as they are."""
    pantry = [food("salmon", "15236"), food("butter", "01145"), food("olive oil", "04053"), SAUSAGE]
    return brief(*pantry, **{"targets": [FED], "rules": list(rules), **fields})


def counted(client: httpx2.Client, rule: Document) -> list[str]:
    (said,) = plan_for(client, table(rule))["rules"]
    return list(said["of"])


def test_for_a_most_what_is_unknown_counts_and_for_a_least_it_does_not(client: httpx2.Client) -> None:
    assert counted(client, {"of_allergens": ["milk"], "at_most": 10}) == ["butter", "farm sausage"]
    assert counted(client, {"of_allergens": ["Milk "], "at_least": 10}) == ["butter"]


def test_of_a_ratio_the_second_group_is_read_the_other_way(client: httpx2.Client) -> None:
    (said,) = plan_for(client, table({"of": ["salmon"], "to_allergens": ["milk"], "at_most": 2}))["rules"]
    assert said["to"] == ["butter"]
    (said,) = plan_for(client, table({"of": ["salmon"], "to_allergens": ["milk"], "at_least": 0.5}))["rules"]
    assert said["to"] == ["butter", "farm sausage"]


def test_a_food_group_is_that_of_the_table_and_adds_to_what_is_named(client: httpx2.Client) -> None:
    rule = {"of_food_groups": ["fats and oils"], "of": ["salmon"], "at_most": 900}
    assert counted(client, rule) == ["olive oil", "salmon"]


@pytest.mark.parametrize(
    ("rule", "refused"),
    [
        ({"of_allergens": ["milk"], "at_least": 1, "at_most": 2}, ("/rules/0/of", "two_readings")),
        ({"of_allergens": ["mlik"], "at_most": 2}, ("/rules/0/of_allergens/0", "unknown_allergen")),
        ({"of_food_groups": ["Oils"], "at_most": 2}, ("/rules/0/of_food_groups/0", "unknown_food_group")),
        ({"of_food_groups": ["Sweets"], "at_most": 2}, ("/rules/0/of_food_groups/0", "empty_group")),
        ({"of_allergens": ["egg"], "at_least": 2}, ("/rules/0/of", "empty_group")),
        ({"at_most": 2}, ("/rules/0/of", "no_group")),
        ({"of": ["salmon"], "by": "pieces", "at_most": 2}, ("/rules/0/of", "no_pieces")),
    ],
)
def test_a_group_that_cannot_be_read_is_refused_where_it_stands(
    client: httpx2.Client, rule: Document, refused: tuple[str, str]
) -> None:
    assert places_of(problem_of(client, table(rule))) == [refused]


def test_where_an_allergen_may_be_a_choice_is_safe(client: httpx2.Client) -> None:
    never = {"if_used": ["salmon"], "then_not_used_allergens": ["milk"]}
    plan = plan_for(client, table({"of": ["salmon"], "at_least": 100}, choices=[never]))
    assert {each["name"] for each in plan["quantities"]} <= {"salmon", "olive oil"}
    with_milk = {"if_used": ["salmon"], "then_used_allergens": ["milk"]}
    plan = plan_for(client, table({"of": ["salmon"], "at_least": 100}, choices=[with_milk]))
    assert grams(plan, "butter") > 0


def test_a_conflict_names_the_rule_and_what_it_counts(client: httpx2.Client) -> None:
    share = {"id": "fats", "by": "share of energy", "of_food_groups": ["Fats and Oils"], "at_most": 10}
    asked = table(share, {"of": ["olive oil"], "at_least": 100}, {"of": ["*"], "at_most": 150})
    answer = answer_to(client, asked)
    assert answer["outcome"] == "conflict"
    assert "fats: energy of olive oil for the batch, at most 10 %" in {each["text"] for each in answer["members"]}
