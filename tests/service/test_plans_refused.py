"""Briefs that contradict themselves, in what only the solver sees: its pointers are those of the document."""

import httpx2
import pytest

from tests.service.asking import Document, problem_of


def test_what_belongs_to_another_address_is_not_called_misspelt(client: httpx2.Client, salmon: Document) -> None:
    document = client.post("/v1/plans", json={"brief": salmon, "of": ["protein_g"]}).json()
    remedies = {each["pointer"]: each["remedy"] for each in document["problems"]}
    assert remedies["/brief"] == "Remove the field, or mend its spelling."


@pytest.mark.parametrize(
    ("changes", "pointer"),
    [
        ({"targets": [{"of": "protein_g", "at_least": 40, "at_most": 30}]}, "/targets/0/at_least"),
        ({"targets": [{"of": "fat_share_percent", "at_most": 101}]}, "/targets/0/at_most"),
        ({"prefer": ["cheapest"]}, "/pantry/0"),
    ],
)
def test_a_brief_that_contradicts_itself_is_refused(
    client: httpx2.Client, salmon: Document, changes: Document, pointer: str
) -> None:
    document = problem_of(client, {**salmon, **changes})
    assert pointer in [problem["pointer"] for problem in document["problems"]]


def test_a_brief_that_an_empty_plate_would_meet_is_refused(client: httpx2.Client, salmon: Document) -> None:
    for item in salmon["pantry"]:
        item.pop("at_least", None)
    document = problem_of(client, {**salmon, "targets": [{"of": "available_carbohydrate_g", "at_most": 5}]})
    assert [problem["pointer"] for problem in document["problems"]] == ["/targets"]


@pytest.mark.parametrize(
    ("limits", "pointer"),
    [
        ({"at_least": "301 g"}, "/pantry/0/at_least"),
        ({"at_least": "110 g", "step": "200 g"}, "/pantry/0/step"),
        ({"least_when_used": "400 g"}, "/pantry/0/least_when_used"),
    ],
)
def test_amounts_that_leave_no_room_are_refused(
    client: httpx2.Client, salmon: Document, limits: Document, pointer: str
) -> None:
    salmon["pantry"][0] |= {"on_hand": "300 g", "at_most": "190 g" if "step" in limits else "300 g", **limits}
    document = problem_of(client, salmon)
    assert pointer in [problem["pointer"] for problem in document["problems"]]


def test_schema_and_meaning_are_refused_alike(client: httpx2.Client, salmon: Document) -> None:
    by_schema = problem_of(client, {**salmon, "portions": True})
    by_meaning = problem_of(client, {**salmon, "time_limit_s": 31})
    assert by_schema["type"] == by_meaning["type"]
    assert by_schema["title"] == by_meaning["title"]
