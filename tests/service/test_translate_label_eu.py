"""Regulation (EU) No 1169/2011 (quoted): carbohydrate without fibre and with polyols; salt is 2.5 times the sodium."""

import numpy as np
import pytest

from solver.amounts import parse_amount
from solver.measures import grams
from tests.service.labels import eu, refusals


@pytest.mark.parametrize("fibre", [0, 3, 30])
def test_fibre_is_never_taken_from_an_eu_label(fibre: float) -> None:
    crispbread = eu(carbohydrate_g=20, fibre_g=fibre)
    assert crispbread.value("available_carbohydrate_g") == 20
    assert crispbread.value("total_carbohydrate_g") == 20 + fibre


def test_without_fibre_the_total_stays_missing() -> None:
    cheese = eu(carbohydrate_g=2)
    assert np.isnan(cheese.value("total_carbohydrate_g"))
    assert np.isnan(cheese.value("fibre_g"))
    assert not cheese.total_carbohydrate_counted


def test_values_of_a_portion_are_brought_to_100_g() -> None:
    assert eu("25 g", fat_g="8,0 g").value("fat_g") == pytest.approx(32)


def test_salt_is_read_as_sodium() -> None:
    assert eu(salt_g=1.3).value("sodium_mg") == pytest.approx(520)
    assert eu(salt_g="<0,01 g").value("sodium_mg") == 0


def test_sodium_that_is_printed_too_is_used_and_must_agree() -> None:
    agreed = eu(salt_g=1.3, sodium_mg=515)
    assert agreed.value("sodium_mg") == 515
    assert agreed.remarks == ()
    assert any("salt" in remark for remark in eu(salt_g=1.3, sodium_mg=900).remarks)


def test_kcal_are_used_as_printed_and_only_without_them_taken_from_kj() -> None:
    assert eu(energy_kcal=400, energy_kj=1660).value("energy_kcal") == 400
    by_kj = eu(energy_kj=4184)
    assert by_kj.value("energy_kcal") == pytest.approx(1000)
    assert any("kJ alone" in remark for remark in by_kj.remarks)


def test_kj_that_do_not_go_with_their_kcal_are_doubted() -> None:
    # 400 kcal are at most 400.5 x 4.25 = 1702.125 kJ; at least 1799.5 are printed.
    (doubt,) = eu(energy_kcal=400, energy_kj=1800).remarks
    assert "97.375 kJ apart" in doubt


def test_polyols_are_in_the_carbohydrate_and_count_by_their_kind() -> None:
    sweets = eu(carbohydrate_g=90, fibre_g=0, polyols={"isomalt_g": 60, "erythritol_g": 20})
    assert sweets.value("available_carbohydrate_g") == pytest.approx(90 - 30 - 20)
    assert sweets.value("total_carbohydrate_g") == 90


def test_small_carbohydrate_is_read_as_half_a_gram() -> None:
    for printed in (0, "0 g", "<0,5 g"):
        sausage = eu(carbohydrate_g=printed)
        assert sausage.value("available_carbohydrate_g") == 0.5
        assert any("0.5 g in 100 g" in remark for remark in sausage.remarks)
    assert eu(carbohydrate_g=0, read_zero_as="zero").value("available_carbohydrate_g") == 0


def test_values_of_a_volume_need_its_density() -> None:
    assert refusals(layout="EU", per="100 ml", fat_g=3.5) == [("/source/density_g_per_ml", "no_density")]
    assert eu("100 ml", density_g_per_ml=1.03, fat_g=3.5).value("fat_g") == pytest.approx(3.5 / 1.03)


def test_a_food_of_known_density_may_be_measured_by_volume() -> None:
    milk = eu("100 ml", density_g_per_ml=1.03, fat_g=3.5)
    assert grams(parse_amount("200 ml"), milk) == pytest.approx(206)
    # UCUM: [cup_us] is 236.5882365 mL.
    assert grams(parse_amount("1 cup"), milk) == pytest.approx(236.5882365 * 1.03)


def test_a_sound_label_is_not_remarked_on() -> None:
    # 28 x 9 + 1.2 x 4 + 15.5 x 4 = 318.8 kcal; 28 x 37 + 1.2 x 17 + 15.5 x 17 = 1319.9 kJ.
    sausage = eu(energy_kj=1320, energy_kcal=319, fat_g=28, carbohydrate_g=1.2, fibre_g=0, protein_g=15.5, salt_g=2.3)
    assert sausage.remarks == ()


@pytest.mark.parametrize(
    ("fields", "pointer", "code"),
    [
        ({"per": "1 serving"}, "/source/per", "unknown_measure"),
        ({"per": "a bit"}, "/source/per", "unreadable_amount"),
        ({"per": "100 g", "fat_g": "1.000,5 g"}, "/source/fat_g", "unreadable_label_value"),
        ({"per": "100 g", "energy_kcal": "1500 kJ"}, "/source/energy_kcal", "wrong_unit"),
    ],
)
def test_what_cannot_be_read_is_refused_where_it_stands(fields: dict[str, object], pointer: str, code: str) -> None:
    assert refusals(layout="EU", **fields) == [(pointer, code)]
