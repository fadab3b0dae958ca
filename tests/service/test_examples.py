import json
from pathlib import Path

import pytest

from service.examples import examples_folder, load_examples
from service.schemas.breakdown_body import BreakdownBody
from service.schemas.brief import BriefBody

#: Fields that most briefs do without; the documentation describes them beside the others.
SELDOM = {"count_missing_as", "time_limit_s", "safe_temperatures", "collagen_at_most_percent", "exclude", "eater"}


@pytest.mark.parametrize(("folder", "body", "least"), [(".", BriefBody, 8), ("breakdowns", BreakdownBody, 2)])
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
        *("layout", "polyols", "allulose_g", "density_g_per_ml"),
        *("total_carbohydrate_g", "available_carbohydrate_g", "cheapest", "regulation", "ketogenic_ratio"),
    }:
        assert f'"{field}"' in text, field


def test_a_file_of_the_folder_becomes_an_example_by_its_name(tmp_path: Path) -> None:
    (tmp_path / "soup.json").write_text(json.dumps({"title": "Soup"}))
    assert load_examples(tmp_path) == {"soup": {"summary": "Soup", "value": {"title": "Soup"}}}


def test_an_incomplete_product_is_noticed_at_the_start(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr("service.examples._FOLDERS", (tmp_path / "a", tmp_path / "b"))
    with pytest.raises(FileNotFoundError, match="no example briefs"):
        examples_folder()
