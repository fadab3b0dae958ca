import json
from pathlib import Path

import pytest

from service.examples import examples_folder, load_examples
from service.schemas.brief import BriefBody


def test_every_example_is_a_brief_by_the_schema() -> None:
    found = load_examples(examples_folder())
    assert len(found) >= 6
    for example in found.values():
        assert BriefBody.model_validate(example["value"]).title == example["summary"]


def test_the_examples_between_them_show_every_feature(examples: Path) -> None:
    text = "".join(path.read_text() for path in examples.glob("*.json"))
    for field in (BriefBody.model_fields.keys() - {"count_missing_as", "time_limit_s"}) | {
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
