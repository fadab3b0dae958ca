"""The diet problem of 1945, posed to the running service as labels and targets.

Data and optimum: Stigler's problem as carried by the GLPK examples (stigler.mod), 77 foods and 9 nutrients per dollar;
0.1086622782 dollars a day, by two solvers (glpsol 5.0 and scipy).
100 g stand for a tenth of a cent's worth, so that every label is an ordinary one.
"""

import csv
from pathlib import Path
from typing import Any

import httpx2
import pytest

TABLE = Path(__file__).parents[1] / "published" / "programmes" / "diet_1945.csv"

#: Dollars in a tenth of a cent: what turns the table's "per dollar" into "per 100 g" here.
DOLLARS_PER_100_G = 0.001

#: Column of the table to the label's field, and what one unit of the column is in the field's unit.
FIELDS = {
    "energy_1000kcal": ("energy_kcal", 1000.0),
    "protein_g": ("protein_g", 1.0),
    "calcium_g": ("calcium_mg", 1000.0),
    "iron_mg": ("iron_mg", 1.0),
    "vitamin_a_1000iu": ("vitamin_a_rae_ug", 300.0),  # 1 IU is 0.3 ug retinol
    "thiamin_mg": ("thiamin_mg", 1.0),
    "riboflavin_mg": ("riboflavin_mg", 1.0),
    "niacin_mg": ("niacin_mg", 1.0),
    "vitamin_c_mg": ("vitamin_c_mg", 1.0),
}

#: The day's allowances, in the table's units.
ALLOWANCES = {
    "energy_1000kcal": 3.0,
    "protein_g": 70.0,
    "calcium_g": 0.8,
    "iron_mg": 12.0,
    "vitamin_a_1000iu": 5.0,
    "thiamin_mg": 1.8,
    "riboflavin_mg": 2.7,
    "niacin_mg": 18.0,
    "vitamin_c_mg": 75.0,
}


def brief() -> dict[str, Any]:
    with TABLE.open(newline="") as table:
        foods = [row for row in csv.DictReader(table) if row["column"] != "row"]
    return {
        "title": "A day's food, as cheap as it can be",
        "energy_basis": "declared",
        "prefer": ["cheapest"],
        "time_limit_s": 10,
        "pantry": [item(row) for row in foods if row["cost"]],
        "targets": [
            {"of": FIELDS[column][0], "at_least": least * FIELDS[column][1]} for column, least in ALLOWANCES.items()
        ],
    }


def item(row: dict[str, str]) -> dict[str, Any]:
    fields = {name: float(row[column]) * unit * DOLLARS_PER_100_G for column, (name, unit) in FIELDS.items()}
    return {
        "name": row["column"],
        "source": {"kind": "label", "per": "100 g", **fields},
        "price": {"amount": DOLLARS_PER_100_G * 100, "per": "100 g"},  # in cents
    }


@pytest.fixture(scope="module")
def answer(client: httpx2.Client) -> dict[str, Any]:
    response = client.post("/v1/plans", json=brief())
    assert response.status_code == 200, response.text
    found: dict[str, Any] = response.json()
    return found


def test_all_77_foods_are_asked_about() -> None:
    assert len(brief()["pantry"]) == 77


def test_the_proven_bound_is_the_published_optimum(answer: dict[str, Any]) -> None:
    (level,) = answer["proof"]["levels"]
    assert (level["status"], level["checked"]) == ("optimal", "certificate checked")
    assert level["bound"] / 100 == pytest.approx(0.1086622782, abs=1e-8)


def test_the_printed_plan_costs_no_more_than_printing_to_a_tenth_of_a_gram_must(answer: dict[str, Any]) -> None:
    # Five foods, rounded up by 0.1 g at most, at 0.001 cent a gram.
    assert 0 <= answer["cost"] - answer["proof"]["levels"][0]["bound"] <= 5 * 0.1 * 0.001


def test_it_eats_the_five_published_foods(answer: dict[str, Any]) -> None:
    amounts = {quantity["name"].lower(): quantity["grams"] for quantity in answer["quantities"]}
    dollars = {name: grams / 100 * DOLLARS_PER_100_G for name, grams in amounts.items()}
    published = {"flour": 0.029519062, "liver": 0.001892557, "cabbage": 0.011214435, "spinach": 0.005007660}
    published["navy beans"] = 0.061028564
    assert len(dollars) == len(published)
    for word, spent in published.items():
        (found,) = (value for name, value in dollars.items() if word in name)
        assert found == pytest.approx(spent, abs=3e-6), word


def test_the_published_nutrients_bind(answer: dict[str, Any]) -> None:
    binding = {target["of"] for target in answer["targets"] if target["binding"]}
    assert binding == {"energy_kcal", "calcium_mg", "vitamin_a_rae_ug", "riboflavin_mg", "vitamin_c_mg"}
