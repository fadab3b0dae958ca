import json
from typing import Any

import pytest

from service.lanes import Kind
from service.schemas.brief import BriefBody
from service.weight import guess, kind_of

CASES: list[tuple[dict[str, Any], dict[str, Any]]] = [
    ({"step": "5 g"}, {}),
    ({"least_when_used": "5 g"}, {}),
    ({}, {"alternatives": 1}),
    ({}, {"say_worth": True}),
    *(({}, {"prefer": [counts]}) for counts in ("fewest ingredients", "fewest new purchases", "closest to")),
    ({}, {"components": [{"name": "pan", "method": "broiled patty", "drippings": "discarded"}]}),
    ({}, {"choices": [{"if_used": ["butter"], "then_used": ["spinach"]}]}),
]


def of(brief: dict[str, Any]) -> Kind:
    return kind_of(BriefBody.model_validate(brief))


@pytest.mark.parametrize(("item", "brief"), CASES)
def test_what_may_take_long_is_known_by_its_bytes_and_by_its_fields(
    salmon: dict[str, Any], item: dict[str, Any], brief: dict[str, Any]
) -> None:
    for each in salmon["pantry"]:
        each.pop("step", None)
    assert guess(json.dumps(salmon).encode()) is of(salmon) is Kind.LINEAR
    salmon["pantry"][0].update(item)
    salmon.update(brief)
    assert guess(json.dumps(salmon).encode()) is Kind.STEPPED
    assert of(salmon) is Kind.STEPPED


def test_a_word_that_is_hidden_from_the_guess_is_still_read(salmon: dict[str, Any]) -> None:
    salmon["pantry"][0]["step"] = "5 g"
    hidden = json.dumps(salmon).replace('"step"', '"\\u0073tep"').encode()
    assert guess(hidden) is Kind.LINEAR
    assert of(json.loads(hidden)) is Kind.STEPPED
