"""Every row of the Indian Food Composition Tables 2017 as an EU label, broken down, against arithmetic done here.

The factors are typed in from Regulation (EU) No 1169/2011, Annex XIV (read in a second-hand transcription), and from
21 CFR 101.9(c)(1)(i) (4-9-4); FA/G is Woodyatt's (1921, quoted second hand). ENERC of the table is in kJ.
"""

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest

from service.schemas.breakdown import BreakdownAnswer, OnBasisAnswer
from service.schemas.breakdown_body import BreakdownBody
from service.settings import Settings
from service.translate.breakdown import to_given_dish
from service.translate.reference import Reference
from service.translate.to_breakdown import to_breakdown
from tests.service.ifct import Row, ifct_rows
from tests.service.ifct_by_hand import HALF_OF_A_KJ, PARTS, expected, read_parts, rounding_explains, whole_percents


@pytest.fixture(scope="module")
def table() -> list[Row]:
    return ifct_rows()


@pytest.fixture(scope="module")
def broken_down(table: list[Row], reference: Reference) -> list[tuple[Row, BreakdownAnswer]]:
    return [(row, breakdown(row, reference)) for row in table if reason(row) is None]


def reason(row: Row) -> str | None:
    """Why a row cannot be held against its own parts; None for one that can."""
    missing = [name for name in (*PARTS, "energy_kj") if getattr(row, name) is None]
    if not missing:
        return None
    return "a fat or oil, of which the table has the fat alone" if "fat_g" not in missing else ", ".join(missing)


def label(row: Row) -> dict[str, Any]:
    """The row as an EU label; what the table does not have is not there."""
    stated = {name: getattr(row, name) for name in (*PARTS, "energy_kj")}
    printed = {name: value for name, value in stated.items() if value is not None}
    return {"kind": "label", "layout": "EU", "per": "100 g", **printed}


def declared(row: Row) -> dict[str, Any]:
    """What the table prints of 100 g, with the decimals that it prints."""
    grams = {name: getattr(row, name) for name in PARTS}
    printed = {name: f"{value:.2f} g" for name, value in grams.items() if value is not None}
    if "carbohydrate_g" in printed:
        printed["available_carbohydrate_g"] = printed.pop("carbohydrate_g")
    energy = {} if row.energy_kj is None else {"energy_kj": f"{row.energy_kj:.0f} kJ"}
    return {"per": "100 g", **printed, **energy}


def breakdown(row: Row, reference: Reference) -> BreakdownAnswer:
    """A portion of 250 g, so that 100 g is not what was put in."""
    body = {
        "title": row.name,
        "energy_basis": "regulation",
        "portions": 2,
        "ingredients": [{"name": row.code, "source": label(row), "amount": "500 g"}],
        "declared": declared(row),
    }
    return to_breakdown(to_given_dish(BreakdownBody.model_validate(body), reference, Settings()), reference)


def distribution(answer: OnBasisAnswer) -> list[int]:
    found = answer.energy_distribution_percent
    assert found is not None
    assert found.alcohol == 0
    return [found.fat, found.protein, found.carbohydrate]


def unexplained(answer: BreakdownAnswer) -> Iterator[tuple[str, str]]:
    return ((each.code, each.about) for each in answer.findings if not each.rounding_explains)


def test_528_rows_have_the_parts_and_the_other_14_are_fats_and_oils(table: list[Row]) -> None:
    without = {row.code: f"{row.name}: {why}" for row in table if (why := reason(row)) is not None}
    listed = "\n".join(without.values())
    assert len(table) == 542
    assert Counter(map(reason, table)) == {None: 528, "a fat or oil, of which the table has the fat alone": 14}, listed
    assert sorted(without) == [f"T{number:03}" for number in range(1, 15)]


def test_every_row_has_its_energy_on_every_basis_in_kcal_and_in_kj(
    broken_down: list[tuple[Row, BreakdownAnswer]],
) -> None:
    for row, answer in broken_down:
        by_hand = expected(row)
        assert [each.basis for each in answer.bases] == list(by_hand), row.name
        for each in answer.bases:
            per_batch = by_hand[each.basis]
            assert each.energy_kcal == pytest.approx(float(5 * per_batch.kcal), abs=2e-6), (row.name, each.basis)
            assert each.energy_kj == pytest.approx(float(5 * per_batch.kj), abs=2e-6), (row.name, each.basis)


def test_every_row_has_its_distribution_fat_share_and_ratios(broken_down: list[tuple[Row, BreakdownAnswer]]) -> None:
    for row, answer in broken_down:
        by_hand = expected(row)
        for each in answer.bases:
            shares = by_hand[each.basis].slices_kcal
            assert distribution(each) == whole_percents(shares), (row.name, each.basis)
            assert sum(distribution(each)) == 100
            assert each.fat_share_percent == pytest.approx(float(100 * shares[0] / sum(shares)), abs=1e-6)
        protein, fat, carbohydrate, _ = read_parts(row)
        assert answer.fat_share_percent == answer.bases[1].fat_share_percent, "on the basis that was asked for"
        assert answer.ketogenic_ratio == pytest.approx(float(fat / (protein + carbohydrate)), abs=1e-6)
        glucose = carbohydrate + Fraction("0.58") * protein + fat / 10
        acids = Fraction("0.9") * fat + Fraction("0.46") * protein
        assert answer.fatty_acid_to_glucose == pytest.approx(float(acids / glucose), abs=1e-6)


def test_batch_portion_and_hundred_grams_of_every_row_are_one_food(
    broken_down: list[tuple[Row, BreakdownAnswer]],
) -> None:
    for row, answer in broken_down:
        protein, fat, carbohydrate, fibre = map(float, read_parts(row))
        for totals, hundreds in ((answer.raw, 5), (answer.batch, 5), (answer.portion, 2.5), (answer.per_100g, 1)):
            known = totals.nutrients
            found = [known["protein_g"], known["fat_g"], known["available_carbohydrate_g"], known["fibre_g"]]
            assert found == pytest.approx([hundreds * part for part in (protein, fat, carbohydrate, fibre)], abs=1e-6)
            assert known["total_carbohydrate_g"] == pytest.approx(hundreds * (carbohydrate + fibre), abs=1e-6)
            assert totals.grams == pytest.approx(100 * hundreds), row.name


def test_the_audit_finds_fault_with_the_printed_energy_exactly_where_rounding_cannot_explain_it(
    broken_down: list[tuple[Row, BreakdownAnswer]],
) -> None:
    explained: Counter[bool] = Counter()
    for row, answer in broken_down:
        explained[rounding_explains(row)] += 1
        ours = expected(row)["regulation"].kj
        assert sorted(unexplained(answer)) == sorted(
            [("energy_differs", "energy_kj")] * (not rounding_explains(row))
            + [("differs_from_computed", "energy_kj")] * (abs(ours - Fraction(f"{row.energy_kj:.0f}")) > HALF_OF_A_KJ)
        ), row.name
    assert explained == {True: 196, False: 332}, "the table's own factors are not those of a label"


def test_the_row_that_is_furthest_from_its_own_parts_is_a_misprint_that_the_audit_finds(
    broken_down: list[tuple[Row, BreakdownAnswer]],
) -> None:
    # 17 x 19.44 + 37 x 12.64 = 798.16 kJ, and the table prints 1605.
    apart = {
        row.name: each.by for row, answer in broken_down for each in answer.findings if each.code == "energy_differs"
    }
    worst = max(apart, key=lambda name: apart[name])
    assert worst == "Chicken, poultry, leg, skinless"
    assert apart[worst] == pytest.approx(1605 - 798.16)


def test_what_the_table_does_not_have_of_fats_and_oils_is_not_made_up(table: list[Row], reference: Reference) -> None:
    for row in table:
        if reason(row) is None or row.fat_g is None:
            continue
        answer = breakdown(row, reference)
        assert answer.energy_distribution_percent is None
        assert answer.fat_share_percent is None
        assert answer.ketogenic_ratio is None
        assert answer.fatty_acid_to_glucose is None
        assert {"protein_g", "available_carbohydrate_g", "fibre_g"} <= answer.per_100g.lacking.keys()
        assert answer.per_100g.energy_kcal == pytest.approx(9 * row.fat_g), "a lower bound"
        assert answer.per_100g.energy_kj == pytest.approx(37 * row.fat_g)
        assert answer.findings == []
