"""POST /v1/reworks over HTTP: a dish is made anew after tasting, and whatever cannot be read is refused."""

import json
from collections.abc import Callable
from copy import deepcopy
from pathlib import Path
from subprocess import CompletedProcess

import httpx2
import pytest

from service.schemas.rework import ReworkAnswer
from service.text_rework import readable_rework
from tests.service.asking import Document, told

Run = Callable[..., CompletedProcess[str]]

FOLDER = Path(__file__).parents[2] / "openapi" / "examples" / "reworks"
RICHER, DRY, NO_DAIRY = (
    json.loads((FOLDER / f"{name}.json").read_text())
    for name in ("soup-made-richer", "patties-too-dry", "mash-without-dairy")
)


def made_anew(client: httpx2.Client, document: Document) -> Document:
    return told(client.post("/v1/reworks", json=document))


def amounts(dish: Document) -> dict[tuple[str, str], tuple[float, str]]:
    return {(each["name"], each["component"]): (each["grams"], each["text"]) for each in dish["quantities"]}


def hold_together(answer: Document) -> None:
    """What is not among the changes is the same to the gram and in the same words; every change has its reason."""
    assert answer["outcome"] == answer["answer"]["outcome"] == "plan", answer["answer"].get("members")
    before, after = amounts(answer["before"]), amounts(answer["answer"])
    changed = {(each["name"], each["component"]) for each in answer["changes"]}
    for use in before.keys() | after.keys():
        if use not in changed:
            assert before[use] == after[use], use
    for each in answer["changes"]:
        assert each["before_grams"] != each["after_grams"]
        assert each["why"]
        assert all(why["text"] for why in each["why"])
    assert all(target["met"] for target in answer["answer"]["targets"])
    assert answer["distance"]["total"] == pytest.approx(
        answer["distance"]["changed"] + answer["distance"]["relative"], abs=1e-5
    )


def change_of(answer: Document, name: str) -> Document:
    found: Document = next(each for each in answer["changes"] if each["name"] == name)
    return found


def test_made_richer_after_tasting(client: httpx2.Client) -> None:
    answer = made_anew(client, RICHER)
    hold_together(answer)
    lemon, rind = change_of(answer, "lemon juice"), change_of(answer, "lemon rind")
    # A tablespoon of lemon juice weighs 15.25 g (SR28: 1 cup 244 g); a fifth more, and about half of 6 g of rind.
    assert lemon["after_grams"] == pytest.approx(1.2 * 15.25, abs=0.05)
    assert 2.4 <= rind["after_grams"] <= 3.6
    assert (lemon["before"], lemon["known"]) == ("1 tbsp", "tasted")
    assert [why["because"] for why in lemon["why"]] == ["asked by the cook"]
    assert [why["text"] for why in rind["why"]] == ["said 2: about half as much lemon rind"]
    cream = change_of(answer, "cream")["why"][0]
    assert cream["text"].endswith(f", this one at {answer['distance']['total']:.2f}")
    kept = {each["name"]: each["text"] for each in answer["answer"]["quantities"]}
    assert (kept["butter"], kept["egg yolk"], kept["salt"]) == ("2 tbsp", "2 large", "1 1/2 tsp")
    named = {member["name"] for each in answer["changes"] for why in each["why"] for member in why["members"]}
    assert "fat_share_percent" in named
    by_id = {target["id"]: target for target in answer["before"]["targets"]}
    assert not by_id["fat_share_percent"]["met"]


def test_as_text_an_amount_that_was_only_tasted_is_told(client: httpx2.Client) -> None:
    lines = readable_rework(ReworkAnswer.model_validate(made_anew(client, RICHER))).splitlines()
    assert [line for line in lines if line.endswith(", only tasted before")] == [
        "  lemon juice in the dish: 1 tbsp -> 18.3 g, only tasted before",
        "  lemon rind in the dish: 6 g (about 1 tbsp) -> 3.6 g (about 1 3/4 tsp), only tasted before",
    ]


def test_too_dry_is_mended_in_the_mix(client: httpx2.Client) -> None:
    answer = made_anew(client, DRY)
    hold_together(answer)
    assert answer["fix"]["where"] == "mix"
    assert answer["fix"]["component"] == "patties"
    cream = change_of(answer, "cream")
    assert [why["because"] for why in cream["why"]] == ["mends what was tasted"]
    assert cream["after_grams"] >= 1.2 * cream["before_grams"] - 0.1
    spooned = {part["name"]: part["spoon_back"] for part in answer["answer"]["components"] if part["name"] == "patties"}
    assert spooned["patties"] == "3 tsp"


def test_too_dry_is_mended_from_the_pan_where_the_mix_has_nothing_to_take(client: httpx2.Client) -> None:
    document = deepcopy(DRY)
    cream = next(item for item in document["brief"]["pantry"] if item["name"] == "cream")
    cream["goes_in"] = ["at the table"]
    document["brief"]["base"] = [each for each in document["brief"]["base"] if each.get("item") != "cream"]
    answer = made_anew(client, document)
    hold_together(answer)
    assert answer["fix"]["where"] == "pan"
    drippings = change_of(answer, "drippings of patties")
    # At least a fifth more than three teaspoons is four of them.
    assert (drippings["before"], drippings["after_grams"] > drippings["before_grams"]) == ("3 tsp", True)


def test_greasy_is_mended_by_spooning_less_back(client: httpx2.Client) -> None:
    answer = made_anew(client, {**DRY, "reason": "greasy"})
    hold_together(answer)
    assert (answer["fix"]["where"], answer["fix"]["what"]) == ("pan", "less of the drippings spooned back")
    assert change_of(answer, "drippings of patties")["after"] in {"2 tsp", "1 tsp", "none"}


def test_salty_lowers_the_share_of_salt_from_all_sources(client: httpx2.Client) -> None:
    document = {**RICHER, "said": [], "reason": "salty"}
    answer = made_anew(client, document)
    hold_together(answer)
    share = next(rule for rule in answer["answer"]["rules"] if rule["id"] == "salty: salt of all sources")
    assert share["met"]
    assert "sodium_mg" in answer["answer"]["raw"]["nutrients"]
    was, now = (
        dish["raw"]["nutrients"]["sodium_mg"] / dish["raw"]["grams"] for dish in (answer["before"], answer["answer"])
    )
    assert now <= 0.8 * was + 1e-6


def test_bland_asks_for_more_salt_acid_or_spice(client: httpx2.Client) -> None:
    answer = made_anew(client, {**RICHER, "said": [], "reason": "bland"})
    hold_together(answer)
    assert answer["fix"]["where"] == "sauce"
    mended = [each for each in answer["changes"] if each["why"][0]["because"] == "mends what was tasted"]
    assert mended
    assert {each["name"] for each in mended} <= {"salt", "lemon juice", "lemon rind"}


def test_the_dairy_left_out(client: httpx2.Client) -> None:
    answer = made_anew(client, NO_DAIRY)
    hold_together(answer)
    assert {each["name"] for each in answer["answer"]["excluded"]} == {"butter", "cream"}
    for name in ("butter", "cream"):
        gone = change_of(answer, name)
        assert gone["after"] == "none"
        assert [why["because"] for why in gone["why"]] == ["left out by exclude"]
    fats = [each["name"] for each in answer["changes"] if each["before"] == "none"]
    assert fats
    assert set(fats) <= {"olive oil", "lard"}
    milk = [
        each for each in answer["answer"]["allergens"] if each["allergen"] == "milk" and each["statement"] == "contains"
    ]
    assert milk == []


def test_a_conflict_names_what_the_cook_says_and_its_ways_out(client: httpx2.Client) -> None:
    document = deepcopy(RICHER)
    names = [each["item"] for each in document["brief"]["base"]]
    document["said"] = [{"says": "keep", "of": [name]} for name in names]
    answer = made_anew(client, document)
    assert answer["outcome"] == "conflict"
    assert answer["changes"] == []
    assert answer["distance"] is None
    texts = [member["text"] for member in answer["answer"]["members"]]
    assert any("keep leek" in text for text in texts), texts
    assert answer["answer"]["ways_out"] is not None


def test_a_plan_may_stay_close_to_a_base_dish_too(client: httpx2.Client) -> None:
    plan = told(client.post("/v1/plans", json=RICHER["brief"]))
    assert plan["outcome"] == "plan"
    assert plan["proof"]["levels"][0]["level"] == "closest to"
    kept = {each["name"]: each["text"] for each in plan["quantities"]}
    assert kept["salt"] == "1 1/2 tsp"


def test_plans_carry_their_cautions(client: httpx2.Client) -> None:
    """Yolks that nothing cooks."""
    assert "raw_egg" in {each["code"] for each in made_anew(client, RICHER)["answer"]["cautions"]}


def test_the_command_line_says_the_same(client: httpx2.Client, larderline: Run) -> None:
    file = "openapi/examples/reworks/patties-too-dry.json"
    printed = json.loads(larderline("rework", "--json", file).stdout)
    served = made_anew(client, DRY)
    assert printed["changes"] == served["changes"]
    done = larderline("rework", file)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("It was dry: more fat or liquid in the mix (patties).\n\nWhat changes\n")
    for words in ("A portion, before and after", "Everything else stays as it was.", "Weigh out, before cooking"):
        assert words in done.stdout
    wrong = larderline("rework", "-", stdin=json.dumps({**DRY, "said": [{"says": "more"}]}))
    assert wrong.returncode == 2
    assert wrong.stderr.startswith("/said/0: ")


@pytest.mark.parametrize("path", sorted(FOLDER.glob("[!c]*.json")), ids=lambda path: path.stem)  # no conflict-*
def test_every_example_but_a_conflict_has_a_dish(client: httpx2.Client, path: Path) -> None:
    hold_together(made_anew(client, json.loads(path.read_text())))
