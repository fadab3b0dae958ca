"""Garlic in oil (CDC), what is sealed in fat (USDA), curing salt: 156 ppm in comminuted meat (9 CFR 424.21(c)).

That is 0.25 % of a mix with 6.25 % nitrite. All three from memory.
"""

from dataclasses import replace

import pytest

from solver.cautions import curing_salt_problems
from solver.components import Component
from solver.pantry import PantryItem
from tests.solver.cautions.dishes import (
    BEEF,
    BUTTER,
    CAUTIONS,
    GARLIC,
    OLIVE_OIL,
    THIGH,
    brief_of,
    item,
    made_of,
    said,
)
from tests.solver.larder import food

TABLE, LOAF = Component("at the table"), Component("loaf", "baked loaf")
PINK = food("Pink curing salt, 6.25 % nitrite")


def test_garlic_in_oil_keeps_four_days_cold() -> None:
    caution = said(TABLE, ("garlic", GARLIC, 20), ("olive oil", OLIVE_OIL, 200))["garlic_or_herbs_in_fat"]
    assert caution.trigger == "at the table: garlic, in fat"
    assert "4 °C" in caution.text
    assert "4 days" in caution.text


def test_garlic_in_what_is_less_than_half_fat_or_cooked_is_no_garlic_oil() -> None:
    salad = ("cucumber", food("cucumber"), 200.0)
    assert "garlic_or_herbs_in_fat" not in said(TABLE, ("garlic", GARLIC, 5), ("oil", OLIVE_OIL, 30), salad)
    assert "garlic_or_herbs_in_fat" not in said(LOAF, ("garlic", GARLIC, 20), ("olive oil", OLIVE_OIL, 200))
    powder = ("garlic powder", food("garlic powder"), 5.0)
    assert "garlic_or_herbs_in_fat" not in said(TABLE, powder, ("olive oil", OLIVE_OIL, 200))


@pytest.mark.parametrize("name", ["fresh rosemary", "chilli", "herb mix", "sun-dried tomatoes with garlic"])
def test_herbs_in_butter_are_the_same(name: str) -> None:
    assert "garlic_or_herbs_in_fat" in said(TABLE, (name, food(name), 10), ("butter", BUTTER, 100))


def test_a_garlic_oil_made_before_stays_one_in_a_lean_dish() -> None:
    oil = made_of("garlic oil", (GARLIC, 10.0, False), (OLIVE_OIL, 90.0, False))
    caution = said(TABLE, ("garlic oil", oil, 20), ("cucumber", food("cucumber"), 300))["garlic_or_herbs_in_fat"]
    assert caution.trigger == "at the table: garlic oil (Garlic, raw), in fat"


@pytest.mark.parametrize("name", ["duck confit", "rillettes", "potted chicken", "legs, fat-sealed"])
def test_what_is_sealed_in_fat_keeps_three_to_four_days(name: str) -> None:
    caution = said(Component(name, "braised"), ("thigh", THIGH, 800), ("fat", OLIVE_OIL, 600))["sealed_in_fat"]
    assert "3 to 4 days" in caution.text


def test_curing_salt_is_never_a_variable() -> None:
    salt = item("pink salt", PINK)
    fixed = replace(salt, at_least_g=1.5, at_most_g=1.5)
    beef = item("ground beef", BEEF)
    (problem,) = curing_salt_problems(brief_of(beef, salt))
    assert (problem.pointer, problem.code) == ("/pantry/1", "curing_salt_varies")
    assert curing_salt_problems(brief_of(beef, fixed)) == ()
    for loose in (replace(salt, at_most_g=1.5), replace(salt, at_least_g=1.5), replace(fixed, at_most_g=2.0)):
        assert len(curing_salt_problems(brief_of(loose))) == 1


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("curing salt", 1),
        ("sodium nitrite", 1),
        ("saltpetre", 1),
        ("Himalayan pink salt", 0),
        ("nitrite-free bacon", 0),
        ("bacon with sodium nitrite", 0),
        ("sea salt", 0),
    ],
)
def test_curing_salt_is_told_by_its_name(name: str, expected: int) -> None:
    assert len(curing_salt_problems(brief_of(item(name, food(name))))) == expected


def test_a_cure_is_refused_and_a_sausage_that_holds_some_is_not() -> None:
    cure = made_of("my rub", (PINK, 20.0, False), (food("salt"), 80.0, False))
    sausage = made_of("my sausage", (PINK, 0.25, False), (BEEF, 99.75, False))
    assert len(curing_salt_problems(brief_of(item("my rub", cure)))) == 1
    assert curing_salt_problems(brief_of(item("my sausage", sausage))) == ()
    assert "curing_salt" in said(LOAF, ("my sausage", sausage, 300))


@pytest.mark.parametrize(("grams", "over"), [(2.5, False), (2.6, True), (10.0, True)])
def test_a_quarter_of_a_percent_is_the_most_of_it(grams: float, *, over: bool) -> None:
    cautions = said(LOAF, ("ground beef", BEEF, 1000 - grams), ("curing salt", PINK, grams))
    assert "156 ppm" in cautions["curing_salt"].text
    assert ("curing_salt_over_limit" in cautions) is over


def test_curing_salt_in_the_pantry_is_cautioned_without_a_plan() -> None:
    fixed = PantryItem("curing salt", PINK, at_least_g=1.0, at_most_g=1.0)
    assert [c.trigger for c in CAUTIONS(brief_of(fixed), None, None) if c.code == "curing_salt"] == [
        "the dish: curing salt"
    ]
    assert "curing_salt_over_limit" not in {c.code for c in CAUTIONS(brief_of(fixed), None, None)}
    loose = [c.trigger for c in CAUTIONS(brief_of(item("curing salt", PINK)), None, None)]
    assert loose == ["pantry: curing salt"]
