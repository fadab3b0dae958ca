"""Carbohydrate of US labels: 21 CFR 101.9(c)(6) (quoted); shares of polyols that count: reference_data/polyols.csv."""

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.service.labels import refusals, us


def test_values_of_a_serving_are_brought_to_100_g() -> None:
    cheese = us("28 g", fat_g=7, sodium_mg=140, vitamin_d_ug=0.7)
    assert cheese.value("fat_g") == pytest.approx(25)
    assert cheese.value("sodium_mg") == pytest.approx(500)
    assert cheese.value("vitamin_d_ug") == pytest.approx(2.5)


def test_what_a_label_does_not_print_stays_missing() -> None:
    cheese = us(fat_g=9)
    for nutrient in ("protein_g", "total_carbohydrate_g", "available_carbohydrate_g", "fibre_g", "energy_kcal"):
        assert np.isnan(cheese.value(nutrient))


def test_fibre_polyols_and_allulose_are_taken_off_the_total() -> None:
    bar = us("100 g", total_carbohydrate_g=40, fibre_g=10, polyols={"erythritol_g": 8}, allulose_g=4)
    assert bar.value("total_carbohydrate_g") == 40
    assert bar.value("available_carbohydrate_g") == pytest.approx(40 - 10 - 8 - 4)


def test_half_of_maltitol_counts_unless_its_reader_says_otherwise() -> None:
    label: dict[str, Any] = {"total_carbohydrate_g": 40, "fibre_g": 10, "polyols": {"maltitol_g": 20}}
    assert us("100 g", **label).value("available_carbohydrate_g") == pytest.approx(20)
    chosen = us("100 g", **label, count_polyols_as={"maltitol": 0.8})
    assert chosen.value("available_carbohydrate_g") == pytest.approx(26)


def test_polyols_of_an_unnamed_kind_count_in_full() -> None:
    assert us("100 g", total_carbohydrate_g=40, fibre_g=0, polyols={"other_g": 20}).value(
        "available_carbohydrate_g"
    ) == pytest.approx(40)


def test_what_is_counted_of_each_kind_is_said() -> None:
    bar = us("100 g", total_carbohydrate_g=40, fibre_g=0, polyols={"maltitol_g": 20, "erythritol_g": 5})
    assert any("0% of erythritol" in remark and "50% of maltitol" in remark for remark in bar.remarks)


def test_cream_labelled_0_g_per_15_g_may_hold_16_g_in_480_g() -> None:
    cream = us("15 g", energy_kcal=50, fat_g=5, total_carbohydrate_g=0, protein_g=0)
    assert cream.value("available_carbohydrate_g") * 480 / 100 == pytest.approx(16)
    assert any("total carbohydrate" in remark and "0.5 g in 15 g" in remark for remark in cream.remarks)


def test_zero_is_none_where_its_reader_says_so_and_that_is_said() -> None:
    cream = us("15 g", total_carbohydrate_g="0 g", read_zero_as="zero")
    assert cream.value("total_carbohydrate_g") == 0
    assert any("as asked" in remark for remark in cream.remarks)


@pytest.mark.parametrize(("text", "grams"), [(0, 0.5), ("0 g", 0.5), ("trace", 0.5), ("<0.5 g", 0.5)])
def test_small_carbohydrate_is_read_as_its_upper_bound(text: object, grams: float) -> None:
    assert us("20 g", total_carbohydrate_g=text).value("total_carbohydrate_g") == pytest.approx(grams * 5)


def test_less_than_1_g_of_carbohydrate_is_1_g_and_of_fibre_none() -> None:
    nuts = us("50 g", total_carbohydrate_g="less than 1 g", fibre_g="less than 1 g", sugars_g=0)
    assert nuts.value("total_carbohydrate_g") == pytest.approx(2)
    assert nuts.value("available_carbohydrate_g") == pytest.approx(2)
    assert nuts.value("fibre_g") == 0
    assert nuts.value("sugars_g") == pytest.approx(1)


def test_fat_and_protein_leave_little_room_for_carbohydrate_in_a_small_serving() -> None:
    # At least 4.75 g of 5 g are fat.
    assert us("5 g", fat_g=5, total_carbohydrate_g=0).value("total_carbohydrate_g") == pytest.approx(0.25 * 20)


def test_a_total_without_fibre_counts_as_available_and_says_so() -> None:
    assert us(total_carbohydrate_g=5).total_carbohydrate_counted
    assert not us(total_carbohydrate_g=5, fibre_g=0).total_carbohydrate_counted


def test_numbers_that_cannot_be_true_together_are_accepted_and_doubted() -> None:
    cheese = us("28 g", energy_kcal=300, fat_g=9, total_carbohydrate_g=1, protein_g=7)
    assert cheese.value("fat_g") == pytest.approx(9 / 0.28)
    # At most 9.5 x 9 + 7.5 x 4 + 1.5 x 4 = 121.5 kcal, at least 295 are printed.
    assert any("173.5 kcal apart" in remark for remark in cheese.remarks)
    assert us("28 g", energy_kcal=110, fat_g=9, total_carbohydrate_g=1, protein_g=7).remarks == ()


def test_more_fat_than_its_serving_is_doubted_and_ten_times_as_much_is_refused() -> None:
    assert any("add up" in remark for remark in us("28 g", fat_g=40).remarks)
    assert refusals(layout="US", serving="28 g", fat_g=400) == [("/source/fat_g", "exceeds_weight")]


@pytest.mark.parametrize(
    ("fields", "pointer", "code"),
    [
        ({"serving": "1 cup"}, "/source/serving", "no_density"),
        ({"serving": "0 g"}, "/source/serving", "not_positive"),
        ({"fat_g": "lots"}, "/source/fat_g", "unreadable_label_value"),
        ({"fat_g": "3 mL"}, "/source/fat_g", "wrong_unit"),
        ({"fat_g": "9999999 g"}, "/source/fat_g", "out_of_range"),
        ({"polyols": {"maltitol_g": "?"}}, "/source/polyols/maltitol_g", "unreadable_label_value"),
        ({"count_polyols_as": {"maltitol": 0}}, "/source/count_polyols_as/maltitol", "never_left_out"),
        ({"count_polyols_as": {"other": 0}}, "/source/count_polyols_as/other", "never_left_out"),
        ({"count_polyols_as": {"malt": 1}}, "/source/count_polyols_as/malt", "unknown_polyol"),
    ],
)
def test_what_cannot_be_read_is_refused_where_it_stands(fields: dict[str, object], pointer: str, code: str) -> None:
    assert refusals(**{"layout": "US", "serving": "28 g", **fields}) == [(pointer, code)]


def test_labels_that_differ_in_polyols_are_different_foods() -> None:
    one = us(total_carbohydrate_g=20, fibre_g=0, polyols={"maltitol_g": 4})
    other = us(total_carbohydrate_g=20, fibre_g=0, polyols={"xylitol_g": 2, "erythritol_g": 1})
    assert one.value("available_carbohydrate_g") == pytest.approx(other.value("available_carbohydrate_g"))
    assert one.id != other.id


@given(total=st.floats(0, 50), fibre=st.floats(0, 50), maltitol=st.floats(0, 50), share=st.floats(0.01, 1))
def test_available_carbohydrate_lies_between_none_and_the_total(
    total: float, fibre: float, maltitol: float, share: float
) -> None:
    bar = us(
        "100 g",
        total_carbohydrate_g=total,
        fibre_g=fibre,
        polyols={"maltitol_g": maltitol},
        count_polyols_as={"maltitol": share},
    )
    assert 0 <= bar.value("available_carbohydrate_g") <= bar.value("total_carbohydrate_g")
