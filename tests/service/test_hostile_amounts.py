"""Amounts and bands beyond all food: each is refused where it stands, or planned with."""

import json
from copy import deepcopy
from typing import Any

import httpx2
import pytest

from tests.service.full import DECLARED, FULL_BREAKDOWNS, FULL_BRIEF
from tests.service.hostile import Document, problem


def with_item(salmon: Document, **changes: object) -> Document:
    return {**salmon, "pantry": [{**salmon["pantry"][0], **changes}, *salmon["pantry"][1:]]}


@pytest.mark.parametrize("value", [1e308, -1e308, -0.001, 10**400])
@pytest.mark.parametrize("field", ["on_hand", "at_least", "at_most", "step", "least_when_used"])
def test_an_amount_beyond_all_food_is_refused_or_planned_with(
    client: httpx2.Client, salmon: Document, field: str, value: float
) -> None:
    brief = with_item(salmon, **{field: {"value": value, "unit": "kg"}})
    response = client.post("/v1/plans", json=brief)
    if response.status_code == 200:
        assert field in {"on_hand", "at_most"}, "more than anybody needs is no limit"
    else:
        assert [each["pointer"].split("/")[3] for each in problem(response, 422)["problems"]] == [field]


@pytest.mark.parametrize(
    ("field", "refused_at"),
    [
        ("at_least", None),
        ("least_when_used", None),
        ("on_hand", "/pantry/0/at_least"),  # 120 g are asked for
        ("at_most", "/pantry/0/at_least"),
        ("step", "/pantry/0/step"),  # nothing can be counted in it
    ],
)
def test_an_amount_too_small_for_any_scale_is_no_fault(
    client: httpx2.Client, salmon: Document, field: str, refused_at: str | None
) -> None:
    response = client.post("/v1/plans", json=with_item(salmon, **{field: {"value": 5e-324, "unit": "kg"}}))
    if refused_at is None:
        assert response.status_code == 200, response.text
    else:
        assert [each["pointer"] for each in problem(response, 422)["problems"]] == [refused_at]


@pytest.mark.parametrize("digits", ["9" * 90, "9" * 5000, "1e308", "1/" + "9" * 80, "0x10", "٣", "1_000"])
def test_an_amount_in_words_beyond_all_food_is_refused_or_planned_with(
    client: httpx2.Client, salmon: Document, digits: str
) -> None:
    response = client.post("/v1/plans", json=with_item(salmon, at_least=f"{digits} g"))
    if response.status_code != 200:
        assert "9999" not in json.dumps(problem(response, 422))


@pytest.mark.parametrize("value", [1e308, 1e7 + 1, -1.0])
@pytest.mark.parametrize("field", ["aim", "at_least", "at_most"])
def test_a_band_beyond_all_food_is_refused(client: httpx2.Client, salmon: Document, field: str, value: float) -> None:
    brief = {**salmon, "targets": [{"of": "energy_kcal", field: value}]}
    assert problem(client.post("/v1/plans", json=brief), 422)["problems"][0]["pointer"] == f"/targets/0/{field}"


#: Where an amount stands in the documents that hold everything.
AMOUNTS: list[tuple[str, tuple[str | int, ...]]] = [
    ("/v1/plans", ("components", 1, "cooked_weight")),
    ("/v1/plans", ("pantry", 3, "already_in")),
    ("/v1/plans", ("dishes", 0, "ingredients", 0, "amount")),
    ("/v1/plans", ("dishes", 0, "makes")),
    ("/v1/plans", ("dishes", 0, "weighs")),
    ("/v1/plans", ("dishes", 1, "discarded", 0, "amount")),
    ("/v1/plans", ("dishes", 2, "makes")),
    ("/v1/plans", ("dishes", 2, "skimmed_fat")),
    ("/v1/breakdowns", ("ingredients", 0, "amount")),
    ("/v1/breakdowns", ("ingredients", 2, "amount")),
    ("/v1/breakdowns", ("components", 1, "cooked_weight")),
    ("/v1/breakdowns", ("components", 1, "drippings_weight")),
    ("/v1/breakdowns", ("division", "portions", 0, "weight")),
    ("/v1/breakdowns", ("declared", "per")),
]


@pytest.mark.parametrize("value", [1e308, -1e308, 10**400, 1e6, 1e4, 1e-3, 1e-12, 5e-324, 0])
@pytest.mark.parametrize(("address", "path"), AMOUNTS)
def test_wherever_an_amount_stands_it_is_refused_there_or_counted(
    client: httpx2.Client, address: str, path: tuple[str | int, ...], value: float
) -> None:
    document = deepcopy(FULL_BRIEF if address == "/v1/plans" else BY_WEIGHT)
    *above, last = path
    holder: Any = document
    for part in above:
        holder = holder[part]
    holder[last] = {"value": value, "unit": "kg"}
    response = client.post(address, json=document)
    if response.status_code != 200:
        assert "9999" not in json.dumps(problem(response, 422))


#: The full dish that is divided by weight.
BY_WEIGHT = FULL_BREAKDOWNS[1]


@pytest.mark.parametrize("value", [1e308, -1.0, 1e7, 10**400, 1e6, 1e-300, 0])
@pytest.mark.parametrize("field", sorted(DECLARED.keys() - {"per", "layout", "factors_kcal_per_g"}))
def test_a_declared_number_beyond_all_food_is_refused_or_doubted(
    client: httpx2.Client, field: str, value: float
) -> None:
    declared = {**DECLARED, field: {"fat": value} if field == "energy_distribution_percent" else value}
    for per in ("portion", "100 g"):
        response = client.post("/v1/breakdowns", json={**BY_WEIGHT, "declared": {**declared, "per": per}})
        if response.status_code != 200:
            pointers = {each["pointer"] for each in problem(response, 422)["problems"]}
            assert {pointer.removesuffix("/fat") for pointer in pointers} == {f"/declared/{field}"}


@pytest.mark.parametrize("field", ["age_years", "weight_kg", "meals_per_day"])
@pytest.mark.parametrize("value", [1e308, -1.0, 0, 1e-300, 130.5, True])
def test_an_eater_beyond_all_people_is_refused_or_cautioned(client: httpx2.Client, field: str, value: float) -> None:
    for address, document in (("/v1/plans", FULL_BRIEF), ("/v1/breakdowns", BY_WEIGHT)):
        response = client.post(address, json={**document, "eater": {field: value}})
        if response.status_code != 200:
            assert {each["pointer"] for each in problem(response, 422)["problems"]} == {f"/eater/{field}"}
