"""Published energies over HTTP: the golden rows on every basis, and the worked example of a 3:1 diet down to a meal.

Golden rows: `published/golden_rows_sr.csv`. General factors and those of Regulation (EU) No 1169/2011, Annex XIV, are
typed in here (second hand). The worked example: ISRN 2012, article 263139, Table 2 (seen).
"""

import csv
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import httpx2
import pytest

_FILE = Path(__file__).parents[1] / "published" / "golden_rows_sr.csv"

GOLDEN = list(csv.DictReader(_FILE.read_text(encoding="utf-8").splitlines()))

KJ_PER_KCAL = 4.184  # SR28 documentation; UCUM

#: A meal of nearly pure foods at the inn, none with fibre: fish for protein, two fats, cream, sugar for carbohydrate.
PURE_FOODS = {
    "cod, baked": "sr28:15016",
    "butter": "sr28:01001",
    "olive oil": "sr28:04053",
    "heavy cream": "sr28:01053",
    "sugar": "sr28:19335",
}


def on_every_basis(client: httpx2.Client, food_id: str) -> dict[str, dict[str, Any]]:
    ingredient = {"name": "it", "source": {"kind": "food", "id": food_id}, "amount": "100 g"}
    answer = client.post("/v1/breakdowns", json={"title": "100 g", "ingredients": [ingredient]})
    assert answer.status_code == 200, answer.text
    return {each["basis"]: each for each in answer.json()["bases"]}


def kcal_and_kj(row: Mapping[str, str]) -> dict[str, tuple[float, float]]:
    """What is published, or follows from it by hand: both columns of factors where there are two."""
    protein, fat, carbohydrate, fibre = (
        float(row[name]) for name in ("protein_g", "fat_g", "carbohydrate_g", "fibre_g")
    )
    available = carbohydrate - fibre
    regulation = (
        4 * protein + 9 * fat + 4 * available + 2 * fibre,
        17 * protein + 37 * fat + 17 * available + 8 * fibre,
    )
    specific, stated = float(row["specific_kcal"]), float(row["stated_kcal"])
    return {
        "general": (float(row["general_kcal"]), 17 * protein + 37 * fat + 17 * carbohydrate),
        "regulation": regulation,
        "specific": (specific, KJ_PER_KCAL * specific),
        "declared": (stated, KJ_PER_KCAL * stated),
    }


@pytest.mark.parametrize("row", GOLDEN, ids=[row["food"] for row in GOLDEN])
def test_a_golden_row_has_its_energy_on_every_basis_in_both_units(
    client: httpx2.Client, row: Mapping[str, str]
) -> None:
    found = on_every_basis(client, f"sr28:{row['ndb_no']}")
    expected = kcal_and_kj(row)
    assert found.keys() == expected.keys()
    for basis, (kcal, kj) in expected.items():
        printed_to = 0.005001  # published with two decimals
        assert found[basis]["energy_kcal"] == pytest.approx(kcal, abs=printed_to), basis
        assert found[basis]["energy_kj"] == pytest.approx(kj, abs=KJ_PER_KCAL * printed_to), basis


def test_a_hundred_grams_of_oil_are_900_kcal_and_3700_kj_and_not_4184_of_one_another(client: httpx2.Client) -> None:
    found = on_every_basis(client, "sr28:04053")["general"]
    assert (found["energy_kcal"], found["energy_kj"]) == (900, 3700)
    assert found["energy_kj"] != pytest.approx(900 * KJ_PER_KCAL, rel=0.01)


def meal(client: httpx2.Client, **targets: tuple[float, float]) -> dict[str, Any]:
    """A day of three equal meals for a child of 18 kg, as a clinic prescribed it."""
    brief = {
        "title": "Three meals at 3:1",
        "portions": 3,
        "eater": {
            "age_years": 5,
            "weight_kg": 18,
            "conditions": ["ketogenic_therapy"],
            "meals_per_day": 3,
            "prescribed": True,
        },
        "pantry": [
            {"name": name, "source": {"kind": "food", "id": food_id}, "step": "0.1 g"}
            for name, food_id in PURE_FOODS.items()
        ],
        "targets": [{"of": of, "aim": aim, "within": within} for of, (aim, within) in targets.items()],
        "time_limit_s": 10,
    }
    answer = client.post("/v1/plans", json=brief)
    assert answer.status_code == 200, answer.text
    plan: dict[str, Any] = answer.json()
    assert plan["outcome"] == "plan"
    return plan


def grams(totals: Mapping[str, Any]) -> list[float]:
    return [totals["nutrients"][of] for of in ("fat_g", "protein_g", "available_carbohydrate_g")]


def test_the_published_3_to_1_day_is_planned_as_three_meals_of_39_6_and_7_grams(client: httpx2.Client) -> None:
    # 18 kg x 68 kcal = 1224; 31 kcal a unit; 39 units: fat 117, protein 18, carbohydrate 21; a third of each a meal.
    units = 18 * 68 // 31
    assert (units, 3 * units, units - 18) == (39, 117, 21)
    plan = meal(client, energy_kcal=(units * 31 / 3, 1), ketogenic_ratio=(3, 0.01), protein_g=(18 / 3, 0.02))
    assert [round(each) for each in grams(plan["portion"])] == [39, 6, 7]
    # 1 kcal a meal is 3 kcal a day, about a tenth of a unit; a hundredth of the ratio is at most 0.4 g fat a day.
    assert grams(plan["batch"]) == pytest.approx([117, 18, 21], abs=0.7)
    assert plan["ketogenic_ratio"] == pytest.approx(3, abs=0.01)


def test_its_whole_energy_is_planned_as_the_unrounded_day(client: httpx2.Client) -> None:
    # 1224 / 31 = 39.48 units: fat 118.45, protein 18, carbohydrate 21.48.
    plan = meal(client, energy_kcal=(1224 / 3, 1), ketogenic_ratio=(3, 0.01), protein_g=(18 / 3, 0.02))
    assert grams(plan["batch"]) == pytest.approx([118.45, 18, 21.48], abs=0.7)
    assert plan["batch"]["energy_kcal"] == pytest.approx(1224, abs=3)


def test_every_meal_keeps_the_ratio_of_the_day(client: httpx2.Client) -> None:
    plan = meal(client, energy_kcal=(403, 1), ketogenic_ratio=(3, 0.01), protein_g=(6, 0.02))
    fat, protein, carbohydrate = grams(plan["portion"])
    assert fat / (protein + carbohydrate) == pytest.approx(plan["ketogenic_ratio"], abs=1e-5)
    assert [3 * each for each in grams(plan["portion"])] == pytest.approx(grams(plan["batch"]), abs=1e-5)
