"""Any document of a dish to be made anew, with anything wrong in it, is answered and never a fault."""

from typing import Any

import httpx2
from hypothesis import given, settings

from tests.service.full import FULL_REWORK
from tests.service.test_any_brief import STEADY, documents


def test_the_full_rework_is_answered(client: httpx2.Client) -> None:
    response = client.post("/v1/reworks", json=FULL_REWORK)
    assert response.status_code == 200, response.text
    assert response.json()["outcome"] in {"plan", "conflict"}


@given(documents("/v1/reworks"))
@settings(STEADY, max_examples=60)
def test_no_rework_is_a_fault(client: httpx2.Client, document: dict[str, Any]) -> None:
    response = client.post("/v1/reworks", json=document)
    assert response.status_code in {200, 422}, response.text
