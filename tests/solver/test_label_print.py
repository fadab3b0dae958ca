"""US printing from FDA, A Food Labeling Guide, Appendix H (seen); EU from the Commission's guidance (quoted)."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.label_print import nutrition_lines, printed
from solver.label_rounding import RULES, LabelLayout, may_stand_for
from solver.label_text import read_printed

US, EU = LabelLayout.US, LabelLayout.EU

# Rows of Appendix H: the field, the amount in a serving, and what is printed for it; figures computed from the rule.
APPENDIX_H = [
    ("energy_kcal", 4.9, "0"),
    ("energy_kcal", 5, "5"),
    ("energy_kcal", 47, "45"),
    ("energy_kcal", 50, "50"),
    ("energy_kcal", 51, "50"),
    ("energy_kcal", 52, "50"),
    ("energy_kcal", 56, "60"),
    ("fat_g", 0.49, "0 g"),
    ("fat_g", 0.5, "0.5 g"),
    ("fat_g", 0.74, "0.5 g"),
    ("fat_g", 4.74, "4.5 g"),
    ("fat_g", 4.9, "5 g"),
    ("fat_g", 5, "5 g"),
    ("fat_g", 5.4, "5 g"),
    ("saturated_fat_g", 0.74, "0.5 g"),
    ("trans_fat_g", 0.49, "0 g"),
    ("sodium_mg", 4.9, "0 mg"),
    ("sodium_mg", 137, "135 mg"),
    ("sodium_mg", 140, "140 mg"),
    ("sodium_mg", 141, "140 mg"),
    ("sodium_mg", 146, "150 mg"),
    ("potassium_mg", 137, "135 mg"),
    ("cholesterol_mg", 1.9, "0 mg"),
    ("cholesterol_mg", 3, "less than 5 mg"),
    ("cholesterol_mg", 7, "5 mg"),
    ("cholesterol_mg", 8, "10 mg"),
    ("total_carbohydrate_g", 0.49, "0 g"),
    ("total_carbohydrate_g", 0.9, "less than 1 g"),
    ("total_carbohydrate_g", 1, "1 g"),
    ("total_carbohydrate_g", 1.4, "1 g"),
    ("fibre_g", 0.5, "less than 1 g"),
    ("sugars_g", 0.49, "0 g"),
    ("protein_g", 0.6, "less than 1 g"),
]

# Rows of the Commission's guidance: the amount in 100 g and what is printed for it.
GUIDANCE = [
    ("energy_kj", 1540.4, "1540 kJ"),
    ("energy_kcal", 371.5, "372 kcal"),
    ("fat_g", 0, "0 g"),
    ("fat_g", 0.49, "<0.5 g"),
    ("fat_g", 0.5, "<0.5 g"),
    ("fat_g", 9.94, "9.9 g"),
    ("fat_g", 10.4, "10 g"),
    ("carbohydrate_g", 3.04, "3.0 g"),
    ("saturated_fat_g", 0.1, "<0.1 g"),
    ("saturated_fat_g", 0.14, "0.1 g"),
    ("saturated_fat_g", 10.4, "10 g"),
    ("salt_g", 0.0125, "<0.01 g"),
    ("salt_g", 0.126, "0.13 g"),
    ("salt_g", 1.04, "1.0 g"),
    ("salt_g", 12.34, "12.3 g"),
]


@pytest.mark.parametrize(("field", "amount", "text"), APPENDIX_H)
def test_a_us_amount_is_printed_as_the_table_of_the_fda_has_it(field: str, amount: float, text: str) -> None:
    assert printed(field, amount, US) == text


@pytest.mark.parametrize(("field", "amount", "text"), GUIDANCE)
def test_an_eu_amount_is_printed_as_the_guidance_has_it(field: str, amount: float, text: str) -> None:
    assert printed(field, amount, EU) == text


@pytest.mark.parametrize(
    ("field", "amount", "layout", "text"),
    [
        ("fat_g", 4.75, US, "5 g"),
        ("fat_g", 4.25, US, "4.5 g"),
        ("energy_kcal", 52.5, US, "50"),
        ("energy_kcal", 55, US, "60"),
        ("fat_g", 1.15, EU, "1.2 g"),
        # Floats that come out just under the half: 1.0499999999999998 and 2.4999999999999996.
        ("fat_g", 0.35 * 3, EU, "1.1 g"),
        ("protein_g", 0.1 * 25 - 4e-16, US, "3 g"),
    ],
)
def test_halves_are_rounded_up_in_decimals(field: str, amount: float, layout: LabelLayout, text: str) -> None:
    assert printed(field, amount, layout) == text


def test_what_rounds_up_to_ten_is_printed_without_decimals() -> None:
    assert printed("fat_g", 9.96, EU) == "10 g"
    assert printed("salt_g", 0.996, EU) == "1.0 g"


def test_a_name_without_a_rule_and_an_amount_that_is_none_are_errors() -> None:
    with pytest.raises(KeyError):
        printed("salt_g", 1, US)
    for impossible in (-0.1, math.nan, math.inf):
        with pytest.raises(ValueError, match="fat_g"):
            printed("fat_g", impossible, US)


@given(st.sampled_from([(layout, name) for layout in LabelLayout for name in RULES[layout]]), st.data())
def test_what_is_printed_and_read_back_may_stand_for_the_amount(
    row: tuple[LabelLayout, str], data: st.DataObject
) -> None:
    layout, name = row
    if name == "polyols":
        return
    amount = data.draw(st.floats(0, 2) | st.floats(0, 12) | st.floats(0, 5000))
    unit = name.rpartition("_")[2]
    read = read_printed(printed(name, amount, layout), unit, decimal_comma=False)
    interval = may_stand_for(read, RULES[layout][name])
    assert interval.low - 1e-8 <= amount <= interval.high + 1e-8


@given(st.floats(0, 1000), st.floats(0, 1000))
def test_of_two_amounts_the_greater_is_never_printed_as_less(one: float, other: float) -> None:
    numbers = [
        read_printed(printed("fat_g", amount, US), "g", decimal_comma=False).number for amount in sorted((one, other))
    ]
    assert numbers[0] <= numbers[1]


def test_us_lines_stand_in_the_order_of_the_label_and_what_is_unknown_stays_so() -> None:
    lines = nutrition_lines({"fat_g": 47.2, "total_carbohydrate_g": 0.6, "sugars_g": None}, 613.2, 2540.0, US)
    assert [line.title for line in lines[:4]] == ["Calories", "Total Fat", "Saturated Fat", "Trans Fat"]
    texts = {line.name: line.text for line in lines}
    assert texts["energy_kcal"] == "610"
    assert texts["fat_g"] == "47 g"
    assert texts["total_carbohydrate_g"] == "less than 1 g"
    assert texts["sugars_g"] is texts["protein_g"] is None


def test_eu_lines_have_both_energies_salt_and_carbohydrate_without_fibre() -> None:
    lines = nutrition_lines({"total_carbohydrate_g": 8.53, "fibre_g": 6.7, "sodium_mg": 520}, 160.4, 660.2, EU)
    values = {line.name: line.value for line in lines}
    texts = {line.name: line.text for line in lines}
    assert texts["energy_kj"] == "660 kJ"
    assert texts["energy_kcal"] == "160 kcal"
    assert values["carbohydrate_g"] == pytest.approx(1.83)
    # Salt is 2.5 times sodium: Regulation (EU) No 1169/2011, Annex I.
    assert texts["salt_g"] == "1.3 g"


def test_eu_carbohydrate_keeps_its_polyols() -> None:
    # 40 g with 10 g fibre and 20 g polyols, of which none count as available: the EU prints 30 g.
    per = {"total_carbohydrate_g": 40.0, "fibre_g": 10.0, "available_carbohydrate_g": 10.0}
    texts = {line.name: line.text for line in nutrition_lines(per, None, None, EU)}
    assert texts["carbohydrate_g"] == "30 g"
    assert texts["energy_kj"] is None


def test_eu_carbohydrate_is_the_available_where_fibre_is_unknown() -> None:
    per = {"total_carbohydrate_g": 4.0, "fibre_g": None, "available_carbohydrate_g": 4.0}
    texts = {line.name: line.text for line in nutrition_lines(per, None, None, EU)}
    assert texts["carbohydrate_g"] == "4.0 g"
