"""Unit texts, most of them as USDA SR28 writes its measures."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.unit_words import unit_in_front, unit_words
from solver.units import CUP, FLUID_OUNCE, OUNCE, TABLESPOON


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("clove", "Cloves"),
        ("leaf", "leaves"),
        ("half", "halves"),
        ("cookie", "cookies"),
        ("berry", "berries"),
        ("box", "boxes"),
        ("dash", "dashes"),
        ("pie", "pies"),
        ("tbsp, chopped", "Tablespoons chopped"),
        ("cup, shredded", "cups (shredded)"),
        ("serving 2 tbsp", "serving, 2 tablespoons"),
    ],
)
def test_case_plural_spelling_and_punctuation_do_not_matter(one: str, other: str) -> None:
    assert unit_words(one).words == unit_words(other).words
    assert unit_words(one).unit is unit_words(other).unit


@pytest.mark.parametrize(
    ("one", "other"),
    [("large", "extra large"), ("sliced", "slice"), ("cup, packed", "cup, not packed"), ("glass", "glas")],
)
def test_different_measures_have_different_words(one: str, other: str) -> None:
    assert unit_words(one).words != unit_words(other).words


def test_unit_in_front_is_told_from_its_qualifier() -> None:
    said = unit_words('cup, chopped or diced (1" pieces)')
    assert said.unit is CUP
    assert said.bare == unit_words("chopped or diced").words
    assert said.alternatives == (unit_words("chopped").words, unit_words("diced").words)


def test_unit_of_two_words_comes_before_one_of_one() -> None:
    assert unit_words("fluid ounces").unit is FLUID_OUNCE
    assert unit_words("oz, boneless").unit is OUNCE


def test_the_size_of_each_is_the_size_of_one() -> None:
    assert unit_words("slices (1 oz each)") == unit_words("slice (1 oz)")


def test_unit_further_back_is_part_of_the_name() -> None:
    assert unit_words("can (12 fl oz)").unit is None


@pytest.mark.parametrize(
    "text", ["cup", "cup (8 fl oz)", "cup ( 1 NLEA serving)", "cup, fluid (yields 2 cups whipped)"]
)
def test_remarks_on_use_leave_a_cup_plain(text: str) -> None:
    assert unit_words(text).is_plain


@pytest.mark.parametrize("text", ["cup, whipped", 'cup (1" pieces)', "cup (not packed)", "cup slices"])
def test_what_is_in_it_does_not(text: str) -> None:
    assert not unit_words(text).is_plain


def test_ucum_code_is_a_unit_without_words() -> None:
    assert unit_words("[tbs_us]").unit is TABLESPOON
    assert unit_words("[tbs_us]").words == ()


@given(st.text(st.characters(exclude_categories=())))
def test_any_text_can_be_taken_apart(text: str) -> None:
    said = unit_words(text)
    assert len(said.bare) <= len(said.words)


def test_a_unit_at_the_end_is_put_in_front() -> None:
    assert unit_in_front("finely shredded cups") == "cups finely shredded"
    assert unit_in_front("extra large") == "extra large"
    assert unit_in_front("") == ""
