"""Whatever stands in a brief, the answer is an answer or a refusal, never a fault."""

import json
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import httpx2
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

EXAMPLES = [
    json.loads(path.read_text()) for path in sorted((Path(__file__).parents[2] / "openapi" / "examples").glob("*.json"))
]

numbers = st.sampled_from([0, -0.0, 1, 2.5, -1, 1e-300, 1e-9, 0.05, 99.9, 100, 1e6, 1e7, 1e15, 1e308, 10**30])
amounts = st.sampled_from(
    ["0 g", "0.1 g", "1 g", "0.04 g", "1000 kg", "1/3 tsp", "2 large", "1 lb 4 oz", "1e9 g", "g", "½"]
)
names = st.sampled_from(["energy_kcal", "fat_share_percent", "ketogenic_ratio", "sodium_mg", "sr28:01123", "", "é"])
anything = (
    st.none()
    | st.booleans()
    | numbers
    | amounts
    | names
    | st.sampled_from([[], {}, [[]], {"value": 1, "unit": "g"}, {"value": 1, "unit": "large"}])
)


def places(value: object, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """Every place in a document where a value stands."""
    parts = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for part, inner in parts:
        yield (*path, part)
        yield from places(inner, (*path, part))


@st.composite
def briefs(draw: st.DrawFn) -> dict[str, Any]:
    """An example brief with up to three of its values replaced."""
    brief: dict[str, Any] = deepcopy(draw(st.sampled_from(EXAMPLES)))
    for _ in range(draw(st.integers(1, 3))):
        *above, last = draw(st.sampled_from(list(places(brief))))
        holder: Any = brief
        for part in above:
            holder = holder[part]
        holder[last] = deepcopy(draw(anything))
    return brief


@given(briefs())
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_no_brief_is_a_fault(client: httpx2.Client, brief: dict[str, Any]) -> None:
    response = client.post("/v1/plans", json=brief)
    assert response.status_code in {200, 422}, response.text
    if response.status_code == 200:
        check_plan(response.json())


def check_plan(answer: dict[str, Any]) -> None:
    """A plan meets its musts by the amounts it prints; everything that goes out is finite JSON."""
    assert answer["outcome"] in {"plan", "conflict", "undecided"}
    json.dumps(answer, allow_nan=False)
    if answer["outcome"] == "plan":
        assert all(target["met"] for target in answer["targets"] if target["priority"] is None)


def test_the_places_of_a_document_are_all_found() -> None:
    assert list(places({"a": [1, {"b": 2}]})) == [("a",), ("a", 0), ("a", 1), ("a", 1, "b")]
