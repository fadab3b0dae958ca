"""What applies to a food, from which evidence, and why nothing does."""

from pathlib import Path

import pytest

from reference_data import reference_folder
from solver.catalogue import Catalogue
from solver.cooking_rows import CookingRow, FatCurve
from solver.cooking_table import CookingTable, load_cooking_table
from solver.errors import ReferenceDataError

THIGH, SALMON, MINCE, BACON, EGG = "sr28:05091", "sr28:15079", "sr28:23572", "sr28:10123", "sr28:01123"


@pytest.fixture(scope="module")
def table() -> CookingTable:
    return load_cooking_table(reference_folder() / "cooking")


def rows(table: CookingTable, catalogue: Catalogue, food_id: str) -> dict[str, CookingRow]:
    found = table.applies_to(catalogue.food(food_id))
    return {row.method: row for row in found if isinstance(row, CookingRow)}


def test_a_pair_of_the_food_itself_is_measured_and_the_rest_is_estimated(
    table: CookingTable, catalogue: Catalogue
) -> None:
    thigh = rows(table, catalogue, THIGH)
    assert thigh["roasted"].measured
    assert thigh["roasted"].yield_g_per_g == pytest.approx(0.71, abs=0.005)
    assert thigh["roasted"].fat_retention_g_per_g == pytest.approx(0.63, abs=0.005)
    assert not thigh["hot air"].measured
    assert "no pairs with hot air exist" in thigh["hot air"].why


def test_bacon_keeps_a_third_of_its_fat_in_the_pan(table: CookingTable, catalogue: Catalogue) -> None:
    assert rows(table, catalogue, BACON)["pan-fried"].fat_retention_g_per_g == pytest.approx(0.33, abs=0.005)


def test_every_row_keeps_at_most_what_was_there_inside_its_own_interval(
    table: CookingTable, catalogue: Catalogue
) -> None:
    for food_id in (THIGH, SALMON, MINCE, BACON, EGG):
        for row in rows(table, catalogue, food_id).values():
            assert 0 < row.yield_g_per_g <= 1
            assert row.fat_retention_low_g_per_g <= row.fat_retention_g_per_g <= 1
            assert row.fat_retention_g_per_g <= row.fat_retention_high_g_per_g
            assert row.why
            assert row.source == "sr28"


def test_mince_has_its_curves_before_its_rows(table: CookingTable, catalogue: Catalogue) -> None:
    found = table.applies_to(catalogue.food(MINCE))
    curves = [row for row in found if isinstance(row, FatCurve)]
    assert list(found[: len(curves)]) == curves
    assert {curve.mix for curve in curves} >= {"broiled patty", "pan-fried patty", "pan-fried crumbles", "baked loaf"}


def test_a_broiled_patty_of_thirty_percent_renders_what_the_scale_of_the_release_says(table: CookingTable) -> None:
    # 900 g of 30 % mince: about 175 g render by the rows of SR28 (270 g less 10.55 g per 100 g).
    patty = next(curve for curve in table.curves if curve.mix == "broiled patty")
    assert 270 - patty.fat_kept_g(900, 270) == pytest.approx(175, abs=900 * patty.fat_kept_half_interval_g_per_g)
    assert patty.cooked_g(900, 270) == pytest.approx(900 * 0.565, abs=900 * patty.yield_half_interval_g_per_g)


@pytest.mark.parametrize(
    ("food_id", "reason"),
    [
        ("sr28:23573", "does not say that the food is raw"),
        ("sr28:01001", "no pairs"),
        ("sr28:05314", "pumped"),
    ],
)
def test_nothing_applies_for_a_reason(table: CookingTable, catalogue: Catalogue, food_id: str, reason: str) -> None:
    food = catalogue.food(food_id)
    assert table.applies_to(food) == ()
    assert reason in (table.why_nothing(food) or "")


def test_a_folder_without_the_tables_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ReferenceDataError, match=r"pairs\.csv"):
        load_cooking_table(tmp_path)
