"""The constants, against the definitions they follow from and the figures that were published for them."""

from fractions import Fraction

import pytest

from solver.units import (
    CUP,
    FLUID_OUNCE,
    GALLON,
    MILLILITRE,
    OUNCE,
    PINT,
    POUND,
    QUART,
    SPELLINGS,
    TABLESPOON,
    TEASPOON,
    UCUM_CODES,
    UNITS,
    Dimension,
    Unit,
    find_unit,
)

# UCUM 2.2 (2024-06-17): [in_i] = 2.54 cm, [gal_us] = 231 [in_i]'3, [lb_av] = 7000 [gr], [gr] = 64.79891 mg.
GALLON_ML = 231 * Fraction("2.54") ** 3
POUND_G = 7000 * Fraction("0.06479891")


@pytest.mark.parametrize(
    ("unit", "per_gallon"),
    [(GALLON, 1), (QUART, 4), (PINT, 8), (CUP, 16), (FLUID_OUNCE, 128), (TABLESPOON, 256), (TEASPOON, 768)],
)
def test_us_volumes_are_parts_of_231_cubic_inches(unit: Unit, per_gallon: int) -> None:
    assert unit.size == float(GALLON_ML / per_gallon)


def test_pound_is_7000_grains_and_an_ounce_a_sixteenth() -> None:
    assert float(POUND_G) == POUND.size
    assert float(POUND_G / 16) == OUNCE.size


# NIST SP 430, "household" column, printed to whole mL (tsp to 0.1).
@pytest.mark.parametrize(
    ("unit", "printed_ml", "digits"),
    [(TEASPOON, 4.9, 1), (TABLESPOON, 15, 0), (FLUID_OUNCE, 30, 0), (CUP, 237, 0), (PINT, 473, 0), (QUART, 946, 0)],
)
def test_volumes_round_to_the_household_figures_of_nist(unit: Unit, printed_ml: float, digits: int) -> None:
    assert round(unit.size, digits) == printed_ml


def test_sixteen_tablespoons_are_a_cup_and_three_teaspoons_a_tablespoon() -> None:
    assert 16 * TABLESPOON.size == CUP.size
    assert 3 * TEASPOON.size == pytest.approx(TABLESPOON.size, rel=1e-15)


def test_customary_measures_are_not_those_of_us_labels() -> None:
    # 21 CFR 101.9(b)(5)(viii), in UCUM [tsp_m] 5, [tbs_m] 15, [foz_m] 30 and [cup_m] 240 mL.
    assert not {unit.size for unit in UNITS} & {5.0, 15.0, 30.0, 240.0}
    assert not set(UCUM_CODES) & {"[tsp_m]", "[tbs_m]", "[foz_m]", "[cup_m]", "[oz_m]"}


@pytest.mark.parametrize("metric_cup", ["[cup_m]", "metric cup", "cup_m"])
def test_metric_cup_of_ucum_is_no_unit_here(metric_cup: str) -> None:
    assert find_unit(metric_cup) is None


def test_ucum_codes_are_those_of_the_standard() -> None:
    # UCUM 2.2.
    us = {"[tsp_us]", "[tbs_us]", "[foz_us]", "[cup_us]", "[pt_us]", "[qt_us]", "[gal_us]"}
    assert set(UCUM_CODES) == us | {"[lb_av]", "[oz_av]", "g", "kg", "mg", "mL", "dL", "L"}


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Tbsp.", "tbsp"),
        ("TABLESPOONS", "tbsp"),
        ("fl. oz.", "fl oz"),
        ("fluid  ounces", "fl oz"),
        ("lbs", "lb"),
        ("c.", "cup"),
        ("[cup_us]", "cup"),
        ("mL", "ml"),
        ("litres", "l"),
        ("gramme", "g"),
    ],
)
def test_find_unit_reads_the_ways_cooks_spell_it(text: str, name: str) -> None:
    unit = find_unit(text)
    assert unit is not None
    assert unit.name == name


@pytest.mark.parametrize("text", ["", "large", "cup, shredded", "gr", "imperial pint", "t", "T", "[CUP_US]"])
def test_find_unit_knows_nothing_else(text: str) -> None:
    assert find_unit(text) is None


def test_no_spelling_belongs_to_two_units() -> None:
    assert len(SPELLINGS) == sum(len(unit.spellings) for unit in UNITS)
    assert all(spelling == spelling.casefold() for spelling in SPELLINGS)


def test_names_are_spellings_of_their_units() -> None:
    assert all(SPELLINGS[unit.name] is unit for unit in UNITS)


def test_sizes_count_grams_and_millilitres() -> None:
    assert Dimension.VOLUME.value == "mL"
    assert MILLILITRE.size == 1.0
    assert SPELLINGS["g"].size == 1.0
