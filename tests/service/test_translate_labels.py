from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.schemas.labels import PlainLabel
from service.translate.labels import label_food
from service.translate.place import Place
from solver.foods import Food


def food(name: str = "farm cheese", per: str = "28 g", **values: float) -> Food:
    place = Place()
    made = label_food(name, PlainLabel.model_validate({"kind": "label", "per": per, **values}), place)
    assert made is not None, place.problems
    return made


def refusals(**fields: Any) -> list[tuple[str, str]]:  # noqa: ANN401  a wrong label may hold anything
    place = Place(("source",))
    assert label_food("cheese", PlainLabel.model_validate({"kind": "label", "per": "100 g", **fields}), place) is None
    return [(problem.pointer, problem.code) for problem in place.problems]


def test_values_of_a_serving_are_brought_to_100_g() -> None:
    assert food(fat_g=7, sodium_mg=140).value("fat_g") == pytest.approx(25)
    assert food(fat_g=7, sodium_mg=140).value("sodium_mg") == pytest.approx(500)


def test_a_serving_may_be_in_any_mass_unit() -> None:
    assert food(per="1 oz", fat_g=9).value("fat_g") == pytest.approx(9 / 28.349523125 * 100)


def test_what_a_label_does_not_state_stays_missing() -> None:
    cheese = food(fat_g=9)
    for nutrient in ("protein_g", "total_carbohydrate_g", "fibre_g", "energy_kcal", "sodium_mg"):
        assert np.isnan(cheese.value(nutrient))


def test_a_stated_zero_is_no_gap() -> None:
    assert food(fibre_g=0).value("fibre_g") == 0


def test_fibre_is_taken_from_a_total_that_holds_it() -> None:
    us_label = food(per="100 g", total_carbohydrate_g=10, fibre_g=4)
    assert us_label.value("available_carbohydrate_g") == 6
    assert not us_label.total_carbohydrate_counted


def test_fibre_is_never_taken_from_carbohydrate_that_leaves_it_out() -> None:
    eu_label = food(per="100 g", available_carbohydrate_g=10, fibre_g=4)
    assert eu_label.value("available_carbohydrate_g") == 10
    assert eu_label.value("total_carbohydrate_g") == 14


@pytest.mark.parametrize(
    ("values", "said"),
    [
        # 89.5 + 29.5 + 4.5 g in 100 g, each rounded down as far as it may be.
        ({"fat_g": 90, "protein_g": 30, "available_carbohydrate_g": 5}, ("23.5 g too much",)),
        (
            {"fat_g": 5, "saturated_fat_g": 8},
            ("saturated come to at least 7.5 g, but fat to at most 5.5 g; 2 g too much",),
        ),
        (
            {"energy_kcal": 100, "fat_g": 30, "protein_g": 20, "total_carbohydrate_g": 2},
            ("energy is printed as 95 to 105",),
        ),
        ({"energy_kcal": 110, "fat_g": 9, "protein_g": 7, "total_carbohydrate_g": 1}, ()),  # 113 kcal, rounded
        ({"energy_kcal": 90, "fat_g": 0, "protein_g": 0, "total_carbohydrate_g": 3, "alcohol_g": 11}, ()),
        ({"energy_kcal": 349, "protein_g": 10.33}, ()),  # without fat nobody can say
    ],
)
def test_plain_numbers_that_cannot_be_true_together_are_doubted(
    values: dict[str, float], said: tuple[str, ...]
) -> None:
    remarks = food("cheese", "100 g", **values).remarks
    assert len(remarks) == len(said), remarks
    assert all(words in remark for words, remark in zip(said, remarks, strict=True)), remarks


def test_a_total_without_fibre_counts_as_available_and_says_so() -> None:
    no_fibre = food(per="100 g", total_carbohydrate_g=10)
    assert no_fibre.value("available_carbohydrate_g") == 10
    assert no_fibre.total_carbohydrate_counted


def test_available_carbohydrate_without_fibre_leaves_the_total_missing() -> None:
    no_fibre = food(per="100 g", available_carbohydrate_g=10)
    assert np.isnan(no_fibre.value("total_carbohydrate_g"))
    assert not no_fibre.total_carbohydrate_counted


def test_the_id_depends_on_the_values_and_not_on_the_name() -> None:
    assert food("a", fat_g=7).id == food("b", fat_g=7).id
    assert food("a", fat_g=7).id != food("a", fat_g=8).id
    assert food("a", fat_g=7).id.startswith("label:")


@given(st.floats(0, 28), st.floats(0.1, 1000))
def test_scaling_the_serving_and_its_values_together_changes_nothing(fat_g: float, factor: float) -> None:
    once = food(per="28 g", fat_g=fat_g).value("fat_g")
    scaled = food(per=f"{28 * factor:.6f} g", fat_g=fat_g * factor).value("fat_g")
    assert scaled == pytest.approx(once, rel=1e-5, abs=1e-12)


def test_a_weight_cannot_hold_more_than_itself() -> None:
    assert refusals(per="28 g", fat_g=28.1) == [("/source/fat_g", "exceeds_weight")]
    assert food(per="28 g", fat_g=28).value("fat_g") == pytest.approx(100)
    assert food(per="28 g", sodium_mg=9000).value("sodium_mg") == pytest.approx(9000 / 0.28)


def test_both_kinds_of_carbohydrate_are_refused() -> None:
    found = refusals(total_carbohydrate_g=5, available_carbohydrate_g=5)
    assert found == [("/source/available_carbohydrate_g", "both_carbohydrates")]


def test_more_fibre_than_carbohydrate_with_it_is_refused() -> None:
    assert refusals(total_carbohydrate_g=2, fibre_g=5) == [("/source/fibre_g", "exceeds_carbohydrate")]


@pytest.mark.parametrize(
    ("per", "code"),
    [
        ("1 cup", "no_density"),
        ("1 serving", "unknown_measure"),
        ("a serving", "unreadable_amount"),
        ("0 g", "not_positive"),
        ("-28 g", "unreadable_amount"),
    ],
)
def test_a_label_is_stated_for_a_weight(per: str, code: str) -> None:
    assert refusals(per=per, fat_g=1) == [("/source/per", code)]


def test_an_unknown_nutrient_is_met_with_its_neighbours() -> None:
    place = Place()
    label_food("x", PlainLabel.model_validate({"kind": "label", "per": "100 g", "sodium_g": 1.0}), place)
    (problem,) = place.problems
    assert (problem.pointer, problem.code) == ("/sodium_g", "unknown_nutrient")
    assert "sodium_mg" in problem.remedy


def test_all_problems_of_a_label_are_found_at_once() -> None:
    found = refusals(per="0 g", total_carbohydrate_g=5, available_carbohydrate_g=5, iron_g=1)
    assert {code for _, code in found} == {"not_positive", "both_carbohydrates", "unknown_nutrient"}
