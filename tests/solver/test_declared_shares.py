"""Arithmetic of ketogenic therapy; sizes of the misfits computed by hand."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.declared import audit
from solver.label_rounding import Printed
from tests.solver.declarations import codes, declared, only


@pytest.mark.parametrize(("carbohydrate", "explains"), [(3, False), (4, True), (6, True), (7, False)])
def test_three_whole_percents_may_come_to_99_to_101(carbohydrate: int, explains: bool) -> None:  # noqa: FBT001
    finding = only(declared(fat_percent=75, protein_percent=20, carbohydrate_percent=carbohydrate))
    assert (finding.code, finding.rounding_explains) == ("distribution_sum", explains)


def test_a_distribution_that_sums_is_none_to_doubt_and_its_decimals_count() -> None:
    assert audit(declared(fat_percent=75, protein_percent=20, carbohydrate_percent=5)) == ()
    tenths = declared(
        fat_percent=Printed(75.0, 1), protein_percent=Printed(20.0, 1), carbohydrate_percent=Printed(4.0, 1)
    )
    assert not only(tenths).rounding_explains


def test_shares_and_ratio_are_held_against_the_macronutrients() -> None:
    plate = {"fat_g": 30, "protein_g": 25, "total_carbohydrate_g": 4, "fibre_g": 0}
    # 270 of 386 kcal are 69.9 %; 30 : 29 is 1.03.
    assert audit(declared(**plate, fat_share_percent=70, ketogenic_ratio=Printed(1.03, 2))) == ()
    share, ratio = audit(declared(**plate, fat_share_percent=75, ketogenic_ratio=2))
    assert (share.code, share.unit, share.rounding_explains) == ("share_differs", "percentage points", False)
    assert share.by == pytest.approx(75 - 27000 / 386)
    assert (ratio.code, ratio.unit) == ("ratio_differs", "1")


@pytest.mark.parametrize(("ratio", "share"), [(1, 69.23), (2, 81.82), (3, 87.10), (4, 90.0), (5, 91.84)])
def test_a_ratio_says_its_fat_share(ratio: int, share: float) -> None:
    # 9k / (9k + 4); 4:1 is 90 % in AccessPediatrics, ch. 53 (quoted).
    exact = {"ketogenic_ratio": Printed(ratio, 3)}
    assert audit(declared(**exact, fat_share_percent=Printed(share, 2))) == ()
    finding = only(declared(**exact, fat_share_percent=Printed(share - 1, 2)))
    assert (finding.code, finding.rounding_explains) == ("share_against_ratio", False)


def test_a_ratio_may_be_of_total_or_of_available_carbohydrate() -> None:
    for ratio in (2.5, 5):
        meal = {"fat_g": 50, "protein_g": 5, "total_carbohydrate_g": 15, "fibre_g": 10}
        assert "ratio_differs" not in codes(declared(**meal, ketogenic_ratio=ratio))


@given(st.lists(st.floats(0.01, 100), min_size=4, max_size=4))
def test_a_distribution_made_to_sum_by_largest_remainder_fits_its_macronutrients(grams: list[float]) -> None:
    fat, protein, carbohydrate, alcohol = grams
    energy = {"fat": 9 * fat, "protein": 4 * protein, "carbohydrate": 4 * carbohydrate, "alcohol": 7 * alcohol}
    exact = {name: 100 * part / sum(energy.values()) for name, part in energy.items()}
    whole = {name: math.floor(part) for name, part in exact.items()}
    largest = sorted(exact, key=lambda name: whole[name] - exact[name])
    for name in largest[: 100 - sum(whole.values())]:
        whole[name] += 1
    stated: dict[str, float | Printed] = {f"{name}_percent": float(part) for name, part in whole.items()}
    macronutrients = {"fat_g": fat, "protein_g": protein, "total_carbohydrate_g": carbohydrate, "alcohol_g": alcohol}
    found = audit(declared(**stated, **macronutrients))
    assert [finding for finding in found if not finding.rounding_explains] == []


def test_there_is_no_ratio_to_nothing() -> None:
    for rest in (0, 1e-9, 5e-324):
        assert audit(declared(fat_g=30, protein_g=rest, total_carbohydrate_g=0, ketogenic_ratio=4)) == ()
