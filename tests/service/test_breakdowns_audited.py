"""Declared numbers of a dish audited over HTTP, and its nutrition numbers as a label prints them."""

import httpx2
import pytest

from tests.service.asking import Document, breakdown_of
from tests.service.briefs import food

#: 100 g of butter: fat 81.11 g, protein 0.85, carbohydrate 0.06, sodium 643 mg (USDA SR28, NUT_DATA, 01001).
BUTTER: Document = {"title": "butter", "ingredients": [food("butter", "01001", amount="100 g")]}


def findings(client: httpx2.Client, **declared: object) -> dict[tuple[str, str], Document]:
    told = breakdown_of(client, {**BUTTER, "declared": declared})["findings"]
    return {(each["code"], each["about"]): each for each in told}


def test_numbers_that_are_right_are_not_doubted(client: httpx2.Client) -> None:
    right = {"per": "100 g", "energy_kcal": 734, "fat_g": "81.1 g", "protein_g": "0.9 g", "sodium_mg": 643}
    assert findings(client, **right) == {}
    assert breakdown_of(client, BUTTER)["findings"] == []


def test_an_energy_that_the_macronutrients_cannot_have_is_found(client: httpx2.Client) -> None:
    macros = {"fat_g": "81.1 g", "protein_g": "0.9 g", "total_carbohydrate_g": "0.1 g"}
    found = findings(client, per="100 g", energy_kcal=634, **macros)[("energy_differs", "energy_kcal")]
    assert found["declared"] == "634 kcal"
    # 9 x 81.1 + 4 x 0.9 + 4 x 0.1 = 733.9 kcal, a hundred more.
    assert found["by"] == pytest.approx(99.9, abs=0.01)
    assert found["rounding_explains"] is False
    assert found["text"]


def test_a_published_label_is_explained_by_its_rounding(client: httpx2.Client) -> None:
    # Programming contest task "Close Enough Computations" (HDU 2959, second hand): 12, 31 and 5 g as 250 kcal are
    # 12.1, 30.6 and 4.7 g, although 9 x 12 + 4 x 31 + 4 x 5 = 252.
    label = {"energy_kcal": 250, "fat_g": 12, "total_carbohydrate_g": 31, "protein_g": 5}
    found = findings(client, per="100 g", **label).get(("energy_differs", "energy_kcal"))
    assert found is None or found["rounding_explains"]


def test_more_fat_than_the_food_weighs_is_found(client: httpx2.Client) -> None:
    codes = {code for code, _ in findings(client, per="100 g", fat_g=101)}
    assert "heavier_than_food" in codes


def test_what_we_compute_otherwise_is_found(client: httpx2.Client) -> None:
    found = findings(client, per="100 g", protein_g=9)
    # No more than 2 g off below 10 g in the EU, at least 80 % of what is declared in the US (both second hand).
    assert {code for code, about in found if about == "protein_g"} == {"outside_eu_tolerance", "outside_us_tolerance"}
    for each in found.values():
        assert each["by"] == pytest.approx(9 - 0.85)
        assert each["rounding_explains"] is False
    share = findings(client, energy_distribution_percent={"fat": 90})
    assert list(share) == [("differs_from_computed", "energy_distribution_percent.fat")]
    assert share[("differs_from_computed", "energy_distribution_percent.fat")]["by"] > 9


def test_a_distribution_that_does_not_sum_is_found(client: httpx2.Client) -> None:
    shares = {"fat": 90, "protein": 20, "carbohydrate": 5}
    found = findings(client, energy_distribution_percent=shares)
    assert found[("distribution_sum", "energy_distribution_percent")]["by"] == 15


def test_numbers_may_be_declared_for_a_portion_the_batch_or_a_weight(client: httpx2.Client) -> None:
    for per, fat in (("portion", "40.6 g"), ("batch", "81.1 g"), ("10 g", "8.1 g"), ({"value": 50, "unit": "g"}, 40.6)):
        told = breakdown_of(client, {**BUTTER, "portions": 2, "declared": {"per": per, "fat_g": fat}})
        assert told["findings"] == [], per


def test_a_layout_brings_its_tolerance(client: httpx2.Client) -> None:
    # EU: fat above 40 g in 100 g may be off by 8 g. US: no more than a fifth above what is declared (second hand).
    eu = {code for code, _ in findings(client, per="100 g", layout="EU", fat_g=70)}
    us = {code for code, _ in findings(client, per="100 g", layout="US", fat_g=70)}
    assert "outside_eu_tolerance" in eu
    assert not {"outside_us_tolerance", "outside_eu_tolerance"} & us
    assert "outside_us_tolerance" in {code for code, _ in findings(client, per="100 g", layout="US", fat_g=60)}


def lines(client: httpx2.Client, layout: str, **changes: object) -> dict[str, Document]:
    told = breakdown_of(client, {**BUTTER, "nutrition_as": layout, **changes})
    return {each["name"]: each for each in told["nutrition"]}


def test_nutrition_is_rounded_as_a_us_label_prints_it(client: httpx2.Client) -> None:
    # FDA, A Food Labeling Guide (2009), Appendix H, for half a tablespoon.
    half = {**BUTTER, "ingredients": [food("butter", "01001", amount="7.1 g")], "nutrition_as": "US"}
    printed = {each["name"]: each["text"] for each in breakdown_of(client, half)["nutrition"]}
    assert printed["energy_kcal"] == "50"  # 52.1: above 50 to the nearest 10
    assert printed["fat_g"] == "6 g"  # 5.76: above 5 to the nearest 1
    assert printed["saturated_fat_g"] == "3.5 g"  # 3.65: below 5 to the nearest 0.5
    assert printed["sodium_mg"] == "45 mg"  # 45.7: up to 140 to the nearest 5
    assert printed["total_carbohydrate_g"] == "0 g"
    assert printed["protein_g"] == "0 g"


def test_nutrition_is_rounded_as_an_eu_label_prints_it_for_100_g(client: httpx2.Client) -> None:
    for amount in ("100 g", "7.1 g"):
        printed = lines(client, "EU", ingredients=[food("butter", "01001", amount=amount)])
        # Commission guidance of 2012 (second hand): 10 g and more to 1 g, below to 0.1 g, 0.5 g and less "<0.5 g".
        assert printed["fat_g"]["text"] == "81 g"
        assert printed["protein_g"]["text"] == "0.9 g"
        assert printed["carbohydrate_g"]["text"] == "<0.5 g"
        assert printed["salt_g"]["text"] == "1.6 g"  # 2.5 times the sodium
        assert printed["fat_g"]["value"] == pytest.approx(81.11)


def test_what_nobody_knows_is_never_printed_as_none(client: httpx2.Client) -> None:
    label = {"kind": "label", "per": "100 g", "fat_g": 30, "protein_g": 20}
    printed = lines(client, "EU", ingredients=[{"name": "tin", "source": label, "amount": "100 g"}])
    assert (printed["carbohydrate_g"]["text"], printed["carbohydrate_g"]["value"]) == (None, None)
    assert printed["protein_g"]["text"] == "20 g"
