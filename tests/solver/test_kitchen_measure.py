"""From grams to the measure a cook would use, for foods of USDA SR28 by their own measures (WEIGHT file)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.amounts import parse_amount
from solver.catalogue import Catalogue
from solver.kitchen_measure import NEARNESS
from solver.measures import grams, kitchen_measure, text_of
from tests.solver.weighing import BUTTER, CHEDDAR, EGG, GARLIC, HEAVY_CREAM, SALT, measured

GROUND_BEEF = "sr28:23572"
LIGHT_WHIPPING_CREAM = "sr28:01052"
SLICED_CHEDDAR = "sr28:01270"
DILL_PICKLES = "sr28:11937"


@pytest.mark.parametrize(
    ("food_id", "weight_g", "text", "own_g"),
    [
        (BUTTER, 14.2, "1 tbsp", 14.2),
        (BUTTER, 113, "1/2 cup", 113.5),  # not a stick, which weighs 113 but is a pack
        (BUTTER, 21, "1 1/2 tbsp", 21.3),
        (BUTTER, 5, "1 tsp", 14.2 / 3),  # not a pat
        (BUTTER, 100, "7 tbsp", 99.4),
        (BUTTER, 340, "1 1/2 cups", 340.5),
        (EGG, 50, "1 large", 50),
        (EGG, 44, "1 medium", 44),
        (EGG, 300, "6 large", 300),
        (EGG, 25, "1 1/2 tbsp", 1.5 * 243 / 16),  # half an egg is beaten egg
        (GARLIC, 6, "2 cloves", 6),
        (GARLIC, 3, "1 clove", 3),
        (SALT, 1.5, "1/4 tsp", 1.5),
        (SALT, 0.8, "1/8 tsp", 0.75),
        (HEAVY_CREAM, 120, "1/2 cup", 119),
        (HEAVY_CREAM, 330, "1 1/3 cups", 4 / 3 * 238),  # poured; "2 3/4 cups, whipped" would be nearer by weight
        (LIGHT_WHIPPING_CREAM, 330, "1 1/3 cups", 4 / 3 * 239),
        (CHEDDAR, 28, "1 slice", 28),
        (CHEDDAR, 196, "7 slices", 196),  # not "7 slices (1 oz)", which is one ounce of slices to whoever reads it
        (SLICED_CHEDDAR, 196, "7 slices (1 oz each)", 196),  # which is sold in slices of three sizes
        (DILL_PICKLES, 200, "1 1/4 cups (about 23 slices each)", 1.25 * 155),
        (CHEDDAR, 244, "1 cup, melted", 244),
    ],
)
def test_a_cook_would_use(catalogue: Catalogue, food_id: str, weight_g: float, text: str, own_g: float) -> None:
    measure = kitchen_measure(weight_g, catalogue.food(food_id))
    assert measure is not None
    assert measure.text == text
    assert measure.grams == pytest.approx(own_g, rel=1e-12)


@pytest.mark.parametrize(
    ("food_id", "weight_g"),
    [(SALT, 0.4), (GROUND_BEEF, 500), (BUTTER, 1e9), (BUTTER, 0), (BUTTER, -1), (BUTTER, float("nan"))],
)
def test_there_is_none_where_nothing_fits(catalogue: Catalogue, food_id: str, weight_g: float) -> None:
    assert kitchen_measure(weight_g, catalogue.food(food_id)) is None


def test_a_piece_that_differs_from_animal_to_animal_is_no_measure() -> None:
    assert kitchen_measure(200, measured((1, "steak", 200), name="steak")) is None


@given(
    food_id=st.sampled_from([BUTTER, EGG, CHEDDAR, GARLIC, SALT, HEAVY_CREAM]),
    weight_g=st.floats(0.1, 3000),
)
def test_its_text_reads_back_to_its_own_weight_and_lies_near(
    catalogue: Catalogue, food_id: str, weight_g: float
) -> None:
    food = catalogue.food(food_id)
    measure = kitchen_measure(weight_g, food)
    if measure is not None:
        assert grams(parse_amount(measure.text), food) == pytest.approx(measure.grams, rel=1e-12)
        assert measure.grams == pytest.approx(weight_g, rel=NEARNESS[-1] + 1e-12)


@pytest.mark.parametrize("food_id", [BUTTER, EGG, HEAVY_CREAM, GARLIC])
def test_a_kitchen_measure_is_its_own_kitchen_measure(catalogue: Catalogue, food_id: str) -> None:
    food = catalogue.food(food_id)
    for weight_g in (5.0, 15.0, 33.0, 50.0, 120.0, 240.0, 700.0):
        first = kitchen_measure(weight_g, food)
        if first is not None:
            again = kitchen_measure(first.grams, food)
            assert again is not None
            assert again.grams == pytest.approx(first.grams, rel=NEARNESS[0])


def test_every_food_of_the_table_reads_back(catalogue: Catalogue) -> None:
    found = 0
    for food_id in catalogue.ids[::40]:
        food = catalogue.food(food_id)
        for weight_g in (1.5, 14.0, 57.0, 333.0):
            measure = kitchen_measure(weight_g, food)
            if measure is not None:
                found += 1
                assert grams(parse_amount(measure.text), food) == pytest.approx(measure.grams, rel=1e-12)
    assert found > 100


@pytest.mark.parametrize(
    ("amount", "unit", "text"),
    [
        (2, "large", "2 large"),
        (1.5, "tbsp", "1 1/2 tbsp"),
        (3, "cup, shredded", "3 cups, shredded"),
        (0.5, "cup", "1/2 cup"),
        (0.5, "cups", "1/2 cup"),
        (2 / 3, "cup", "2/3 cup"),
        (0.125, "tsp", "1/8 tsp"),
        (1, "clove", "1 clove"),
        (3, "clove", "3 cloves"),
        (1, "cloves", "1 clove"),
        (2, "leaf", "2 leaves"),
        (1, "slice (1 oz)", "1 slice (1 oz)"),
        (2, "slice (1 oz)", "2 slices (1 oz each)"),
        (2, 'slice (4" x 4" x 1/8" thick)', '2 slices (4" x 4" x 1/8" thick each)'),
        (2, "cup, fluid (yields 2 cups whipped)", "2 cups, fluid (yields 2 cups whipped)"),
        (0.7, "g", "0.7 g"),
        (0.2, "tbsp", "0.2 tbsp"),
        (12.25, "g", "12.25 g"),
        (4.5, "oz", "4 1/2 oz"),
        (123456, "g", "123456 g"),
        (0.00001, "g", "0.00001 g"),
        (2.9999999999, "tbsp", "3 tbsp"),
        (6, "", "6"),
        (0, "g", "0 g"),
    ],
)
def test_text_of_an_amount(amount: float, unit: str, text: str) -> None:
    assert text_of(amount, unit) == text


@given(eighths=st.integers(1, 800), unit=st.sampled_from(["cup", "tbsp", "clove", "leaf", "large"]))
def test_text_of_kitchen_fractions_reads_back_exactly(eighths: int, unit: str) -> None:
    (read,) = parse_amount(text_of(eighths / 8, unit))
    assert read.value == eighths / 8


def test_what_is_only_known_by_the_cup_of_pieces_has_no_spoons(catalogue: Catalogue) -> None:
    roasted_breast = catalogue.food("sr28:05064")  # its cup is "chopped or diced"
    assert kitchen_measure(17.5, roasted_breast) is None
    half_cup = kitchen_measure(70, roasted_breast)
    assert half_cup is not None
    assert half_cup.text == "1/2 cup, chopped or diced"


def test_leaves_are_not_counted(catalogue: Catalogue) -> None:
    spinach = kitchen_measure(60, catalogue.food("sr28:11457"))
    assert spinach is not None
    assert spinach.text == "2 cups"
