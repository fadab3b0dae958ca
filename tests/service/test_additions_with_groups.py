"""What is proposed to be added keeps the rules and choices over groups, over HTTP. Foods are of USDA SR28."""

import httpx2
import pytest

from tests.service.asking import Document, answer_to
from tests.service.briefs import brief, food

#: Kinds of milk among what may be proposed; for the allergen, Regulation (EU) No 1169/2011, Annex II.
OF_MILK = {"butter", "ghee", "cream", "cheese", "milk", "yogurt"}

RICH: Document = {"of": "fat_share_percent", "at_least": 70}
FED: Document = {"of": "protein_g", "at_least": 30}
CALCIUM: Document = {"of": "calcium_mg", "at_least": 900}


def lean(*rules: Document, targets: tuple[Document, ...] = (FED, RICH), **fields: object) -> Document:
    """Chicken breast, too lean for what is asked, and a little butter."""
    butter = food("butter", "01145", on_hand={"value": 1, "unit": "g"})
    return brief(food("chicken", "05062"), butter, targets=list(targets), rules=list(rules), **fields)


def added(client: httpx2.Client, asked: Document) -> list[Document]:
    answer = answer_to(client, {**asked, "time_limit_s": 5})
    assert answer["outcome"] == "conflict", answer["outcome"]
    return list(answer["ways_out"]["additions"])


def counted_g(addition: Document, rule: str) -> float:
    """Grams in the dish of an addition that the rule counts."""
    (said,) = [each for each in addition["dish"]["rules"] if each["id"] == rule]
    return float(sum(each["grams"] for each in addition["dish"]["quantities"] if each["name"] in said["of"]))


def test_without_a_rule_foods_of_milk_are_proposed_for_calcium(client: httpx2.Client) -> None:
    assert {each["kind"] for each in added(client, lean(targets=(FED, CALCIUM)))} & OF_MILK


def test_no_more_of_milk_is_proposed_than_a_rule_over_the_allergen_allows(client: httpx2.Client) -> None:
    little = {"id": "little milk", "of_allergens": ["milk"], "at_most": 10}
    for targets in ((FED, CALCIUM), (FED, RICH)):
        for addition in added(client, lean(little, targets=targets)):
            assert addition["kind"] not in OF_MILK or addition["grams"] <= 10
            assert counted_g(addition, "little milk") <= 10 + 1e-6
    assert added(client, lean(little)), "oil needs no milk"


def test_what_is_added_is_named_among_what_the_rule_counts(client: httpx2.Client) -> None:
    all_of_it = {"id": "a plate", "of": ["*"], "at_most": 400}
    additions = added(client, lean(all_of_it))
    assert additions
    for addition in additions:
        (said,) = addition["dish"]["rules"]
        assert addition["name"] in said["of"]
        assert said["value"] == pytest.approx(sum(each["grams"] for each in addition["dish"]["quantities"]))
        assert said["value"] <= 400


def test_a_plate_that_has_no_room_for_it_gets_no_addition(client: httpx2.Client) -> None:
    # Half of its weight would have to be protein, and most of its energy fat: nothing that is proposed has so much.
    assert added(client, lean({"of": ["*"], "at_most": 60})) == []


def test_a_food_group_counts_what_is_added_of_it(client: httpx2.Client) -> None:
    fats = {"id": "fats", "of_food_groups": ["Dairy and Egg Products"], "at_most": 5}
    for addition in added(client, lean(fats, targets=(FED, CALCIUM))):
        assert counted_g(addition, "fats") <= 5 + 1e-6


def test_where_two_ends_read_the_unknown_differently_nothing_unknown_is_proposed(client: httpx2.Client) -> None:
    band = {"id": "some milk", "of_allergens": ["milk"], "at_least": 0.5, "at_most": 10}
    for addition in added(client, lean(band)):
        assert addition["kind"] not in OF_MILK or addition["grams"] <= 10
        assert counted_g(addition, "some milk") <= 10 + 1e-6


def test_a_choice_of_none_of_an_allergen_lets_none_of_it_be_added(client: httpx2.Client) -> None:
    choice = {"number_of_allergens": ["milk"], "at_most": 0}
    for targets in ((FED, CALCIUM), (FED, RICH)):
        assert not {each["kind"] for each in added(client, lean(targets=targets, choices=[choice]))} & OF_MILK


def test_what_has_milk_is_added_beside_nothing_where_a_choice_keeps_it_apart(client: httpx2.Client) -> None:
    choice = {"if_used": ["*"], "then_not_used_allergens": ["milk"]}
    for targets in ((FED, CALCIUM), (FED, RICH)):
        for addition in added(client, lean(targets=targets, choices=[choice])):
            assert addition["kind"] not in OF_MILK or len(addition["dish"]["quantities"]) == 1


def test_a_number_of_all_items_counts_what_is_added(client: httpx2.Client) -> None:
    additions = added(client, lean(choices=[{"number_of": ["*"], "at_most": 1}]))
    assert additions, "hard goat cheese has both by itself: 30 g protein and 36 g fat in 100 g"
    assert {len(each["dish"]["quantities"]) for each in additions} == {1}


def test_pieces_of_what_has_none_are_not_proposed_and_nothing_breaks(client: httpx2.Client) -> None:
    egg = food("egg", "01123", step={"value": 1, "unit": "large"}, on_hand={"value": 50, "unit": "g"})
    asked = lean({"by": "pieces", "of_allergens": ["egg"], "at_most": 1})
    assert isinstance(added(client, {**asked, "pantry": [*asked["pantry"], egg]}), list)
