"""What a brief leaves out: its three forms, and what is refused of it."""

import pytest
from pydantic import TypeAdapter, ValidationError

from service.problem_pages.exclude import EXCLUDE
from service.schemas.exclude import ExclusionBody
from service.translate.exclude import refuse_needed, to_exclusions
from service.translate.place import Place
from solver.catalogue import Catalogue
from solver.errors import Problem
from solver.exclusions import Excluded, Exclusion, ExclusionKind
from solver.pantry import PantryItem

READ = TypeAdapter[list[ExclusionBody]](list[ExclusionBody])


def translated(*entries: dict[str, object]) -> tuple[tuple[Exclusion, ...], list[Problem]]:
    place = Place() / "exclude"
    return to_exclusions(READ.validate_python(list(entries)), place), place.problems


def test_an_allergen_a_food_group_and_a_food_become_exclusions() -> None:
    exclusions, problems = translated(
        {"allergen": "milk"},
        {"allergen": " Tree Nuts", "unknown": "allowed"},
        {"food_group": "dairy and egg products"},
        {"food": " paprika "},
    )
    assert problems == []
    assert exclusions == (
        Exclusion(ExclusionKind.ALLERGEN, "milk"),
        Exclusion(ExclusionKind.ALLERGEN, "tree nuts", unknown_allowed=True),
        Exclusion(ExclusionKind.FOOD_GROUP, "Dairy and Egg Products"),
        Exclusion(ExclusionKind.FOOD, "paprika"),
    )


def test_nothing_excluded_is_nothing_translated() -> None:
    assert translated() == ((), [])


@pytest.mark.parametrize(
    ("name", "near"), [("eggs", "egg"), ("gluten", "gluten cereals"), ("nuts", "tree nuts"), ("soybean", "soybeans")]
)
def test_an_unknown_allergen_is_refused_with_the_nearest_and_the_list(name: str, near: str) -> None:
    exclusions, problems = translated({"food": "paprika"}, {"allergen": name})
    assert [entry.kind for entry in exclusions] == [ExclusionKind.FOOD]
    assert [(problem.pointer, problem.code) for problem in problems] == [("/exclude/1/allergen", "unknown_allergen")]
    assert problems[0].remedy.startswith(f"Near it: {near}")
    assert problems[0].remedy.endswith("sulphites, lupin, molluscs.")


@pytest.mark.parametrize(
    ("name", "near"), [("dairy", "Dairy and Egg Products"), ("Pork", "Pork Products"), ("Swets", "Sweets")]
)
def test_an_unknown_food_group_is_refused_with_the_nearest(name: str, near: str) -> None:
    _, problems = translated({"food_group": name})
    assert [(problem.pointer, problem.code) for problem in problems] == [
        ("/exclude/0/food_group", "unknown_food_group")
    ]
    assert near in problems[0].remedy


def test_a_name_like_no_other_is_refused_without_a_guess() -> None:
    _, problems = translated({"food_group": "xyzzy"}, {"food_group": "and"}, {"allergen": "xyzzy"})
    assert ["Near it" in problem.remedy for problem in problems] == [False, False, False]


def test_a_blank_food_is_refused() -> None:
    _, problems = translated({"food": " "}, {"food": "two\nlines"})
    assert [problem.code for problem in problems] == ["blank", "not_printable"]


@pytest.mark.parametrize(
    "entry",
    [
        {},
        "milk",
        {"allergen": "milk", "food": "butter"},
        {"allergen": "milk", "unknown": "maybe"},
        {"allergen": ""},
        {"food_group": 3},
        {"food": "x" * 201},
    ],
)
def test_an_entry_of_any_other_form_is_not_read(entry: object) -> None:
    with pytest.raises(ValidationError):
        READ.validate_python([entry])


def test_an_item_that_is_left_out_and_asked_for_is_refused_where_it_is_asked_for(catalogue: Catalogue) -> None:
    butter = catalogue.food("sr28:01001")
    pantry = [PantryItem("oil", butter), PantryItem("butter", butter, at_least_g=20.0), PantryItem("ghee", butter)]
    why = [Excluded(name, Exclusion(ExclusionKind.ALLERGEN, "milk"), "contains milk") for name in ("butter", "ghee")]
    place = Place() / "pantry"
    refuse_needed(why, pantry, place)
    assert [(p.pointer, p.code) for p in place.problems] == [("/pantry/1/at_least", "excluded_item_needed")]
    assert "contains milk" in place.problems[0].detail


@pytest.mark.parametrize("code", EXCLUDE)
def test_each_code_has_a_page_of_whole_sentences(code: str) -> None:
    page = EXCLUDE[code]
    assert all(text.endswith((".", ":")) for text in (page.what, page.why, page.mend))
