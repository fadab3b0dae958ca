"""Tagnames and numbers as carried by the nutrient definition file of USDA SR28 (seen)."""

import pytest

from solver.as_eaten import PLACE
from solver.nutrients import NUTRIENTS
from solver.quantities import QUANTITIES, QUANTITY, Quantity
from solver.targets_default import default_within

# NUTR_DEF: number, unit, INFOODS tagname.
NUTR_DEF = [
    (203, "g", "PROCNT"),
    (204, "g", "FAT"),
    (205, "g", "CHOCDF"),
    (207, "g", "ASH"),
    (208, "kcal", "ENERC_KCAL"),
    (221, "g", "ALC"),
    (255, "g", "WATER"),
    (269, "g", "SUGAR"),
    (291, "g", "FIBTG"),
    (301, "mg", "CA"),
    (303, "mg", "FE"),
    (306, "mg", "K"),
    (307, "mg", "NA"),
    (601, "mg", "CHOLE"),
    (605, "g", "FATRN"),
    (606, "g", "FASAT"),
    (645, "g", "FAMS"),
    (646, "g", "FAPU"),
]

# UCUM 2.2 codes of mass and energy, of a percentage, and the unity.
UCUM = {"g", "mg", "ug", "kcal", "%", "1"}

AMOUNTS = [quantity for quantity in QUANTITIES if quantity.denominator is None]
RATIOS = [quantity for quantity in QUANTITIES if quantity.denominator is not None]


@pytest.mark.parametrize(("number", "unit", "tagname"), NUTR_DEF)
def test_nutrients_have_the_number_unit_and_tagname_of_the_definition_file(
    number: int, unit: str, tagname: str
) -> None:
    (nutrient,) = (nutrient for nutrient in NUTRIENTS if nutrient.tagname == tagname)
    assert (nutrient.sr28_number, nutrient.unit) == (number, unit)


def test_only_available_carbohydrate_is_derived() -> None:
    assert [nutrient.tagname for nutrient in NUTRIENTS if nutrient.sr28_number is None] == ["CHOAVLDF"]


@pytest.mark.parametrize("field", ["name", "tagname"])
def test_nutrients_are_told_apart(field: str) -> None:
    assert len({getattr(nutrient, field) for nutrient in NUTRIENTS}) == len(NUTRIENTS)


def test_energy_is_never_the_tagname_that_some_tables_mean_kj_by() -> None:
    assert "ENERC" not in {nutrient.tagname for nutrient in NUTRIENTS}


def test_names_are_unique() -> None:
    assert len(QUANTITY) == len(QUANTITIES)


def test_every_nutrient_can_be_a_target_in_its_own_unit() -> None:
    assert {n.name: n.unit for n in NUTRIENTS}.items() <= {q.name: q.unit for q in QUANTITIES}.items()


def test_units_are_ucum_codes() -> None:
    assert {quantity.unit for quantity in QUANTITIES} <= UCUM


@pytest.mark.parametrize("quantity", AMOUNTS, ids=lambda quantity: quantity.name)
def test_the_name_of_an_amount_ends_in_its_unit(quantity: Quantity) -> None:
    assert quantity.name.endswith(f"_{quantity.unit}")


def test_ratios_are_the_three_shares_and_the_ketogenic_ratio() -> None:
    assert {quantity.name: (quantity.unit, quantity.factor) for quantity in RATIOS} == {
        "fat_share_percent": ("%", 100),
        "protein_share_percent": ("%", 100),
        "carbohydrate_share_percent": ("%", 100),
        "ketogenic_ratio": ("1", 1),
    }


def test_shares_divide_by_all_macro_energy_alcohol_included() -> None:
    for quantity in RATIOS:
        if quantity.unit == "%":
            assert quantity.denominator is not None
            assert set(quantity.denominator) >= set(quantity.numerator)
            assert "energy_from_alcohol_kcal" in quantity.denominator
            assert len(quantity.denominator) == 4


def test_every_quantity_is_counted_from_columns_that_exist() -> None:
    assert frozenset().union(*(quantity.columns for quantity in QUANTITIES)) <= frozenset(PLACE)


def test_energy_is_counted_on_the_basis_of_the_brief_and_not_as_stated() -> None:
    assert QUANTITY["energy_kcal"].columns == {"basis_energy_kcal"}


def test_every_quantity_has_a_default_width() -> None:
    assert all(default_within(quantity.name, 10.0) > 0 for quantity in QUANTITIES)
