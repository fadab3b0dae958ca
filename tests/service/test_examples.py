import json
from pathlib import Path

import httpx2
import pytest

from service.examples import examples_folder, load_examples
from service.schemas.breakdown_body import BreakdownBody
from service.schemas.brief import BriefBody
from tests.service.asking import breakdown_of, plan_for, told

#: Fields that most briefs do without; the documentation describes them beside the others.
SELDOM = {"collagen_at_most_percent"}


@pytest.mark.parametrize(("folder", "body", "least"), [(".", BriefBody, 14), ("breakdowns", BreakdownBody, 5)])
def test_every_example_keeps_its_schema(folder: str, body: type[BriefBody | BreakdownBody], least: int) -> None:
    found = load_examples(examples_folder() / folder)
    assert len(found) >= least
    for example in found.values():
        assert body.model_validate(example["value"]).title == example["summary"]


def test_the_examples_between_them_show_every_feature(examples: Path) -> None:
    text = "".join(path.read_text() for path in examples.rglob("*.json"))
    for field in ((BriefBody.model_fields.keys() | BreakdownBody.model_fields.keys()) - SELDOM) | {
        *("goes_in", "already_in", "cooked_weight", "drippings_weight", "teaspoons", "drippings", "method", "basis"),
        *("on_hand", "at_least", "at_most", "step", "least_when_used", "price", "aim", "within", "priority"),
        *("layout", "polyols", "allulose_g", "density_g_per_ml", "contains", "without"),
        *("allergen", "food_group", "food", "prescribed", "conditions", "weighed", "minutes", "form"),
        *("cites", "makes", "weighs", "strained_out", "skimmed_fat", "shares", "energy", "pieces", "weight"),
        *("total_carbohydrate_g", "available_carbohydrate_g", "cheapest", "regulation", "ketogenic_ratio"),
    }:
        assert f'"{field}"' in text, field


def said(path: Path) -> str:
    """What an answer to an example is, by its name."""
    kind = path.stem.partition("-")[0]
    return kind if kind in {"conflict", "refused"} else "plan"


def outcome(client: httpx2.Client, job: str, path: Path) -> str:
    response = client.post(f"/v1/{job}", content=path.read_bytes(), headers={"Content-Type": "application/json"})
    if response.status_code == 422:
        assert len(response.json()["problems"]) > 1, "a first brief has more than one thing to mend"
        return "refused"
    return str(told(response).get("outcome", "numbers"))


@pytest.mark.parametrize(("job", "folder"), [("plans", "."), ("reworks", "reworks")])
def test_an_example_is_answered_as_its_name_says(client: httpx2.Client, examples: Path, job: str, folder: str) -> None:
    paths = [*(examples / folder).glob("*.json"), *(examples / "refused" / folder).glob("*.json")]
    assert {path.stem: outcome(client, job, path) for path in paths} == {path.stem: said(path) for path in paths}
    assert {said(path) for path in paths} == {"plan", "conflict", "refused"}


@pytest.mark.parametrize("job", ["reach", "breakdowns"])
def test_an_example_that_is_refused_says_so_in_its_name(client: httpx2.Client, examples: Path, job: str) -> None:
    good, bad = ([*(examples / folder / job).glob("*.json")] for folder in (".", "refused"))
    assert len(good) > 3
    assert {outcome(client, job, path) for path in good} == {"numbers"}
    assert {outcome(client, job, path) for path in bad} == {"refused"}


def test_reach_has_an_example_of_a_polygon_of_a_curve_of_steps_and_of_a_conflict(
    client: httpx2.Client, examples: Path
) -> None:
    found = {
        path.stem: told(client.post("/v1/reach", json=json.loads(path.read_text())))
        for path in (examples / "reach").glob("*.json")
    }
    kinds = {name: (answer["frontier"]["kind"], answer["frontier"].get("in_bands")) for name, answer in found.items()}
    assert set(kinds.values()) == {("polygon", None), ("curve", False), ("curve", True)}
    energy, share, _ = found["conflict-lean-larder"]["ranges"]
    assert energy["least"]["value"] is None
    assert "cannot be met together" in energy["least"]["note"]
    assert share["most"]["value"] < share["at_least"]  # what stands against the other musts, and how far it could go


def test_labels_without_a_word_on_milk_a_group_and_a_named_food_are_left_out(
    client: httpx2.Client, examples: Path
) -> None:
    plan = plan_for(client, json.loads((examples / "without-milk.json").read_text()))
    assert [each["name"] for each in plan["excluded"]] == ["liver spread", "herb butter", "walnuts", "cucumber"]


def test_the_label_that_fits_is_found_no_fault_with_and_is_what_would_be_printed(
    client: httpx2.Client, examples: Path
) -> None:
    dish = json.loads((examples / "breakdowns" / "herb-butter-with-its-label.json").read_text())
    answer, declared = breakdown_of(client, dish), dish["declared"]
    assert answer["findings"] == []
    printed = {line["name"]: line["text"].removesuffix(" kJ").removesuffix(" kcal") for line in answer["nutrition"]}
    declared["carbohydrate_g"] = declared["available_carbohydrate_g"]
    assert printed == {name: str(declared[name]) for name in printed}


def test_a_file_of_the_folder_becomes_an_example_by_its_name(tmp_path: Path) -> None:
    (tmp_path / "soup.json").write_text(json.dumps({"title": "Soup"}))
    assert load_examples(tmp_path) == {"soup": {"summary": "Soup", "value": {"title": "Soup"}}}


def test_an_incomplete_product_is_noticed_at_the_start(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr("service.examples._FOLDERS", (tmp_path / "a", tmp_path / "b"))
    with pytest.raises(FileNotFoundError, match="no example briefs"):
        examples_folder()
