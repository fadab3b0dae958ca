"""Dishes of a brief as foods: what a kitchen writes of them, what they make, and what is measured of them."""

import pytest

from service.translate.amounts import grams_of
from service.translate.place import Place
from service.translate.reference import Reference
from tests.service.dishes_of_briefs import MAYONNAISE, OIL, SPICES, WATER, dish, foods, refusals, table


def test_two_spoons_of_paprika_and_one_of_garlic_powder(reference: Reference) -> None:
    mix = foods(reference, SPICES)["spice mix"]
    # USDA SR28 02028 and 02020: spoons of 6.8 and 9.7 g, 19.09 and 63.73 g available carbohydrate in 100 g.
    assert mix.value("available_carbohydrate_g") * 23.3 / 100 == pytest.approx(8.8, abs=0.05)


def test_what_a_dish_makes_is_how_it_is_measured_afterwards(reference: Reference) -> None:
    mayonnaise = foods(reference, MAYONNAISE)["mayonnaise"]
    whole = 218 + 17 + 14.9  # USDA SR28: 1 cup of oil 218 g, 1 large yolk 17 g, 1 tbsp of vinegar 14.9 g
    assert mayonnaise.made is not None
    assert sum(part.grams for part in mayonnaise.made.ingredients) == pytest.approx(100)
    assert grams_of("1 1/4 cups", mayonnaise, Place()) == pytest.approx(whole)
    assert grams_of("1 tbsp", mayonnaise, Place()) == pytest.approx(whole / 20)
    assert grams_of("0.5 cup", mayonnaise, Place()) == pytest.approx(whole * 0.4)


@pytest.mark.parametrize(
    ("makes", "weighs", "asked", "weight"),
    [
        ("250 g", None, "100 g", 100.0),
        ("0.25 kg", None, "1 oz", 28.349523125),
        ("1 1/2 cups", "310 g", "1 cup", 310 / 1.5),
        ("1 cup + 2 tbsp", "310 g", "1 cup", 310 / 1.125),
        ("12 pieces", "300 g", "1 piece", 25.0),
        ("24 balls", "480 g", "2 balls", 40.0),
        ({"value": 1.5, "unit": "cups"}, "310 g", "2 tbsp", 310 / 12),
    ],
)
def test_a_weight_or_a_measure_says_what_it_makes(
    reference: Reference, makes: object, weighs: str | None, asked: str, weight: float
) -> None:
    fields = {"makes": makes} if weighs is None else {"makes": makes, "weighs": weighs}
    sauce = foods(reference, dish("sauce", OIL, WATER, **fields))["sauce"]
    assert grams_of(asked, sauce, Place()) == pytest.approx(weight)
    total = 250.0 if weighs is None else float(weighs.removesuffix(" g"))
    assert sauce.value("fat_g") == pytest.approx(218 / total * 100)


def test_a_measure_without_a_weight_says_what_is_taken_for_its_weight(reference: Reference) -> None:
    said = "mayonnaise is taken to weigh 249.9 g, what went into it and stayed, since its weight is not given."
    assert said in foods(reference, MAYONNAISE)["mayonnaise"].remarks


def test_a_dish_that_makes_a_weight_alone_has_no_cup(reference: Reference) -> None:
    sauce = foods(reference, dish("sauce", WATER, makes="250 g"))["sauce"]
    place = Place()
    assert grams_of("1 cup", sauce, place) is None
    assert [problem.code for problem in place.problems] == ["no_density"]


def test_a_label_and_an_unknown_food(reference: Reference) -> None:
    label = {"kind": "label", "per": "100 g", "fat_g": 20, "protein_g": 1, "total_carbohydrate_g": 3, "fibre_g": 0}
    cream = {"name": "cream", "source": label, "amount": "50 g"}
    assert foods(reference, dish("dip", cream, WATER))["dip"].value("fat_g") == pytest.approx(10 / 5.5)
    unknown = dish("dip", {"name": "x", "source": {"kind": "food", "id": "sr28:99999"}, "amount": "5 g"})
    assert refusals(reference, unknown) == [("/dishes/0/ingredients/0/source/id", "unknown_food")]


def test_stock_of_bones_strained_and_skimmed(reference: Reference) -> None:
    wings, butter = table("wings", "05100", "1 kg"), table("butter", "01001", "50 g")
    stock = dish("stock", wings, WATER, butter, strained_out=["wings"], skimmed_fat="30 g", makes="250 g")
    made = foods(reference, stock)["stock"]
    assert made.value("fat_g") * 2.5 == pytest.approx(0.5 * 81.11 - 30)  # USDA SR28 01001: 81.11 g fat in 100 g
