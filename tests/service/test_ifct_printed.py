"""Every row of the Indian Food Composition Tables 2017, printed as a label by the rules, is never accused by the audit.

EU rounding: Commission guidance of December 2012, quoted in secondary sources. US rounding: FDA, Guidance for Industry:
A Food Labeling Guide, Appendix H, October 2009 (seen). Both are written anew here, as a printer would apply them.
"""

from collections.abc import Iterator
from fractions import Fraction
from math import floor
from typing import Any

import pytest

from service.schemas.breakdown_body import BreakdownBody
from service.settings import Settings
from service.translate.breakdown import to_given_dish
from service.translate.reference import Reference
from service.translate.to_breakdown import to_breakdown
from tests.service.ifct import Row, ifct_rows
from tests.service.ifct_by_hand import GENERAL, REGULATION, Parts, energy, printed_parts, slices, whole_percents

HALF = Fraction(1, 2)


def nearest(amount: Fraction, step: Fraction | int) -> Fraction:
    return floor(amount / step + HALF) * Fraction(step)


def eu_grams(amount: Fraction) -> str:
    if amount <= HALF:
        return "<0,5 g"
    return f"{float(nearest(amount, Fraction(1, 10))):.1f} g" if amount < 10 else f"{nearest(amount, 1)} g"


def us_grams(amount: Fraction) -> str:
    if amount < HALF:
        return "0 g"
    return "less than 1 g" if amount < 1 else f"{nearest(amount, 1)} g"


def us_fat(amount: Fraction) -> str:
    if amount < HALF:
        return "0 g"
    return f"{float(nearest(amount, HALF)):g} g" if amount < 5 else f"{nearest(amount, 1)} g"


def us_kcal(amount: Fraction) -> int:
    if amount < 5:
        return 0
    return int(nearest(amount, 5 if amount <= 50 else 10))


def eu_label(parts: Parts) -> dict[str, Any]:
    protein, fat, carbohydrate, fibre = parts
    return {
        "layout": "EU",
        "energy_kcal": int(nearest(energy(parts, REGULATION["kcal"]), 1)),
        "energy_kj": int(nearest(energy(parts, REGULATION["kJ"]), 1)),
        "protein_g": eu_grams(protein),
        "fat_g": eu_grams(fat),
        "available_carbohydrate_g": eu_grams(carbohydrate),
        "fibre_g": eu_grams(fibre),
    }


def us_label(parts: Parts) -> dict[str, Any]:
    protein, fat, carbohydrate, fibre = parts
    return {
        "layout": "US",
        "energy_kcal": us_kcal(energy(parts, GENERAL["kcal"])),
        "protein_g": us_grams(protein),
        "fat_g": us_fat(fat),
        "total_carbohydrate_g": us_grams(carbohydrate + fibre),
        "fibre_g": us_grams(fibre),
    }


def card(parts: Parts, factors: tuple[int, int, int, int]) -> dict[str, Any]:
    """Fat share to a tenth, and ratio to a hundredth, where there is one."""
    protein, fat, carbohydrate, _ = parts
    share = nearest(100 * slices(parts, factors)[0] / energy(parts, factors), Fraction(1, 10))
    stated = {"fat_share_percent": f"{float(share):.1f} %"}
    if protein + carbohydrate > 0:
        ratio = nearest(fat / (protein + carbohydrate), Fraction(1, 100))
        stated["ketogenic_ratio"] = f"{float(ratio):.2f} : 1"
    return stated


def accusations(row: Row, basis: str, declared: dict[str, Any], reference: Reference) -> Iterator[str]:
    """What is found in it for the true food and rounding cannot explain; `energy_basis` is no fault."""
    protein, fat, carbohydrate, fibre = map(float, printed_parts(row))
    truth = {"protein_g": protein, "fat_g": fat, "available_carbohydrate_g": carbohydrate, "fibre_g": fibre}
    body = {
        "title": row.name,
        "energy_basis": basis,
        "ingredients": [{"name": row.code, "source": {"kind": "label", "per": "100 g", **truth}, "amount": "100 g"}],
        "declared": {"per": "100 g", **declared},
    }
    given = to_given_dish(BreakdownBody.model_validate(body), reference, Settings())
    found = to_breakdown(given, reference).findings
    return (each.text for each in found if not each.rounding_explains and each.code != "energy_basis")


@pytest.fixture(scope="module")
def rows() -> list[Row]:
    return [row for row in ifct_rows() if row.energy_kj is not None]


def test_no_eu_label_that_is_printed_by_the_rules_is_accused(rows: list[Row], reference: Reference) -> None:
    for row in rows:
        parts = printed_parts(row)
        declared = {**eu_label(parts), **card(parts, REGULATION["kcal"])}
        assert list(accusations(row, "regulation", declared, reference)) == [], row.name


def test_no_us_label_that_is_printed_by_the_rules_is_accused(rows: list[Row], reference: Reference) -> None:
    for row in rows:
        parts = printed_parts(row)
        declared = {**us_label(parts), **card(parts, GENERAL["kcal"])}
        assert list(accusations(row, "general", declared, reference)) == [], row.name


@pytest.mark.parametrize(("basis", "factors"), [("regulation", REGULATION["kcal"]), ("general", GENERAL["kcal"])])
def test_no_distribution_that_was_made_to_sum_to_100_is_accused(
    rows: list[Row], reference: Reference, basis: str, factors: tuple[int, int, int, int]
) -> None:
    for row in rows:
        percents = whole_percents(slices(printed_parts(row), factors))
        declared = dict(zip(("fat", "protein", "carbohydrate"), percents, strict=True))
        found = accusations(row, basis, {"energy_distribution_percent": declared}, reference)
        assert list(found) == [], row.name


def test_a_label_with_a_tenth_more_energy_is_accused(rows: list[Row], reference: Reference) -> None:
    # So that silence means something: a tenth more than the most by any way of counting is too much for all of them.
    for row in rows:
        parts = printed_parts(row)
        most = energy(parts, GENERAL["kcal"])
        declared = eu_label(parts) | {"energy_kcal": int(nearest(most * Fraction("1.1"), 1)) + 15}
        assert list(accusations(row, "regulation", declared, reference)), row.name
