"""Which of a food's measures a unit means."""

import pytest

from solver.catalogue import Catalogue
from solver.measures import measures_of
from tests.solver.weighing import BUTTER, CHEDDAR, EGG, FOODS, GARLIC, SALT, measured, refusal, weigh


def test_an_unknown_unit_is_refused_with_the_measures_the_food_has(catalogue: Catalogue) -> None:
    for text in ("1 handful", "2 bunches", "1 cup, grated", "1 egg", "8 oz, boneless", "1 imperial pint", "1 [cup_m]"):
        refused = refusal(text, catalogue.food(CHEDDAR))
        assert refused.code == "unknown_measure", text
        assert "cup, shredded" in refused.remedy


@pytest.mark.parametrize("text", ["1 t", "1 T"])
def test_a_single_letter_spoon_is_ambiguous(catalogue: Catalogue, text: str) -> None:
    assert refusal(text, catalogue.food(BUTTER)).code == "ambiguous_measure"


def test_a_measure_of_several_units_is_divided_by_its_amount() -> None:
    strips = measured((10, "strips", 27), (0.5, "cup", 60))
    assert weigh("5 strips", strips) == pytest.approx(13.5)
    assert weigh("1 cup", strips) == 120


def test_the_exact_name_is_found_before_longer_ones_that_begin_with_it() -> None:
    sizes = measured((1, "large", 150), (1, "large (3 per lb)", 140), (1, "extra large", 200))
    assert weigh("1 large", sizes) == 150


@pytest.mark.parametrize(
    ("measure", "asked"),
    [
        ('large (2-3/4" dia)', "large"),
        ("cup, chopped or diced", "cup diced"),
        ("cup, crushed, sliced, or chunks", "cup, chunks"),
        ("drumstick with skin", "drumsticks"),
        ("oz, boneless", "ounces boneless"),
        ("cup, not packed", "not packed cup"),
    ],
)
def test_a_measure_is_found_by_the_words_that_matter(measure: str, asked: str) -> None:
    assert weigh(f"1 {asked}", measured((1, measure, 99))) == 99


def test_a_measure_is_never_found_against_its_words() -> None:
    assert refusal("1 cup packed", measured((1, "cup (not packed)", 99))).code == "unknown_measure"
    assert refusal("1 large", measured((1, "extra large", 99))).code == "unknown_measure"
    assert refusal("1 drumstick", measured((1, "drumstick with skin", 99), (1, "drumstick without skin", 80))).code == (
        "ambiguous_measure"
    )


def test_a_bare_number_counts_pieces_where_there_is_one_kind(catalogue: Catalogue) -> None:
    assert weigh("6", measured((1, "egg", 70), (1, "cup", 240), name="Egg, duck")) == 420
    assert weigh("2", measured((1, "each", 30))) == 60
    assert refusal("6", catalogue.food(EGG)).code == "ambiguous_measure"
    for food_id in (BUTTER, GARLIC, SALT):
        assert refusal("6", catalogue.food(food_id)).code == "unknown_measure"


def test_rows_that_contradict_each_other_are_ambiguous() -> None:
    twice = measured((1, "biscuit", 58), (1, "biscuit", 43))
    assert refusal("1 biscuit", twice).code == "ambiguous_measure"
    assert "biscuit" not in measures_of(twice)


def test_measures_without_weight_are_passed_over() -> None:
    assert measures_of(measured((0, "cup", 100), (1, "stick", 0))) == ("g", "kg", "oz", "lb")


def test_every_measure_offered_can_be_used(catalogue: Catalogue) -> None:
    for food_id in FOODS:
        for measure in measures_of(catalogue.food(food_id)):
            assert weigh(f"1 {measure}", catalogue.food(food_id)) > 0
