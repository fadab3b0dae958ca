"""What a brief says beside its numbers: dishes in the pantry, what is left out, who eats, collagen, and the basis."""

from typing import Any

import httpx2
import pytest

from solver.eater import Eater
from solver.targets import WeightBasis
from tests.service.asking import answer_to, places_of, plan_for, problem_of
from tests.service.briefs import Document, brief, food, from_dish, grams, mince, two_parts
from tests.service.conftest import Read, Refusals, Translate

MILK = [{"allergen": "milk"}]
LABEL = {"kind": "label", "per": "100 g", "fat_g": 30, "protein_g": 20, "total_carbohydrate_g": 1}
TIN = {"name": "tin", "source": LABEL}
OIL, BUTTER = food("oil", "04053"), food("butter", "01001")
CIRCLE = "/dishes/0/ingredients/0/source/name"
RUB: Document = {
    "name": "red rub",
    "ingredients": [
        {**food("paprika", "02028"), "amount": "30 g"},
        {**food("salt", "02047"), "amount": "10 g"},
    ],
}


def test_a_dish_of_the_brief_may_be_in_the_pantry(translate: Translate) -> None:
    (rub,) = translate(brief(from_dish("rub", "red rub", on_hand="40 g"), dishes=[RUB])).pantry
    # By hand from USDA SR28, NUT_DATA: salt has 38.758 g sodium in 100 g, paprika 68 mg.
    assert rub.food.value("sodium_mg") == pytest.approx((30 * 68 + 10 * 38758) / 40)


def test_a_plan_weighs_a_dish_like_any_food(client: httpx2.Client) -> None:
    document = brief(from_dish("rub", "red rub", at_least="8 g", at_most="8 g"), OIL, dishes=[RUB])
    plan = plan_for(client, document)
    assert grams(plan, "rub") == 8
    # The oil has 2 mg in 100 g.
    assert plan["batch"]["nutrients"]["sodium_mg"] == pytest.approx(
        0.2 * (30 * 0.68 + 10 * 387.58) + 0.02 * grams(plan, "oil"), abs=1e-4
    )


@pytest.mark.parametrize(
    ("fields", "pointer", "code"),
    [
        ({"pantry": [from_dish("rub", "blue rub")]}, "/pantry/0/source/name", "unknown_dish"),
        ({"dishes": [{**RUB, "ingredients": [from_dish("x", "red rub", amount="1 g")]}]}, CIRCLE, "dish_circle"),
        ({"dishes": [RUB, {**RUB, "name": "Red rub"}]}, "/dishes/1/name", "repeated_name"),
    ],
)
def test_what_is_wrong_with_a_dish_is_refused_where_it_stands(
    refusals: Refusals, fields: Document, pointer: str, code: str
) -> None:
    document = brief(from_dish("rub", "red rub"), OIL, dishes=[RUB])
    assert refusals({**document, **fields}) == [(pointer, code)]


def test_butter_is_left_out_for_milk_and_so_is_what_nobody_has_spoken_of(read: Read) -> None:
    asked = read(brief(OIL, BUTTER, TIN, exclude=MILK))
    assert [(each.item, each.why) for each in asked.excluded] == [
        ("butter", "contains milk"),
        ("tin", "nobody has said whether it contains milk"),
    ]
    assert asked.brief.leave_out == {"butter", "tin"}


def test_what_is_unknown_stays_where_the_brief_allows_it_and_a_note_says_so(client: httpx2.Client) -> None:
    allowed = [{"allergen": "milk", "unknown": "allowed"}]
    answer = answer_to(client, brief(OIL, BUTTER, TIN, exclude=allowed))
    assert [each["name"] for each in answer["excluded"]] == ["butter"]
    assert [warning for warning in answer["warnings"] if "nobody has said" in warning and "tin" in warning]


def test_a_plan_uses_nothing_that_is_left_out_and_says_why(client: httpx2.Client) -> None:
    rub = from_dish("ghee rub", "rub with butter")
    with_butter = {"name": "rub with butter", "ingredients": [{**BUTTER, "amount": "10 g"}, *RUB["ingredients"]]}
    plan = plan_for(client, brief(OIL, BUTTER, rub, exclude=MILK, dishes=[with_butter]))
    assert [each["name"] for each in plan["quantities"]] == ["oil"]
    assert {each["name"]: each["why"] for each in plan["excluded"]} == {
        "butter": "contains milk",
        "ghee rub": "contains milk, in its ingredient Butter, salted",
    }


@pytest.mark.parametrize(("field", "amount"), [("at_least", "20 g"), ("already_in", "1 tbsp")])
def test_an_item_that_is_needed_and_left_out_is_refused(refusals: Refusals, field: str, amount: str) -> None:
    document = brief(OIL, {**BUTTER, field: amount}, exclude=MILK)
    assert refusals(document) == [(f"/pantry/1/{field}", "excluded_item_needed")]


def test_a_pantry_of_which_nothing_is_left_is_refused(refusals: Refusals) -> None:
    assert refusals(brief(BUTTER, TIN, exclude=MILK)) == [("/exclude", "nothing_left")]


def test_an_unknown_allergen_speaks_together_with_the_rest(refusals: Refusals) -> None:
    document = brief({**OIL, "on_hand": "some"}, exclude=[{"allergen": "gluten"}, {"food_group": "dairy"}])
    assert refusals(document) == [
        ("/exclude/0/allergen", "unknown_allergen"),
        ("/exclude/1/food_group", "unknown_food_group"),
        ("/pantry/0/on_hand", "unreadable_amount"),
    ]


def test_who_eats_and_whose_chart_arrive(read: Read) -> None:
    asked = read(brief(OIL, eater={"age_years": 42, "conditions": ["insulin"]}, safe_temperatures="uk"))
    assert asked.eater == Eater(age_years=42, conditions=("insulin",))
    assert asked.profile == "uk"
    assert (read(brief(OIL)).eater, read(brief(OIL)).profile) == (None, "us consumer")


def test_the_chart_that_is_chosen_is_the_one_that_speaks(client: httpx2.Client) -> None:
    for profile, degrees in (("us consumer", "71.2 °C"), ("us retail", "68.4 °C"), ("uk", "70 °C")):
        answer = answer_to(client, two_parts(mince(), safe_temperatures=profile))
        (told,) = [caution for caution in answer["cautions"] if caution["code"] == "safe_temperature"]
        assert degrees in told["text"]


THERAPY = {"of": "ketogenic_ratio", "aim": 3}


@pytest.mark.parametrize(
    "eater", [{"age_years": 5}, {"conditions": ["ketogenic_therapy"]}, {"age_years": 17.9, "weight_kg": 50}]
)
def test_a_child_s_therapy_is_declined_without_a_prescription(client: httpx2.Client, eater: Document) -> None:
    document = brief(OIL, food("egg", "01123"), targets=[{"of": "energy_kcal", "aim": 300}, THERAPY], eater=eater)
    assert places_of(problem_of(client, document)) == [("/eater", "therapy_without_prescription")]
    document["eater"] = {**eater, "prescribed": True}
    assert places_of(problem_of(client, document)) == [("/eater/prescribed", "prescription_incomplete")]
    # A 3:1 unit has 31 kcal (clinical nutrition manual of 2013, p. E-15): protein and carbohydrate are 300 / 31 g.
    document["targets"] += [{"of": "protein_g", "aim": 9.2}]
    plan_for(client, document)


def test_an_adult_s_ratio_is_planned(client: httpx2.Client) -> None:
    targets = [{"of": "energy_kcal", "aim": 300}, THERAPY]
    plan_for(client, brief(OIL, food("egg", "01123"), targets=targets, eater={"age_years": 40}))


def test_a_curing_salt_is_no_variable(refusals: Refusals) -> None:
    cure = {"name": "curing salt", "source": {"kind": "label", "per": "100 g", "sodium_mg": 36000}}
    assert refusals(brief(OIL, {**cure, "at_most": "3 g"})) == [("/pantry/1", "curing_salt_varies")]


@pytest.mark.parametrize(("said", "part"), [({}, 0.2), ({"collagen_at_most_percent": 100}, 1.0)])
def test_collagen_counts_for_so_much_of_the_protein(translate: Translate, said: dict[str, Any], part: float) -> None:
    assert translate(brief(OIL, **said)).collagen_part == part


def test_gelatine_alone_is_no_protein_unless_the_brief_says_so(client: httpx2.Client) -> None:
    targets = [{"of": "protein_g", "at_least": 20}, {"of": "energy_kcal", "at_most": 300}]
    gelatine = food("gelatine", "19177")
    # Alone it counts for nothing: a fifth of the protein that counts, of which the rest is none.
    assert answer_to(client, brief(gelatine, OIL, targets=targets))["outcome"] == "conflict"
    plan = plan_for(client, brief(gelatine, OIL, targets=targets, collagen_at_most_percent=100))
    assert plan["batch"]["nutrients"]["protein_g"] >= 20


def test_a_target_may_be_of_what_was_weighed_out(translate: Translate, client: httpx2.Client) -> None:
    raw = {"of": "fat_g", "per": "batch", "basis": "raw", "aim": 270, "within": 1}
    document = two_parts(mince(), targets=[raw])
    assert translate(document).targets[0].basis is WeightBasis.RAW
    plan = plan_for(client, document)
    # 900 g of mince with 30 % fat: 270 g on the board, and far less on the plate.
    assert grams(plan, "mince") == pytest.approx(900, abs=4)
    assert plan["raw"]["nutrients"]["fat_g"] == pytest.approx(plan["targets"][0]["value"], abs=1e-6)
    assert plan["targets"][0]["basis"] == "raw"
    assert plan["batch"]["nutrients"]["fat_g"] < 250
