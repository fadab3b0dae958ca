"""Factors: 21 CFR 101.9(c)(1)(i), Annex XIV of Regulation (EU) No 1169/2011 (quoted); misfits computed by hand."""

import pytest

from solver.declared import audit
from solver.energy import Factors
from solver.label_rounding import Printed
from tests.solver.declarations import codes, declared, only

# A published puzzle (the contest task "Close Enough Computations", quoted): true amounts may be 12.1, 30.6 and 4.7.
PUZZLE = {"fat_g": 12, "total_carbohydrate_g": 31, "protein_g": 5}


def test_the_published_label_goes_together_though_its_numbers_come_to_252() -> None:
    assert audit(declared("US", **PUZZLE, energy_kcal=250)) == ()
    plain = only(declared(**PUZZLE, energy_kcal=250))
    assert plain.rounding_explains
    assert (plain.by, plain.unit, plain.fits) == (2, "kcal", ("general",))


def test_the_same_label_with_280_kcal_is_beyond_rounding() -> None:
    # At most 12.5 x 9 + 31.5 x 4 + 5.5 x 4 = 260.5 kcal, at least 275 are printed.
    finding = only(declared("US", **PUZZLE, energy_kcal=280))
    assert (finding.code, finding.about, finding.by) == ("energy_differs", "energy_kcal", 28)
    assert not finding.rounding_explains
    assert "14.5 kcal remain" in finding.text


def test_the_printed_error_of_a_compendium_is_found() -> None:
    # A compendium of clinical formulas prints 39 kcal from fat for the 4 g of a 4:1 unit; 9 x 4 is 36.
    finding = only(declared(energy_from_fat_kcal=39, fat_g=Printed(4, 1)))
    assert (finding.code, finding.declared, finding.by) == ("energy_from_one_differs", "39 kcal", 3)
    assert finding.follows.startswith("36 kcal")
    assert not finding.rounding_explains
    # 4 g that were rounded to whole grams may be 4.4 g, and have 39.6 kcal.
    assert only(declared(energy_from_fat_kcal=39, fat_g=4)).rounding_explains


def test_olive_oil_fits_its_own_factor_and_not_the_general_one() -> None:
    # USDA SR28, 04053: 884 kcal, fat factor 8.84.
    oil = {"energy_kcal": 884, "fat_g": 100, "protein_g": 0, "total_carbohydrate_g": 0}
    general = only(declared(**oil))
    assert (general.code, general.by, general.rounding_explains) == ("energy_differs", 16, False)
    assert "other factors" in general.text
    own = only(declared(None, None, Factors(protein=4, fat=8.84, carbohydrate=4, alcohol=6.93), **oil))
    assert (own.code, own.fits, own.by) == ("energy_basis", ("specific",), 16)
    assert "900 kcal (general)" in own.follows


def test_which_basis_an_energy_fits_is_said() -> None:
    # USDA SR28, 12061 almonds, 100 g: 21.15 P, 49.93 F, 21.55 C, 12.5 fibre: 620 kcal by 4-9-4 on all carbohydrate,
    # 570 on the available, 595 by the regulation.
    almonds = {
        "protein_g": Printed(21.15, 2),
        "fat_g": Printed(49.93, 2),
        "total_carbohydrate_g": Printed(21.55, 2),
        "fibre_g": Printed(12.5, 1),
    }
    for energy, way in ((620, "general"), (570, "general on available"), (595, "regulation")):
        assert only(declared(**almonds, energy_kcal=energy)).fits == (way,)
    # The stated 579 kcal are by the food's own factors 3.47, 8.37 and 4.07.
    own = Factors(protein=3.47, fat=8.37, carbohydrate=4.07, alcohol=6.93)
    assert only(declared(None, None, own, **almonds, energy_kcal=579)).fits == ("specific",)
    assert only(declared(**almonds, energy_kcal=579)).code == "energy_differs"


def test_kj_are_counted_with_factors_of_their_own() -> None:
    # Annex XIV: 100 g fat is 900 kcal and 3700 kJ; 900 x 4.184 = 3765.6.
    fat = {"fat_g": 100, "protein_g": 0, "available_carbohydrate_g": 0, "fibre_g": 0}
    assert audit(declared("EU", **fat, energy_kcal=900, energy_kj=3700)) == ()
    converted = only(declared("EU", **fat, energy_kcal=900, energy_kj=3766))
    assert (converted.code, converted.about, converted.by) == ("kj_converted", "energy_kj", 66)
    assert not converted.rounding_explains


def test_kj_that_no_food_has_for_its_kcal_are_found_without_macronutrients() -> None:
    # 400.5 kcal at 4.25 are 1702.1 kJ; at least 1799.5 are printed.
    finding = only(declared("EU", energy_kcal=400, energy_kj=1800))
    assert (finding.code, finding.rounding_explains) == ("kj_against_kcal", False)
    assert audit(declared("EU", energy_kcal=400, energy_kj=1674)) == ()


@pytest.mark.parametrize("carbohydrate", [{"available_carbohydrate_g": 10}, {"total_carbohydrate_g": 20}])
def test_fibre_that_was_taken_off_an_eu_label_is_found(carbohydrate: dict[str, float]) -> None:
    # The label says 20 g carbohydrate and 10 g fibre: 90 + 40 + 80 + 20 = 230 kcal. Whoever takes the fibre off
    # declares 10 g; whoever reads it as a US label declares a total of 20 g.
    finding = only(declared("EU", 100, energy_kcal=230, fat_g=10, protein_g=10, fibre_g=10, **carbohydrate))
    assert (finding.code, finding.rounding_explains) == ("fibre_taken_off", False)
    right = declared("EU", 100, energy_kcal=230, fat_g=10, protein_g=10, fibre_g=10, available_carbohydrate_g=20)
    assert codes(right) == ["energy_basis"]


def test_alcohol_and_polyols_bring_energy_too() -> None:
    # 10 g alcohol at 7, 20 g polyols at 2.4 of 25 g carbohydrate: 70 + 48 + 20 = 138 kcal.
    stated = {"fat_g": 0, "protein_g": 0, "total_carbohydrate_g": 25, "energy_kcal": 138}
    assert codes(declared(**stated)) == ["energy_differs"]
    assert audit(declared(**stated, alcohol_g=10, polyols_g=20)) == ()
