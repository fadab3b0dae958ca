"""Declared numbers as they come in, and findings and nutrition lines as they go out."""

import re
from pathlib import Path
from typing import Any, get_args

import pytest
from pydantic import ValidationError

import solver.declared
from service.problem_pages import PAGES
from service.schemas.declared import DeclaredBody, FindingCode
from service.translate.declared import DeclaredFor, to_declared, to_finding, to_nutrition_line
from service.translate.place import Place
from solver.declared import audit
from solver.declared_numbers import FIELDS
from solver.energy import Factors
from solver.label_print import nutrition_lines
from solver.label_rounding import LabelLayout, Printed


def read(**fields: Any) -> DeclaredFor:  # noqa: ANN401  whatever a body holds
    place = Place()
    made = to_declared(DeclaredBody.model_validate(fields), place)
    assert made is not None, place.problems
    return made


def refusals(**fields: Any) -> list[tuple[str, str]]:  # noqa: ANN401  the same
    place = Place(("declared",))
    assert to_declared(DeclaredBody.model_validate(fields), place) is None
    assert all(problem.code in PAGES for problem in place.problems)
    return [(problem.pointer, problem.code) for problem in place.problems]


def test_numbers_and_texts_keep_the_decimals_that_they_were_written_with() -> None:
    values = read(
        energy_kcal=650,
        fat_g="54.0 g",
        sugars_g="less than 1 g",
        fat_share_percent="75.5 %",
        ketogenic_ratio="1.40 : 1",
    ).declared.values
    assert values == {
        "energy_kcal": Printed(650),
        "fat_g": Printed(54, 1),
        "sugars_g": Printed(1, less_than=True),
        "fat_share_percent": Printed(75.5, 1),
        "ketogenic_ratio": Printed(1.4, 2),
    }


def test_a_distribution_becomes_four_percents() -> None:
    values = read(energy_distribution_percent={"fat": 75, "protein": "20 %", "carbohydrate": "5.0%"}).declared.values
    assert values == {
        "fat_percent": Printed(75),
        "protein_percent": Printed(20),
        "carbohydrate_percent": Printed(5, 1),
    }


def test_a_comma_is_a_decimal_one_in_the_eu_layout_only() -> None:
    assert read(layout="EU", fat_g="1,5 g").declared.values["fat_g"] == Printed(1.5, 1)
    assert read(sodium_mg="1,200 mg").declared.values["sodium_mg"] == Printed(1200)
    assert refusals(fat_g="1,5 g") == [("/declared/fat_g", "unreadable_label_value")]


def test_numbers_are_of_a_portion_the_batch_or_a_weight() -> None:
    assert read().grams(210, 840) == 210
    assert read(per="batch").weighing(210, 840).weight_g == 840
    of_weight = read(per="100 g")
    assert (of_weight.per, of_weight.weighing(210, 840).weight_g) == (None, 100)
    assert read(per={"value": 1, "unit": "kg"}).grams(210, 840) == 1000


def test_layout_and_own_factors_are_passed_on() -> None:
    declared = read(layout="US", factors_kcal_per_g={"protein": 4.27, "fat": 9.02, "carbohydrate": 3.87}).declared
    assert declared.layout is LabelLayout.US
    assert declared.factors == Factors(protein=4.27, fat=9.02, carbohydrate=3.87, alcohol=6.93)
    plain = read().declared
    assert (plain.layout, plain.factors) == (None, None)


@pytest.mark.parametrize(
    ("fields", "pointer", "code"),
    [
        ({"total_carbohydrate_g": 4, "available_carbohydrate_g": 3}, "/available_carbohydrate_g", "both_carbohydrates"),
        ({"fat_g": "lots"}, "/fat_g", "unreadable_label_value"),
        ({"energy_kcal": "1500 kJ"}, "/energy_kcal", "wrong_unit"),
        ({"fat_share_percent": "75 g"}, "/fat_share_percent", "wrong_unit"),
        ({"fat_share_percent": "%"}, "/fat_share_percent", "unreadable_label_value"),
        ({"ketogenic_ratio": "1:2"}, "/ketogenic_ratio", "unreadable_label_value"),
        (
            {"energy_distribution_percent": {"protein": "much"}},
            "/energy_distribution_percent/protein",
            "unreadable_label_value",
        ),
        ({"fat_g": "9999999999 g"}, "/fat_g", "out_of_range"),
        ({"per": "1 slice"}, "/per", "unknown_measure"),
        ({"per": "0 g"}, "/per", "not_positive"),
        ({"per": "1000000 kg"}, "/per", "out_of_range"),
        ({"per": {"value": 1e-9, "unit": "g"}}, "/per", "out_of_range"),
        ({"per": "a bit"}, "/per", "unreadable_amount"),
    ],
)
def test_what_cannot_be_used_is_refused_where_it_stands(fields: dict[str, Any], pointer: str, code: str) -> None:
    assert refusals(**fields) == [(f"/declared{pointer}", code)]


@pytest.mark.parametrize(
    "fields", [{"fat": 3}, {"fat_g": -1}, {"fat_g": True}, {"layout": "UK"}, {"factors_kcal_per_g": {"fat": 9}}]
)
def test_what_the_contract_does_not_have_is_refused_by_it(fields: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        DeclaredBody.model_validate(fields)


def test_every_number_that_can_be_audited_can_be_declared() -> None:
    taken = set(DeclaredBody.model_fields) | {f"{of}_percent" for of in ("fat", "protein", "carbohydrate", "alcohol")}
    assert set(FIELDS) <= taken


def test_every_code_of_a_finding_is_in_the_contract() -> None:
    # Codes are the snake_case words after `code=`, and the first argument of what makes a finding.
    sources = Path(solver.declared.__file__).parent.glob("declared*.py")
    made = re.compile(r'(?:code=|compare\(|differs\(|_finding\()"([a-z_]+)"|"(heavier_than_food|parts_above_whole)"')
    written = {first or second for source in sources for first, second in made.findall(source.read_text())}
    assert written == set(get_args(FindingCode))


def test_a_finding_goes_out_with_the_field_that_it_is_about() -> None:
    # 12 x 9 + 31 x 4 + 5 x 4 = 252 kcal.
    body = {"layout": "US", "energy_kcal": 280, "fat_g": 12, "total_carbohydrate_g": 31, "protein_g": 5}
    (finding,) = audit(read(**body, per="40 g").weighing(0, 0))[:1]
    answer = to_finding(finding)
    assert (answer.code, answer.about, answer.by, answer.unit) == ("energy_differs", "energy_kcal", 28, "kcal")
    assert (answer.declared, answer.follows, answer.rounding_explains) == ("280 kcal", "252 kcal (general)", False)


def test_a_finding_about_a_share_or_the_weight_names_the_field_of_the_body() -> None:
    plate = {"fat_g": 30, "protein_g": 25, "total_carbohydrate_g": 4}
    shares = {"fat": 90, "protein": 7, "carbohydrate": 3}
    found = audit(read(per="50 g", **plate, energy_distribution_percent=shares).weighing(0, 0))
    assert [to_finding(finding).about for finding in found] == [
        "per",
        "energy_distribution_percent.fat",
        "energy_distribution_percent.protein",
        # 16 of 386 kcal are 4.1 %; a 3 that was made to sum to 100 may have been 4.
        "energy_distribution_percent.carbohydrate",
    ]
    assert [finding.rounding_explains for finding in found] == [False, False, False, True]


def test_a_nutrition_line_goes_out_as_printed_and_unknown_is_null() -> None:
    lines = [to_nutrition_line(line) for line in nutrition_lines({"fat_g": 4.7400000001}, None, None, LabelLayout.US)]
    fat = next(line for line in lines if line.name == "fat_g")
    assert (fat.title, fat.text, fat.value) == ("Total Fat", "4.5 g", 4.74)
    energy = lines[0]
    assert (energy.text, energy.value) == (None, None)
