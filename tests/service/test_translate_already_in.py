"""What is in already stays as it is, in the words that it was written in."""

import httpx2
import pytest

from tests.service.asking import plan_for
from tests.service.briefs import Document, brief, food, grams, mince, tallow, two_parts
from tests.service.conftest import Refusals, Translate


def test_the_amount_is_settled(translate: Translate) -> None:
    (eggs,) = translate(brief(food("eggs", "01123", already_in="2 large"))).pantry
    assert (eggs.on_hand_g, eggs.at_least_g, eggs.at_most_g) == (100, 100, 100)
    assert eggs.step is not None
    assert (eggs.step.amount, eggs.step.unit, eggs.step.grams) == (2, "large", 100)


@pytest.mark.parametrize(
    ("written", "printed", "weight_g"),
    [
        ("1 large", "1 large", 50),
        ("2 lb", "2 lb", 2 * 453.59237),
        ("3/4 lb", "3/4 lb", 0.75 * 453.59237),
        ("123.456 g", "123.456 g", 123.456),
        ("1 lb 4 oz", "566.99 g", 453.59237 + 4 * 28.349523125),
    ],
)
def test_it_is_printed_as_it_was_written_and_never_rounded(
    client: httpx2.Client, written: str, printed: str, weight_g: float
) -> None:
    # The avoirdupois pound and ounce (UCUM 2.2); a large egg is 50 g (USDA SR28, WEIGHT).
    eggs = brief(food("eggs", "01123", already_in=written), food("butter", "01001"), portions=1)
    plan = plan_for(client, eggs)
    (shown,) = [each for each in plan["quantities"] if each["name"] == "eggs"]
    assert shown["text"] == printed
    assert shown["grams"] == pytest.approx(weight_g, abs=1e-6)


@pytest.mark.parametrize("field", ["on_hand", "at_least", "at_most", "step", "least_when_used"])
def test_a_limit_beside_it_is_refused(refusals: Refusals, field: str) -> None:
    eggs = food("eggs", "01123", already_in="2 large", **{field: "100 g"})
    assert refusals(brief(eggs)) == [(f"/pantry/0/{field}", "already_in_and_limits")]


def test_it_cannot_be_in_several_components(refusals: Refusals) -> None:
    document = two_parts(mince(), tallow(already_in="20 g"))
    assert refusals(document) == [("/pantry/1/goes_in", "already_in_several")]


@pytest.mark.parametrize(
    ("amount", "code"), [("0 g", "not_positive"), ("some", "unreadable_amount"), ("3 handfuls", "unknown_measure")]
)
def test_an_amount_that_cannot_be_is_refused(refusals: Refusals, amount: str, code: str) -> None:
    assert refusals(brief(food("eggs", "01123", already_in=amount))) == [("/pantry/0/already_in", code)]


def test_what_is_missing_is_found_around_it(client: httpx2.Client) -> None:
    wanted: Document = {"of": "energy_kcal", "aim": 700, "within": 5}
    plan = plan_for(
        client, brief(food("eggs", "01123", already_in="2 large"), food("butter", "01001"), targets=[wanted])
    )
    assert grams(plan, "eggs") == 100
    # 4-9-4 over USDA SR28: 100 g egg 138.7 kcal, butter 7.336 kcal a gram.
    assert grams(plan, "butter") == pytest.approx((700 - 138.7) / 7.336, abs=0.8)


def test_a_price_beside_it_still_counts(client: httpx2.Client) -> None:
    eggs = food("eggs", "01123", already_in="2 large", price={"amount": 3.6, "per": "12 large"})
    butter = food("butter", "01001", price={"amount": 10, "per": "1 kg"})
    plan = plan_for(client, brief(eggs, butter))
    assert plan["cost"] == pytest.approx(0.6 + grams(plan, "butter") * 0.01, abs=1e-6)


@pytest.mark.parametrize(("amount", "portions"), [("11 kg", 1), ("21 kg", 2), ("0.001 g", 1)])
def test_more_than_any_kitchen_has_in_is_refused_where_it_stands(
    refusals: Refusals, amount: str, portions: int
) -> None:
    document = brief(food("eggs", "01123", already_in=amount), portions=portions)
    assert refusals(document) == [("/pantry/0/already_in", "not_an_amount")]
