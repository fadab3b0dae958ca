"""Sizes of the misfits are computed by hand from the rounding rules of `label_rounding`."""

import pytest

from solver.declared import audit
from tests.solver.declarations import codes, declared, only


def test_macronutrients_weigh_no_more_than_the_food() -> None:
    finding = only(declared("US", 28, fat_g=20, protein_g=10, total_carbohydrate_g=1))
    assert (finding.code, finding.about, finding.by) == ("heavier_than_food", "weight_g", 3)
    # At least 19.5 + 9.5 + 0.5 = 29.5 g in 28 g.
    assert "1.5 g remain" in finding.text
    assert only(declared("US", 14, fat_g=14, protein_g=0.5, total_carbohydrate_g=0)).rounding_explains
    assert audit(declared("US", 14, fat_g=14, protein_g=0, total_carbohydrate_g=0)) == ()


def test_fibre_weighs_where_carbohydrate_is_declared_without_it() -> None:
    bran = {"fat_g": 10, "protein_g": 20, "fibre_g": 40}
    assert codes(declared("EU", 100, **bran, available_carbohydrate_g=40)) == ["heavier_than_food"]
    assert audit(declared("US", 100, **bran, total_carbohydrate_g=70)) == ()
    assert codes(declared("US", 100, fat_g=10, protein_g=20, total_carbohydrate_g=70, alcohol_g=5)) == [
        "heavier_than_food"
    ]


@pytest.mark.parametrize(
    ("values", "about", "by", "explains"),
    [
        ({"fat_g": 5, "saturated_fat_g": 7}, "fat_g", 2, False),
        ({"fat_g": 5, "saturated_fat_g": 5, "trans_fat_g": 0.5}, "fat_g", 0.5, True),
        ({"total_carbohydrate_g": 5, "sugars_g": 7}, "total_carbohydrate_g", 2, False),
        ({"total_carbohydrate_g": 5, "fibre_g": 7}, "total_carbohydrate_g", 2, False),
        ({"total_carbohydrate_g": 6, "sugars_g": 3, "fibre_g": 4}, "total_carbohydrate_g", 1, True),
        ({"available_carbohydrate_g": 5, "sugars_g": 7}, "available_carbohydrate_g", 2, False),
    ],
)
def test_parts_are_not_more_than_the_whole(values: dict[str, float], about: str, by: float, explains: bool) -> None:  # noqa: FBT001
    finding = only(declared("US", **values))
    assert (finding.code, finding.about, finding.rounding_explains) == ("parts_above_whole", about, explains)
    assert finding.by == pytest.approx(by)


def test_fibre_is_no_part_of_carbohydrate_without_it() -> None:
    assert audit(declared("EU", available_carbohydrate_g=2, fibre_g=30)) == ()


def test_salt_is_two_and_a_half_times_the_sodium() -> None:
    # Regulation (EU) No 1169/2011, Annex I.
    assert audit(declared("EU", salt_g=1.3, sodium_mg=520)) == ()
    assert only(declared("EU", salt_g=1.3, sodium_mg=1000)).code == "salt_differs"
