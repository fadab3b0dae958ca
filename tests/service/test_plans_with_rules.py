"""Briefs with rules of the dish over HTTP and in the terminal, with the numbers that a cook knows.

The bands are common practice, no source; foods are of USDA SR28.
"""

import json

import httpx2
import pytest

from service.schemas.answer import ConflictAnswer, PlanAnswer
from service.schemas.rules import RuleBody
from service.text import readable
from solver.catalogue import Catalogue
from tests.service.asking import Document, answer_to, places_of, plan_for, problem_of
from tests.service.briefs import brief, food, grams
from tests.service.conftest import Run
from tests.service.full import FULL_BRIEF
from tests.service.hostile import problem

LOAF: Document = {"name": "loaf", "method": "baked loaf"}

BINDER: Document = {"cites": "binder", "of": ["egg"], "to": ["mince"]}

FED: Document = {"of": "energy_kcal", "at_least": 1}


def loaf(*rules: Document, **fields: object) -> Document:
    """600 g of mince and 200 g of bacon in the bowl; eggs and salt as the rules have them."""
    pantry = [
        food("mince", "23572", already_in="600 g"),
        food("bacon", "10123", already_in="200 g"),
        food("egg", "01123", step="1 large"),
        food("salt", "02047"),
    ]
    return brief(*pantry, components=[LOAF], portions=6, rules=list(rules), **{"targets": [FED], **fields})


def said(answer: Document, name: str) -> Document:
    """What an answer says of a rule."""
    (rule,) = [rule for rule in answer["rules"] if rule["id"] == name]
    return dict(rule)


def test_a_loaf_takes_an_egg_for_its_mince_and_the_salt_that_the_bacon_does_not_bring(
    client: httpx2.Client, catalogue: Catalogue
) -> None:
    # 0.07 to 0.11 of 600 g are 42 to 66 g: one egg of 50 g. Of 850 g with 1.5 % salt, all sources counted.
    salt = {"cites": "salt of patties", "of": ["*"], "to": ["*"], "at_least": 0.015, "at_most": 0.0151}
    plan = plan_for(client, loaf(BINDER, salt))
    assert grams(plan, "egg") == 50
    sodium_mg = {name: catalogue.food(f"sr28:{number}").value("sodium_mg") for name, number in SODIUM_OF.items()}
    brought = 2.5 * (6 * sodium_mg["mince"] + 2 * sodium_mg["bacon"] + 0.5 * sodium_mg["egg"]) / 1000
    pure = 2.5 * sodium_mg["salt"] / 1000 / 100
    least, most = ((end * 850 - brought) / (pure - end) for end in (0.015, 0.0151))
    assert least - 0.05 <= grams(plan, "salt") <= most + 0.05
    # Roughly: 12 g in all for the meat, bacon brings about 3.5, which leaves 8.5; mince and egg bring 1.2 more of it.
    assert 2.5 * 2 * sodium_mg["bacon"] / 1000 == pytest.approx(3.5, abs=0.3)
    assert grams(plan, "salt") == pytest.approx(8.5, abs=0.6)
    assert 0.015 <= said(plan, "salt of patties")["value"] <= 0.0151


SODIUM_OF = {"mince": "23572", "bacon": "10123", "egg": "01123", "salt": "02047"}


def test_a_tray_holds_nine_hundred_grams_and_no_more(client: httpx2.Client) -> None:
    asked = loaf(BINDER, {"id": "the tray", "of": ["*"], "component": "loaf", "at_most": 900})
    asked["pantry"][0] = food("mince", "23572", on_hand="2 kg")
    asked["targets"] = [{"of": "protein_g", "per": "batch", "basis": "raw", "at_least": 1000, "priority": 1}]
    plan = plan_for(client, {**asked, "targets": [*asked["targets"], FED]})
    tray = said(plan, "the tray")
    assert sum(each["grams"] for each in plan["quantities"]) == pytest.approx(900, abs=1e-6)
    assert (tray["value"], tray["met"], tray["binding"], tray["unit"]) == (900, True, True, "g")


def mayonnaise(*rules: Document) -> Document:
    """100 g that are to hold 86 g of fat, which no emulsion bears (it breaks above about 85 % oil)."""
    pantry = [food("oil", "04053"), food("yolk", "01125", at_least="5 g"), food("vinegar", "02053", at_least="2 g")]
    whole = {"id": "a jar", "of": ["*"], "at_least": 100, "at_most": 100}
    fat = {"of": "fat_g", "at_least": 88, "at_most": 92}
    return brief(*pantry, rules=[whole, *rules], targets=[FED, fat])


def test_an_emulsion_whose_macros_fit_and_that_would_break_is_no_plan_and_the_rule_says_why(
    client: httpx2.Client,
) -> None:
    broken = plan_for(client, mayonnaise())
    assert grams(broken, "oil") > 85, "the numbers alone would be met"
    answer = answer_to(client, mayonnaise({"cites": "mayonnaise", "of": ["oil"], "to": ["*"]}))
    assert answer["outcome"] == "conflict"
    assert answer["irreducible"]
    sentences = {member["name"]: member["text"] for member in answer["members"] if member["kind"] == "rule"}
    assert sentences["mayonnaise"] == "mayonnaise: oil to oil, vinegar, yolk, 0.7 to 0.8 g/g"
    assert "fat_g" in {member["name"] for member in answer["members"]}


def test_a_mayonnaise_of_the_trade_is_a_plan(client: httpx2.Client) -> None:
    asked = mayonnaise({"cites": "mayonnaise", "of": ["oil"], "to": ["*"]})
    asked["targets"][1] = {"of": "fat_g", "at_least": 80, "at_most": 82}
    plan = plan_for(client, asked)
    assert 70 <= grams(plan, "oil") <= 80
    assert said(plan, "mayonnaise")["cites"] == "mayonnaise: oil to the whole (kitchen-rules)"


def test_a_conflict_says_amounts_salt_and_components_in_the_briefs_own_words(client: httpx2.Client) -> None:
    salt = {"id": "brine", "by": "salt", "of": ["mince", "bacon"], "component": "loaf", "at_most": 1}
    answer = answer_to(client, loaf(salt))
    assert [member["text"] for member in answer["members"] if member["kind"] == "rule"] == [
        "brine: salt of bacon, mince for the batch, in loaf, at most 1 g"
    ]
    assert said(answer["nearest"], "brine")["miss"] > 3


def test_a_wish_that_cannot_be_had_is_missed_and_the_plan_stands(client: httpx2.Client) -> None:
    plan = plan_for(client, loaf({**BINDER, "at_least": 0.2, "priority": 1}, {"of": ["egg"], "at_most": 50}))
    wish = said(plan, "binder")
    assert (wish["met"], wish["priority"], wish["binding"]) == (False, 1, False)
    assert wish["miss"] == pytest.approx(0.2 - 50 / 600, abs=1e-6)


def test_an_item_of_unknown_salt_is_left_out_and_said_to_be_unless_the_brief_says_how_to_count_it(
    client: httpx2.Client,
) -> None:
    label = {"kind": "label", "per": "100 g", "fat_g": 30, "protein_g": 15, "total_carbohydrate_g": 1, "fibre_g": 0}
    asked = loaf({"cites": "salt of patties", "of": ["*"], "to": ["*"]})
    asked["pantry"].append({"name": "farm sausage", "source": label})
    plan = plan_for(client, asked)
    assert plan["left_out"] == [{"name": "farm sausage", "lacks": ["sodium_mg"]}]
    counted = plan_for(client, {**asked, "count_missing_as": {"sodium_mg": 700}})
    assert counted["left_out"] == []


@pytest.mark.parametrize(
    ("rule", "refused"),
    [
        ({"of": ["lard"], "at_most": 1}, ("/rules/0/of/0", "unknown_item")),
        ({"of": ["egg"], "to": ["mince"], "cites": "glue"}, ("/rules/0/cites", "unknown_trade_rule")),
        ({"of": ["egg"], "cites": "binder"}, ("/rules/0/to", "cites_a_ratio")),
        ({"of": ["egg"]}, ("/rules/0", "no_band")),
        ({"of": ["egg"], "at_least": 2, "at_most": 1}, ("/rules/0/at_least", "crossed_band")),
        ({"of": ["egg"], "id": "energy_kcal", "at_most": 1}, ("/rules/0/id", "repeated_id")),
    ],
)
def test_a_rule_that_cannot_be_used_is_refused_with_a_pointer(
    client: httpx2.Client, rule: Document, refused: tuple[str, str]
) -> None:
    assert places_of(problem_of(client, loaf(rule))) == [refused]


def test_a_rule_about_a_component_that_its_items_do_not_go_into_is_refused(client: httpx2.Client) -> None:
    asked = loaf({"of": ["egg"], "component": "sauce", "at_most": 1})
    asked["components"] = [LOAF, {"name": "sauce"}]
    asked["pantry"] = [{**item, "goes_in": ["loaf"]} for item in asked["pantry"]]
    assert places_of(problem_of(client, asked)) == [("/rules/0/of", "empty_group")]


@pytest.mark.parametrize("end", [0, 1e-300, 1e-7, 1e-6, 1e-3, 1e3, 1e6, 1e7, 1e7 + 1, 1e308, -1, True, "1"])
@pytest.mark.parametrize("field", ["at_least", "at_most"])
def test_an_end_beyond_all_food_is_refused_or_answered(client: httpx2.Client, field: str, end: object) -> None:
    for related in ({}, {"to": ["*"]}, {"to": ["mince"], "by": "salt"}):
        response = client.post("/v1/plans", json=loaf({"of": ["egg", "salt"], field: end, **related}))
        if response.status_code != 200:
            pointers = [each["pointer"] for each in problem(response, 422)["problems"]]
            assert pointers == [f"/rules/0/{field}"]


def test_the_terminal_shows_each_rule_with_its_value_its_band_and_its_verdict(larderline: Run) -> None:
    rules = [BINDER, {"id": "the tray", "of": ["*"], "at_most": 900}, {"id": "eggs", "of": ["egg"], "at_most": 1000}]
    asked = loaf(*rules, targets=[FED, {"of": "protein_g", "at_least": 500, "priority": 1}])
    asked["pantry"][0] = food("mince", "23572", on_hand="2 kg")
    ran = larderline("plan", "-", stdin=json.dumps(asked))
    assert ran.returncode == 0, ran.stderr
    shown = ran.stdout.partition("\nRules\n")[2].partition("\n\n")[0].splitlines()
    cells = [[cell.strip() for cell in line.split("  ") if cell.strip()] for line in shown]
    binder, tray, eggs = cells
    assert (binder[0], binder[2]) == ("binder", "0.07 to 0.11 g/g")
    assert tray == ["the tray", "900 g", "at most 900 g", "met, at its limit"]
    assert (eggs[0], eggs[2:]) == ("eggs", ["at most 1000 g", "met"])


def test_the_terminal_names_the_rule_of_a_conflict(client: httpx2.Client) -> None:
    answer = answer_to(client, mayonnaise({"cites": "mayonnaise", "of": ["oil"], "to": ["*"]}))
    text = readable(ConflictAnswer.model_validate(answer))
    assert "  - mayonnaise: oil to oil, vinegar, yolk, 0.7 to 0.8 g/g\n" in text


def test_the_terminal_shows_how_far_a_ratio_misses_however_small_it_is(client: httpx2.Client) -> None:
    salt = {"cites": "salt of patties", "of": ["mince", "bacon"], "to": ["mince", "bacon"], "at_least": 0.0085}
    answer = answer_to(client, loaf(salt))
    missed = said(answer["nearest"], "salt of patties")
    assert 0 < missed["miss"] < 0.005, "two decimals would say that it misses by nothing"
    text = readable(ConflictAnswer.model_validate(answer))
    assert f"MISSED by {missed['miss']:.4f}".rstrip("0") + " g/g" in text


def test_without_rules_the_terminal_has_no_heading_for_them(client: httpx2.Client) -> None:
    assert "\nRules\n" not in readable(PlanAnswer.model_validate(plan_for(client, loaf())))


def test_every_field_of_a_rule_stands_in_the_brief_that_holds_everything() -> None:
    fields: set[str] = set().union(*(rule.keys() for rule in FULL_BRIEF["rules"]))
    assert fields == set(RuleBody.model_fields)
