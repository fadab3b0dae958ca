"""Amounts times a factor: known cases by hand. Weights of pieces and spoons are those of USDA SR28.

Where whole eggs give way to beaten egg is our choice; that they do is common practice, no source.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.amounts import parse_amount
from solver.catalogue import Catalogue
from solver.measures import grams, text_of
from solver.pantry import Step
from solver.scaling_amounts import MOST_OFF, ScaledAmount, is_counted, scaled_amount

EGG, BUTTER, GARLIC, WATER, SALT = "sr28:01123", "sr28:01001", "sr28:11215", "sr28:14411", "sr28:02047"


def scaled(catalogue: Catalogue, food_id: str, amount: str, factor: float) -> ScaledAmount:
    food, parts = catalogue.food(food_id), parse_amount(amount)
    weight = grams(parts, food)
    return scaled_amount(food, weight, Step(parts[0].value, parts[0].unit, weight), factor)


def text(amount: ScaledAmount) -> str:
    assert amount.words is not None
    assert amount.words.grams == amount.grams
    return text_of(amount.words.amount, amount.words.unit)


@pytest.mark.parametrize(
    ("food_id", "amount", "factor", "told"),
    [
        (EGG, "2 large", 1.5, ("3 large", 150.0)),  # 50 g each
        (EGG, "4 large", 1.25, ("5 large", 250.0)),
        (EGG, "3 large", 1.75, ("5 large", 250.0)),  # 5.25 eggs, 4.8 % less
        (EGG, "1 large", 0.5, ("25 g", 25.0)),  # half an egg
        (EGG, "3 large", 1.5, ("225 g", 225.0)),  # 4.5 eggs: 4 or 5 are 11 % off
        (EGG, "1 large", 0.05, ("2.5 g", 2.5)),
        (EGG, "1/2 large", 3.0, ("1 1/2 large", 75.0)),  # whoever halves one may halve another
        (GARLIC, "2 cloves", 1.5, ("3 cloves", 9.0)),  # 3 g each
        (BUTTER, "1 tbsp", 2.0, ("2 tbsp", 28.4)),  # 14.2 g
        (BUTTER, "1 tbsp", 4.0, ("1/4 cup", 56.75)),  # a cup is 227 g
        (BUTTER, "1 lb", 0.5, ("226.8 g", 226.8)),
        (BUTTER, "150 g", 0.333, ("50 g", 50.0)),  # 49.95 g
        (SALT, "3 g", 0.25, ("0.75 g", 0.75)),
        (WATER, "2 dl", 1.5, ("300 ml", 300.0)),
    ],
)
def test_amounts_are_such_as_a_kitchen_can_take(
    catalogue: Catalogue, food_id: str, amount: str, factor: float, told: tuple[str, float]
) -> None:
    found = scaled(catalogue, food_id, amount, factor)
    assert text(found) == told[0]
    assert found.grams == pytest.approx(told[1], rel=0.005)


def test_half_an_egg_is_beaten_and_weighed_and_says_so(catalogue: Catalogue) -> None:
    assert scaled(catalogue, EGG, "1 large", 0.5).note == (
        "1/2 large cannot be measured closely enough: beat enough of it and weigh 25 g"
    )


def test_whole_eggs_say_how_far_off_they_are_and_nothing_where_they_are_exact(catalogue: Catalogue) -> None:
    assert scaled(catalogue, EGG, "3 large", 1.75).note == "5 large in place of 5 1/4 large, 5 % less"
    assert scaled(catalogue, EGG, "2 large", 1.5).note is None


@given(st.floats(0.5, 400, allow_subnormal=False), st.floats(0.05, 20))
def test_there_and_back_is_the_same_where_nothing_is_rounded(
    catalogue: Catalogue, weight_g: float, factor: float
) -> None:
    food = catalogue.food(BUTTER)
    there = scaled_amount(food, weight_g, None, factor)
    assert there.words is None
    assert scaled_amount(food, there.grams, None, 1 / factor).grams == pytest.approx(weight_g, rel=1e-12)


@given(
    st.sampled_from([EGG, BUTTER, GARLIC, WATER, SALT]),
    st.sampled_from(["1 cup", "2 tbsp", "1/2 tsp", "120 g", "3 oz", "2 large", "5 cloves", "1 l"]),
    st.integers(1, 40),
    st.integers(1, 40),
)
def test_no_amount_is_further_off_than_is_said(
    catalogue: Catalogue, food_id: str, amount: str, portions: int, before: int
) -> None:
    food, parts = catalogue.food(food_id), parse_amount(amount)
    if ("large" in amount) != (food_id == EGG) or ("clove" in amount) != (food_id == GARLIC):
        return
    weight = grams(parts, food)
    words = Step(parts[0].value, parts[0].unit, weight)
    found = scaled_amount(food, weight, words, portions / before)
    assert found.grams > 0
    assert abs(found.off) <= MOST_OFF + 1e-9
    assert found.exact_g == pytest.approx(weight * portions / before)
    if found.words is not None and is_counted(found.words):
        assert found.words.amount == int(found.words.amount)
    if portions == before:
        assert (found.grams, found.words, found.note) == (weight, words, None)
