"""Asks the running service, and holds what comes back to the form that it must have."""

from typing import Any, TypeAlias

import httpx2
import pytest

Document: TypeAlias = dict[str, Any]

EVIDENCE = {"measured", "matched", "estimated"}


def answer_to(client: httpx2.Client, brief: Document) -> Document:
    """The answer to a brief."""
    return told(client.post("/v1/plans", json=brief))


def plan_for(client: httpx2.Client, brief: Document) -> Document:
    """The plan for a brief that has one."""
    answer = answer_to(client, brief)
    assert answer["outcome"] == "plan", answer.get("members")
    return answer


def breakdown_of(client: httpx2.Client, dish: Document) -> Document:
    """The numbers of a dish."""
    return told(client.post("/v1/breakdowns", json=dish))


def told(response: httpx2.Response) -> Document:
    """What a service says that does not refuse."""
    assert response.status_code == 200, response.text
    document: Document = response.json()
    return document


def problem_of(client: httpx2.Client, brief: object, status: int = 422) -> Document:
    """The problem document that a brief is refused with."""
    return refusal(client.post("/v1/plans", json=brief), status)


def places_of(document: Document) -> list[tuple[str, str]]:
    """Each pointer of a problem document with its code."""
    return [(problem["pointer"], problem["code"]) for problem in document["problems"]]


def refusal(response: httpx2.Response, status: int = 422) -> Document:
    """A problem document; RFC 9457, section 3.1, has its members."""
    assert response.status_code == status, response.text
    assert response.headers["content-type"] == "application/problem+json"
    document: Document = response.json()
    assert document["status"] == status
    assert all(isinstance(document[member], str) for member in ("type", "title", "detail"))
    assert all(set(problem) == {"pointer", "code", "type", "detail", "remedy"} for problem in document["problems"])
    return document


def hold_the_balance(dish: Document) -> None:
    """raw = cooked + rendered + evaporated, fat = kept + rendered, rendered = returned + lost, each to 1e-6."""
    for part in dish["components"]:
        assert part["raw_g"] == pytest.approx(part["cooked_g"] + part["rendered_g"] + part["evaporated_g"], abs=3e-6)
        assert part["fat_g"] == pytest.approx(part["fat_kept_g"] + part["rendered_g"], abs=3e-6)
        assert part["rendered_g"] == pytest.approx(part["returned_g"] + part["lost_g"], abs=3e-6)
        assert part["eaten_g"] == pytest.approx(part["cooked_g"] + part["returned_g"], abs=3e-6)
        assert sum(item["raw_g"] for item in part["items"]) == pytest.approx(part["raw_g"], abs=1e-5)
        assert sum(item["rendered_g"] for item in part["items"]) == pytest.approx(part["rendered_g"], abs=1e-5)
        assert {part["cooked_weight_is"], part["rendered_is"]} <= EVIDENCE
        assert min(part["cooked_g"], part["rendered_g"], part["evaporated_g"], part["lost_g"]) >= -1e-6
    lost = sum(part["lost_g"] for part in dish["components"])
    assert dish["raw"]["nutrients"]["fat_g"] - dish["batch"]["nutrients"]["fat_g"] == pytest.approx(lost, abs=1e-5)
    assert dish["batch"]["grams"] == pytest.approx(sum(part["eaten_g"] for part in dish["components"]), abs=1e-5)
