"""US limits and EU ranges as in test_tolerances: quoted from FDA (1998) and the Commission (2012)."""

from solver.declared import audit
from solver.declared_computed import computed_of
from solver.outcome import Totals
from tests.solver.declarations import codes, declared, only


def test_the_us_tolerance_looks_to_one_side() -> None:
    label = declared("US", 28, fat_g=9, total_carbohydrate_g=10)
    over, under = audit(label, {"fat_g": 12, "total_carbohydrate_g": 7})
    assert (over.code, over.about, over.by, over.rounding_explains) == ("outside_us_tolerance", "fat_g", 3, False)
    assert (under.about, under.by) == ("total_carbohydrate_g", 3)
    assert audit(label, {"fat_g": 2, "total_carbohydrate_g": 30}) == ()


def test_a_us_zero_that_rounds_lawfully_is_explained() -> None:
    finding = only(declared("US", sugars_g=0), {"sugars_g": 0.4})
    assert (finding.code, finding.rounding_explains) == ("outside_us_tolerance", True)


def test_the_eu_tolerance_is_for_100_g_and_looks_to_both_sides() -> None:
    # 15 g in 50 g are 30 g in 100 g: 24 to 36 g, one of the worked ranges.
    label = declared("EU", 50, fat_g=15)
    assert audit(label, {"fat_g": 12.1}) == audit(label, {"fat_g": 17.9}) == ()
    for found in (11.9, 18.1):
        finding = only(label, {"fat_g": found})
        assert finding.code == "outside_eu_tolerance"
        assert f"is 24 g to 36 g in 100 g, where we compute {2 * found:g} g" in finding.text
    assert audit(declared("EU", fat_g=15), {"fat_g": 30}) == ()


def test_without_a_layout_both_tolerances_are_looked_at() -> None:
    assert codes(declared(None, 100, fat_g=20), {"fat_g": 30}) == ["outside_us_tolerance", "outside_eu_tolerance"]


def test_what_has_no_tolerance_just_differs() -> None:
    stated = declared("EU", 100, energy_kcal=300, fat_share_percent=75)
    found = audit(stated, {"energy_kcal": 281.2, "fat_share_percent": 71.3})
    assert [finding.code for finding in found] == ["differs_from_computed"] * 2
    assert audit(stated, {"energy_kcal": 300.4, "fat_share_percent": 74.6, "protein_g": 9, "salt_g": None}) == ()


def test_totals_of_a_dish_are_brought_to_the_declared_amount_and_sums_with_gaps_are_not_compared() -> None:
    values = {"fat_g": 120.0, "fibre_g": 3.0, "water_g": 200.0, "sugars_g": None}
    totals = Totals(600, 1500, 6200, values, {"fibre_g": ("kale",)})
    ours = computed_of(totals, 150)
    assert ours == {"energy_kcal": 375, "energy_kj": 1550, "fat_g": 30, "fibre_g": None, "sugars_g": None}
    assert codes(declared("EU", 150, fat_g=30, fibre_g=9, sugars_g=4), ours) == []


def test_declared_salt_is_held_against_the_sodium_that_we_compute() -> None:
    # 520 mg sodium are 1.3 g salt; 1.3 g declared may be off by a fifth in the EU (row from memory).
    assert audit(declared("EU", 100, salt_g=1.3), {"sodium_mg": 520}) == ()
    assert only(declared("EU", 100, salt_g=1.3), {"sodium_mg": 800}).follows == "2 g"
