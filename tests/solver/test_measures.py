"""Amounts weighed for foods of USDA SR28; the weights in the tests are those of its measures (WEIGHT file)."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.amounts import LONGEST_TEXT, Amount
from solver.catalogue import Catalogue
from solver.errors import AmountError
from solver.foods import Food, Measure
from solver.measures import grams, measures_of
from solver.units import OUNCE, POUND
from tests.solver.weighing import (
    BUTTER,
    CHEDDAR,
    EGG,
    FOODS,
    GARLIC,
    HEAVY_CREAM,
    OLIVE_OIL,
    SALT,
    TALLOW,
    measured,
    weigh,
    weighed_or_refused,
)


@pytest.mark.parametrize(
    ("food_id", "text", "weight_g"),
    [
        (BUTTER, "1 1/2 tbsp", 1.5 * 14.2),
        (BUTTER, "½ cup", 113.5),
        (BUTTER, "2 sticks", 226),
        (BUTTER, "3 pats", 15),
        (BUTTER, "250 g", 250),
        (BUTTER, "1 lb 4 oz", 20 * 28.349523125),
        (EGG, "6 large", 300),
        (EGG, "2 Extra Large", 112),
        (EGG, "1 cup", 243),
        (CHEDDAR, "2 cups, shredded", 226),
        (CHEDDAR, "2 shredded cups", 226),
        (CHEDDAR, "1 cup (diced)", 132),
        (CHEDDAR, "1 slice", 28),
        (CHEDDAR, "3 oz", 3 * 28.349523125),
        (OLIVE_OIL, "2 tbsp", 27),
        (TALLOW, "1 cup", 205),
        (GARLIC, "1 clove", 3),
        (GARLIC, "4 cloves", 12),
        (SALT, "2 dashes", 0.8),
        (HEAVY_CREAM, "1 cup", 238),
        (HEAVY_CREAM, "1 cup, fluid", 238),
        (HEAVY_CREAM, "1 cup whipped", 120),
        (HEAVY_CREAM, "1 cup 2 tbsp", 268),
    ],
)
def test_amounts_are_weighed_by_the_measures_of_the_food(
    catalogue: Catalogue, food_id: str, text: str, weight_g: float
) -> None:
    assert weigh(text, catalogue.food(food_id)) == pytest.approx(weight_g, rel=1e-12)


def test_weights_are_exact_and_never_the_rounded_ones_of_the_table(catalogue: Catalogue) -> None:
    cheddar = catalogue.food(CHEDDAR)
    assert Measure(1.0, "oz", 28.35) in cheddar.measures
    assert weigh("16 oz", cheddar) == POUND.size
    assert weigh("1 oz", measured()) == OUNCE.size


def test_no_amount_at_all_is_refused() -> None:
    with pytest.raises(AmountError):
        grams((), measured())


def test_every_measure_of_the_table_is_read_back_to_its_weight(catalogue: Catalogue) -> None:
    """Within the 5 % by which rows of one measure may be rounded apart; weights are exact, contradictions refused."""
    for food_id in catalogue.ids:
        weighed = catalogue.food(food_id)
        for measure in weighed.measures:
            weight = weighed_or_refused(f"{measure.amount:.6g} {measure.unit}", weighed)
            if isinstance(weight, AmountError):
                assert weight.code == "ambiguous_measure"
                assert contradicted(measure, weighed), (food_id, measure)
                continue
            own = {"oz": OUNCE.size, "lb": POUND.size, "g": 1.0}.get(measure.unit.casefold())
            expected = measure.grams if own is None else own * measure.amount
            assert weight == pytest.approx(expected, rel=0.05), (food_id, measure)


def contradicted(measure: Measure, weighed: Food) -> bool:
    """Whether the food lists the same measure with another weight."""
    each = [m.grams / m.amount for m in weighed.measures if m.unit.casefold() == measure.unit.casefold()]
    return max(each) > 1.05 * min(each)


@given(food_id=st.sampled_from(FOODS), parts=st.lists(st.tuples(st.floats(0, 1000), st.integers(0, 20)), min_size=1))
def test_the_weight_of_parts_is_the_sum_of_their_weights(
    catalogue: Catalogue, food_id: str, parts: list[tuple[float, int]]
) -> None:
    food = catalogue.food(food_id)
    units = measures_of(food)
    amounts = tuple(Amount(value, units[place % len(units)]) for value, place in parts)
    assert grams(amounts, food) == pytest.approx(sum(grams((amount,), food) for amount in amounts))


@given(food_id=st.sampled_from(FOODS), value=st.floats(0, 1000), factor=st.floats(0, 1000), place=st.integers(0, 20))
def test_weight_grows_in_proportion(
    catalogue: Catalogue, food_id: str, value: float, factor: float, place: int
) -> None:
    weighed = catalogue.food(food_id)
    unit = measures_of(weighed)[place % len(measures_of(weighed))]
    scaled = grams((Amount(value * factor, unit),), weighed)
    assert scaled == pytest.approx(factor * grams((Amount(value, unit),), weighed))


@given(
    food_id=st.sampled_from(FOODS),
    text=st.text(max_size=LONGEST_TEXT).map("2 ".__add__) | st.from_regex("[0-9] [a-z]+"),
)
def test_any_text_is_weighed_or_refused(catalogue: Catalogue, food_id: str, text: str) -> None:
    weight = weighed_or_refused(text, catalogue.food(food_id))
    if isinstance(weight, AmountError):
        assert weight.code in {"unreadable_amount", "unknown_measure", "ambiguous_measure", "no_density"}
    else:
        assert math.isfinite(weight)
        assert weight >= 0
