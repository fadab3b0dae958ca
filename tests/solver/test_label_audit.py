"""Rules from 21 CFR 101.9(c) and Regulation (EU) No 1169/2011 (both quoted); sizes of the misfits computed by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.label_audit import Claims, doubts
from solver.label_rounding import EU, US, Interval, Printed, may_stand_for
from solver.label_text import number_printed


def us(weight_g: float = 100, **values: float) -> Claims:
    return Claims(
        weight_g, {name: may_stand_for(number_printed(value), US.get(name)) for name, value in values.items()}
    )


def eu(weight_g: float = 100, **values: float) -> Claims:
    return Claims(
        weight_g, {name: may_stand_for(number_printed(value), EU.get(name)) for name, value in values.items()}
    )


# A published puzzle (the contest task "Close Enough Computations", quoted): 12 g fat, 31 g carbohydrate, 5 g protein
# and 250 kcal fit together, though the printed numbers come to 252; true amounts may be 12.1, 30.6 and 4.7.
PUZZLE = {"fat_g": 12, "total_carbohydrate_g": 31, "protein_g": 5, "fibre_g": 0}


def test_the_published_label_fits_though_its_numbers_come_to_252() -> None:
    assert 12 * 9 + 31 * 4 + 5 * 4 == 252
    assert doubts(us(**PUZZLE, energy_kcal=250)) == ()


def test_its_true_amounts_are_inside_its_intervals() -> None:
    claims = us(**PUZZLE, energy_kcal=250).values
    true = {"fat_g": 12.1, "total_carbohydrate_g": 30.6, "protein_g": 4.7, "energy_kcal": 250.1}
    assert pytest.approx(250.1) == 12.1 * 9 + 30.6 * 4 + 4.7 * 4
    assert all(claims[name].low <= value <= claims[name].high for name, value in true.items())


def test_the_same_label_with_280_kcal_is_too_much_by_what_rounding_leaves() -> None:
    # At most 12.5 x 9 + 31.5 x 4 + 5.5 x 4 = 260.5 kcal, at least 275 are printed.
    (doubt,) = doubts(us(**PUZZLE, energy_kcal=280))
    assert "275 to 285 kcal" in doubt
    assert "14.5 kcal apart" in doubt


def test_fibre_may_be_counted_with_any_energy_up_to_that_of_carbohydrate() -> None:
    almonds = {"fat_g": 14, "total_carbohydrate_g": 6, "protein_g": 6, "fibre_g": 4}
    for energy in (160, 170):
        assert doubts(us(28, **almonds, energy_kcal=energy)) == ()
    assert len(doubts(us(28, **almonds, energy_kcal=120))) == 1


def test_an_eu_label_counts_by_annex_xiv_in_both_units() -> None:
    # 10 g each: 9 x 10 + 4 x 10 + 4 x 10 + 2 x 10 = 190 kcal; 370 + 170 + 170 + 80 = 790 kJ.
    macronutrients = {"fat_g": 10, "carbohydrate_g": 10, "protein_g": 10, "fibre_g": 10}
    assert doubts(eu(**macronutrients, energy_kcal=190, energy_kj=790)) == ()
    found = doubts(eu(**macronutrients, energy_kcal=290, energy_kj=790))
    # At most 10.5 x (9 + 4 + 4 + 2) = 199.5 kcal where 289.5 are printed; these are at least 1158 kJ, where 790.5 are.
    assert "90 kcal apart" in found[0]
    assert "367.5 kJ apart" in found[1]
    assert len(found) == 2


def test_kj_are_no_fixed_multiple_of_kcal() -> None:
    # Fat, 900 kcal and 3700 kJ, is 4.11 kJ to the kcal; 4.184 and the 4.25 of carbohydrate fit as well.
    for kj in (3700, 3766, 3825):
        assert doubts(eu(energy_kcal=900, energy_kj=kj)) == ()
    assert len(doubts(eu(energy_kcal=900, energy_kj=3900))) == 1


def test_unknown_fibre_of_an_eu_label_may_be_what_there_is_room_for() -> None:
    bran = {"fat_g": 5, "carbohydrate_g": 20, "protein_g": 15}
    assert doubts(eu(**bran, energy_kcal=265)) == ()
    assert len(doubts(eu(**bran, fibre_g=1, energy_kcal=265))) == 1


def test_parts_are_not_more_than_the_whole() -> None:
    (fat,) = doubts(us(28, fat_g=5, saturated_fat_g=5, trans_fat_g=2))
    # At least 4.75 + 1.75 = 6.5 g in at most 5.5 g.
    assert "saturated + trans" in fat
    assert "1 g too much" in fat
    (carbohydrate,) = doubts(us(28, total_carbohydrate_g=5, sugars_g=4, fibre_g=3))
    # At least 3.5 + 2.5 = 6 g in at most 5.5 g.
    assert "sugars + fibre" in carbohydrate
    assert "0.5 g too much" in carbohydrate


def test_fibre_is_no_part_of_eu_carbohydrate() -> None:
    assert doubts(eu(carbohydrate_g=2, fibre_g=30)) == ()


def test_polyols_are_part_of_carbohydrate_and_have_their_own_energy() -> None:
    # 20 g polyols at 2.4 and 2 g at 4 kcal: 56 kcal.
    held = eu(fat_g=0, protein_g=0, carbohydrate_g=22, fibre_g=0, energy_kcal=56)
    assert len(doubts(held)) == 1
    assert doubts(Claims(100, held.values, polyols=Interval(19.5, 20.5))) == ()
    (over,) = doubts(Claims(100, eu(carbohydrate_g=22).values, polyols=Interval(25, 26)))
    assert "polyols and allulose" in over
    assert "2.5 g too much" in over


def test_erythritol_has_no_energy() -> None:
    held = eu(fat_g=0, protein_g=0, carbohydrate_g=30, fibre_g=0, energy_kcal=2)
    assert doubts(Claims(100, held.values, erythritol=Interval(29.5, 30.5))) == ()
    assert len(doubts(Claims(100, held.values, polyols=Interval(29.5, 30.5)))) == 1


def test_macronutrients_weigh_no_more_than_their_serving() -> None:
    (doubt,) = doubts(us(28, fat_g=20, protein_g=10, total_carbohydrate_g=1))
    # At least 19.5 + 9.5 + 0.5 = 29.5 g in 28 g.
    assert "1.5 g too much" in doubt
    assert doubts(us(14, fat_g=14, protein_g=0, total_carbohydrate_g=0)) == ()


def test_salt_is_two_and_a_half_times_the_sodium() -> None:
    assert doubts(eu(salt_g=1.3, sodium_mg=520)) == ()
    (doubt,) = doubts(eu(salt_g=1.3, sodium_mg=1000))
    assert "2.5 times the sodium" in doubt


def test_what_is_missing_is_not_doubted() -> None:
    assert doubts(us(28, energy_kcal=900)) == ()
    assert doubts(eu(energy_kcal=100, fat_g=50)) == ()


amounts = st.floats(0, 30)


@given(amounts, amounts, amounts, st.floats(0, 1))
def test_a_true_us_label_is_never_doubted(fat: float, protein: float, total: float, fibre_share: float) -> None:
    fibre = total * fibre_share
    true = {"fat_g": fat, "protein_g": protein, "total_carbohydrate_g": total, "fibre_g": fibre}
    true["energy_kcal"] = 9 * fat + 4 * protein + 4 * (total - fibre) + 2 * fibre
    printed = {name: us_printed(name, value) for name, value in true.items()}
    assert doubts(Claims(100, {name: may_stand_for(value, US[name]) for name, value in printed.items()})) == ()


def us_printed(name: str, value: float) -> Printed:
    """As Appendix H has it printed."""
    if name == "energy_kcal":
        tens = 5 if value <= 50 else 10
        return Printed(0 if value < 5 else round(value / tens) * tens)
    if value < 0.5:
        return Printed(0)
    if name != "fat_g" and value < 1:
        return Printed(1, less_than=True)
    step = 0.5 if name == "fat_g" and value < 5 else 1.0
    return Printed(round(value / step) * step)
