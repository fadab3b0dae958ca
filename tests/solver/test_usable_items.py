"""What makes an item of a brief unusable."""

import math
from dataclasses import replace

import pytest

from solver.brief import Brief
from solver.numerics import LARGEST_PORTION_G
from solver.pantry import PantryItem, Step
from solver.usable import refuse_unusable
from solver.usable_items import LARGEST_PRICE_PER_G
from tests.solver.larder import BUTTER, CHICKEN, brief, item
from tests.solver.refusals import only_problem, problems

FRESH = item(BUTTER)
NEGATIVE_OR_BEYOND = "is negative or beyond what can be planned."


def with_butter(changed: PantryItem) -> Brief:
    return brief(item(CHICKEN), changed)


@pytest.mark.parametrize(
    ("field", "changed"),
    [
        ("on_hand", replace(FRESH, on_hand_g=-1.0)),
        ("on_hand", replace(FRESH, on_hand_g=math.nan)),
        ("on_hand", replace(FRESH, on_hand_g=math.inf)),
        ("at_least", replace(FRESH, at_least_g=-1.0)),
        ("at_least", replace(FRESH, at_least_g=math.nan)),
        ("at_least", replace(FRESH, at_least_g=LARGEST_PORTION_G + 1)),
        ("at_most", replace(FRESH, at_most_g=-1.0)),
        ("at_most", replace(FRESH, at_most_g=math.inf)),
        ("least_when_used", replace(FRESH, least_when_used_g=-1.0)),
        ("least_when_used", replace(FRESH, least_when_used_g=LARGEST_PORTION_G + 1)),
        ("step", replace(FRESH, step=Step(1, "vat", LARGEST_PORTION_G + 1))),
        ("price", replace(FRESH, price_per_g=-0.01)),
        ("price", replace(FRESH, price_per_g=LARGEST_PRICE_PER_G * 2)),
    ],
)
def test_an_amount_of_an_item_that_is_no_amount_is_named(field: str, changed: PantryItem) -> None:
    found = only_problem(with_butter(changed))
    assert found == (f"/pantry/1/{field}", "not_an_amount", f"{field} of butter {NEGATIVE_OR_BEYOND}")


def test_the_remedy_says_what_the_most_is_where_there_is_one() -> None:
    (beyond,) = problems(with_butter(replace(FRESH, at_least_g=1e9)))
    assert beyond.remedy == "Give 0 or at most 10000."
    (negative,) = problems(with_butter(replace(FRESH, on_hand_g=-1.0)))
    assert negative.remedy == "Give 0 or more."


@pytest.mark.parametrize(("grams", "code"), [(0.0, "no_step"), (1e-300, "no_step"), (-50.0, "not_an_amount")])
def test_a_step_weighs_something(grams: float, code: str) -> None:
    found = problems(with_butter(replace(FRESH, step=Step(1, "large", grams))))
    assert [problem.code for problem in found if problem.pointer == "/pantry/1/step"] == [code]


@pytest.mark.parametrize(
    ("limited", "limit"), [(replace(FRESH, on_hand_g=50.0), "on_hand"), (replace(FRESH, at_most_g=50.0), "at_most")]
)
def test_at_least_is_not_more_than_there_may_be(limited: PantryItem, limit: str) -> None:
    found = only_problem(with_butter(replace(limited, at_least_g=60.0)))
    assert found == ("/pantry/1/at_least", "crossed_limits", f"butter: at_least is 60 g, but {limit} is 50 g.")


def test_the_smaller_limit_is_the_one_that_is_named() -> None:
    *_, detail = only_problem(with_butter(replace(FRESH, at_least_g=60.0, on_hand_g=55.0, at_most_g=50.0)))
    assert detail == "butter: at_least is 60 g, but at_most is 50 g."


def test_some_multiple_of_the_step_fits_between_least_and_most() -> None:
    found = only_problem(with_butter(replace(FRESH, at_least_g=60.0, on_hand_g=90.0, step=Step(1, "large", 50.0))))
    assert found == ("/pantry/1/step", "no_step_fits", "butter: no multiple of 50 g lies between 60 and 90 g.")
    refuse_unusable(with_butter(replace(FRESH, at_least_g=60.0, on_hand_g=100.0, step=Step(1, "large", 50.0))))


def test_some_amount_that_can_be_printed_fits_between_least_and_most() -> None:
    pointer, code, _ = only_problem(with_butter(replace(FRESH, at_least_g=10.01, on_hand_g=10.09)))
    assert (pointer, code) == ("/pantry/1/step", "no_step_fits")


@pytest.mark.parametrize(
    ("limited", "limit"), [(replace(FRESH, on_hand_g=50.0), "on_hand"), (replace(FRESH, at_most_g=50.0), "at_most")]
)
def test_the_least_when_used_is_not_more_than_there_may_be(limited: PantryItem, limit: str) -> None:
    found = only_problem(with_butter(replace(limited, least_when_used_g=60.0)))
    detail = f"butter: least_when_used is 60 g, but {limit} is 50 g."
    assert found == ("/pantry/1/least_when_used", "crossed_limits", detail)
