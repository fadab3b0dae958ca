"""Dishes that are asked for in other numbers of portions."""

import json
from pathlib import Path

import httpx2
import pytest

from tests.service.asking import Document, breakdown_of, hold_the_balance


@pytest.fixture
def stock(examples: Path) -> Document:
    body: Document = json.loads((examples / "breakdowns" / "reduced-stock-for-six.json").read_text())
    return body


def texts(answer: Document) -> dict[str, str]:
    return {each["name"]: each["text"] for each in answer["quantities"]}


def test_four_portions_become_six_in_the_same_pot(client: httpx2.Client, stock: Document) -> None:
    """By hand: one and a half times 3 eggs of 50 g are 225 g of beaten egg, and 1 tbsp of butter is 1 1/2."""
    before = breakdown_of(client, {**stock, "scale_to": None})
    after = breakdown_of(client, stock)
    assert after["portions"] == 6
    assert texts(after) == {"water": "2550 g", "chicken thigh": "450 g", "egg": "225 g", "butter": "1 1/2 tbsp"}
    pot, was = after["components"][0], before["components"][0]
    assert pot["evaporated_g"] == pytest.approx(was["evaporated_g"], abs=0.01)
    assert pot["rendered_g"] == pytest.approx(1.5 * was["rendered_g"], abs=0.01)
    assert any("beat enough of it and weigh 225 g" in each for each in after["warnings"])
    hold_the_balance(after)


def test_eggs_stay_whole_where_that_is_near(client: httpx2.Client, stock: Document) -> None:
    """By hand: 8 for 4 are 6 eggs; 7 for 4 are 5.25, and 5 are 4.8 % less."""
    assert texts(breakdown_of(client, {**stock, "scale_to": 8}))["egg"] == "6 large"
    seven = breakdown_of(client, {**stock, "scale_to": 7})
    assert texts(seven)["egg"] == "5 large"
    assert "egg: 5 large in place of 5 1/4 large, 5 % less." in seven["warnings"]


def test_as_many_portions_as_it_makes_are_the_same_dish(client: httpx2.Client, stock: Document) -> None:
    assert breakdown_of(client, {**stock, "scale_to": 4}) == breakdown_of(client, {**stock, "scale_to": None})


@pytest.mark.parametrize("portions", [1, 2, 500])
def test_any_number_of_portions_is_answered(client: httpx2.Client, stock: Document, portions: int) -> None:
    answer = breakdown_of(client, {**stock, "scale_to": portions})
    hold_the_balance(answer)
    assert answer["batch"]["grams"] == pytest.approx(answer["portion"]["grams"] * portions, rel=1e-4)
