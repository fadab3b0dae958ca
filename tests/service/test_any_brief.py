"""Whatever stands in a brief or a dish, the answer is an answer or a refusal, never a fault."""

import json
from copy import deepcopy
from typing import Any

import httpx2
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.service.full import DOCUMENTS, places

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
    | st.sampled_from(["patties", "at the table", "mayonnaise", "stock", "broiled patty", "roasted", "braised"])
    | st.sampled_from(["discarded", "served", "spooned back", "as purchased", "raw", "portion", "<0.5 g", "EU", "US"])
    | st.sampled_from([["patties"], ["at the table", "roast"], [{"allergen": "egg"}], [{"name": "a"}]])
)


@st.composite
def documents(draw: st.DrawFn, address: str) -> dict[str, Any]:
    """One that may be sent to an address, with up to three of its values replaced or taken away."""
    document: dict[str, Any] = deepcopy(draw(st.sampled_from(DOCUMENTS[address])))
    for _ in range(draw(st.integers(1, 3))):
        *above, last = draw(st.sampled_from(list(places(document))))
        holder: Any = document
        for part in above:
            holder = holder[part]
        if isinstance(holder, dict) and draw(st.integers(0, 4)) == 0:
            del holder[last]
        else:
            holder[last] = deepcopy(draw(anything))
    return document


STEADY = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@given(documents("/v1/plans"))
@STEADY
def test_no_brief_is_a_fault(client: httpx2.Client, document: dict[str, Any]) -> None:
    response = client.post("/v1/plans", json=document)
    assert response.status_code in {200, 422}, response.text
    if response.status_code == 200:
        check_plan(response.json())


@given(documents("/v1/breakdowns"))
@STEADY
def test_no_dish_is_a_fault(client: httpx2.Client, document: dict[str, Any]) -> None:
    response = client.post("/v1/breakdowns", json=document)
    assert response.status_code in {200, 422}, response.text
    json.dumps(response.json(), allow_nan=False)


@given(documents("/v1/reach"))
@settings(STEADY, max_examples=60)
def test_no_question_of_reach_is_a_fault(client: httpx2.Client, document: dict[str, Any]) -> None:
    response = client.post("/v1/reach", json=document)
    assert response.status_code in {200, 422}, response.text
    json.dumps(response.json(), allow_nan=False)


def check_plan(answer: dict[str, Any]) -> None:
    """A plan meets its musts by the amounts it prints; everything that goes out is finite JSON."""
    assert answer["outcome"] in {"plan", "conflict", "undecided"}
    json.dumps(answer, allow_nan=False)
    if answer["outcome"] == "plan":
        assert all(target["met"] for target in answer["targets"] if target["priority"] is None)


def test_the_places_of_a_document_are_all_found() -> None:
    assert list(places({"a": [1, {"b": 2}]})) == [("a",), ("a", 0), ("a", 1), ("a", 1, "b")]
