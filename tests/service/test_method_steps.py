"""The steps of the method travel through briefs, dishes and breakdowns unchanged."""

from copy import deepcopy

import httpx2
import pytest

from tests.service.asking import Document, breakdown_of, plan_for, problem_of
from tests.service.briefs import food, from_dish

OWN: list[Document] = [
    {"text": "Fry the eggs.", "minutes": 4, "celsius": 160, "vessel": "iron pan", "until_safe": True},
    {"text": "Spoon the sauce over."},
]


def brief() -> Document:
    return {
        "title": "Eggs under two sauces",
        "dishes": [
            {
                "name": "sauce",
                "ingredients": [food("oil", "04053", amount="100 g"), from_dish("rub", "rub", amount="5 g")],
                "method_steps": [{"text": "Stir the rub into the oil."}],
            },
            {
                "name": "rub",
                "ingredients": [food("paprika", "02028", amount="20 g")],
                "method_steps": [{"text": "Grind.", "vessel": "mortar"}],
            },
            {
                "name": "other sauce",
                "ingredients": [food("butter", "01001", amount="50 g")],
                "method_steps": [{"text": "Never seen."}],
            },
        ],
        "pantry": [
            food("egg", "01123", step="1 large", on_hand="4 large"),
            from_dish("sauce", "sauce", on_hand="50 g", at_least="5 g"),
            from_dish("other", "other sauce", at_most="0 g"),
        ],
        "targets": [{"of": "energy_kcal", "aim": 350, "within": 60}],
        "method_steps": OWN,
    }


def test_steps_come_back_after_those_of_the_dishes_in_use(client: httpx2.Client) -> None:
    steps = plan_for(client, brief())["method_steps"]
    assert [(step["dish"], step["text"]) for step in steps] == [
        ("rub", "Grind."),
        ("sauce", "Stir the rub into the oil."),
        (None, "Fry the eggs."),
        (None, "Spoon the sauce over."),
    ]
    assert {field: steps[2][field] for field in OWN[0]} == OWN[0]
    assert steps[3]["minutes"] is None
    assert steps[3]["until_safe"] is False


def test_a_breakdown_gives_them_back_as_well(client: httpx2.Client) -> None:
    dish = {"title": "An egg", "ingredients": [food("egg", "01123", amount="1 large")], "method_steps": OWN}
    assert [step["text"] for step in breakdown_of(client, dish)["method_steps"]] == [step["text"] for step in OWN]


@pytest.mark.parametrize(
    ("step", "field", "code"),
    [
        ({"text": "Fry.", "component": "pan"}, "component", "unknown_component"),
        ({"text": "  "}, "text", "blank"),
        ({"text": "Fry.\nTurn."}, "text", "not_printable"),
        ({"text": "Fry.", "vessel": "\u0007"}, "vessel", "not_printable"),
    ],
)
def test_a_step_that_cannot_be_printed_or_is_about_nothing_is_refused(
    client: httpx2.Client, step: Document, field: str, code: str
) -> None:
    own = {**brief(), "method_steps": [step]}
    (problem,) = problem_of(client, own)["problems"]
    assert (problem["pointer"], problem["code"]) == (f"/method_steps/0/{field}", code)
    inside = deepcopy(brief())
    inside["dishes"][1]["method_steps"] = [step]
    (problem,) = problem_of(client, inside)["problems"]
    assert problem["pointer"] == f"/dishes/1/method_steps/0/{field}"
