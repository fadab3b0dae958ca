"""A second, independent food table, the Indian Food Composition Tables 2017, posed to the running service as EU labels.

The same briefs are put to the solver directly, with foods made from the table by hand; both must come to the same
answer. No number of the table is checked here.
"""

from dataclasses import asdict
from typing import Any

import httpx2
import numpy as np
import pytest

from solver.backends import open_backend
from solver.brief import Brief, EnergyBasis
from solver.foods import Food
from solver.nutrients import COLUMN, NUTRIENTS
from solver.outcome import Conflict, Outcome, Plan
from solver.pantry import PantryItem, Step
from solver.solve import solve
from solver.targets import Target
from tests.service.ifct import Row, ifct_rows
from tests.service.labels import eu

PANTRIES = 300

#: On these a kcal is 4.184 kJ or does not matter; the same words as the contract's.
BASES = ("general", "regulation", "declared")

LABEL = {"kind": "label", "layout": "EU", "per": "100 g"}

#: What half of the briefs count where the table has nothing, as it has of oils.
NONE_OF_IT = dict.fromkeys(("protein_g", "total_carbohydrate_g", "available_carbohydrate_g"), 0.0)


@pytest.fixture(scope="module")
def table() -> list[Row]:
    return ifct_rows()


def printed(row: Row) -> dict[str, Any]:
    """The row as the fields of an EU label, but unrounded; what the table does not have is not there."""
    fields = {name: value for name, value in asdict(row).items() if name not in {"code", "name", "sodium_mg"}}
    salt = {} if row.sodium_mg is None else {"salt_g": row.sodium_mg * 2.5 / 1000}
    return {name: value for name, value in (fields | salt).items() if value is not None}


def food(row: Row) -> Food:
    """The row by hand: 1 kcal is 4.184 kJ, and a carbohydrate of 0 may be up to 0.5 g.

    Only its id is the label's: items are sorted by it, and among equally good plans the order decides.
    """
    per_100g = np.full(len(NUTRIENTS), np.nan)
    known = {"protein_g": row.protein_g, "fat_g": row.fat_g, "fibre_g": row.fibre_g, "sodium_mg": row.sodium_mg}
    if row.energy_kj is not None:
        known["energy_kcal"] = row.energy_kj / 4.184
    if row.carbohydrate_g is not None and row.fibre_g is not None:
        available = row.carbohydrate_g or 0.5
        known |= {"available_carbohydrate_g": available, "total_carbohydrate_g": available + row.fibre_g}
    for nutrient, value in known.items():
        if value is not None:
            per_100g[COLUMN[nutrient]] = value
    return Food(id=eu(**printed(row)).id, name=row.name, group=None, per_100g=per_100g)


def posed(table: list[Row], seed: int) -> tuple[list[Row], dict[str, Any]]:
    """A random pantry of 4 to 12 foods and a brief around it, as it goes to the service."""
    rng = np.random.default_rng(seed)
    rows = [table[place] for place in rng.choice(len(table), rng.integers(4, 13), replace=False)]
    pantry = [
        {"name": row.code, "source": {**LABEL, **printed(row)}, "on_hand": f"{rng.integers(50, 900)} g"}
        | ({"step": "5 g"} if rng.random() < 0.3 else {})
        for row in rows
    ]
    targets = [
        {"of": "energy_kcal", "aim": float(rng.integers(300, 900)), "within": 30},
        {"of": "fat_share_percent", "aim": float(rng.integers(20, 80)), "within": 4},
        {"of": "protein_g", "at_least": float(rng.integers(10, 45))},
        {"of": "available_carbohydrate_g", "at_most": float(rng.integers(5, 90))},
    ]
    basis = BASES[rng.integers(len(BASES))]
    counted = NONE_OF_IT if rng.random() < 0.5 else {}
    rest = {"portions": int(rng.integers(1, 5)), "energy_basis": basis, "count_missing_as": counted}
    return rows, {"title": f"pantry {seed}", "pantry": pantry, "targets": targets, **rest, "time_limit_s": 20}


def direct(rows: list[Row], body: dict[str, Any]) -> Brief:
    """The same brief in the solver's own words."""
    energy, share, protein, carbohydrate = body["targets"]
    items = (
        PantryItem(row.code, food(row), on_hand_g=float(asked["on_hand"].split()[0]), step=step_of(asked))
        for row, asked in zip(rows, body["pantry"], strict=True)
    )
    return Brief(
        title=body["title"],
        portions=body["portions"],
        pantry=tuple(items),
        targets=(
            around(energy),
            around(share),
            Target("protein_g", "protein_g", lower=protein["at_least"]),
            Target("available_carbohydrate_g", "available_carbohydrate_g", upper=carbohydrate["at_most"]),
        ),
        energy_basis=EnergyBasis(body["energy_basis"]),
        count_missing_as=body["count_missing_as"],
        time_limit_s=body["time_limit_s"],
    )


def step_of(asked: dict[str, Any]) -> Step | None:
    return Step(5, "g", 5.0) if "step" in asked else None


def around(target: dict[str, Any]) -> Target:
    aim, within = target["aim"], target["within"]
    return Target(target["of"], target["of"], lower=aim - within, upper=aim + within, aim=aim, within=within)


def check_same(answer: dict[str, Any], outcome: Outcome) -> None:
    assert answer["outcome"] == type(outcome).__name__.lower()
    assert {left["name"] for left in answer["left_out"]} == {left.item for left in outcome.left_out}
    for ours, theirs in zip(answer["proof"]["levels"], outcome.proof.levels, strict=True):
        assert ours["level"] == theirs.level
        assert ours["bound"] == pytest.approx(theirs.bound, abs=1e-5)
        assert ours["value"] == pytest.approx(theirs.value, abs=1e-5)
    if isinstance(outcome, Conflict):
        assert answer["irreducible"] == outcome.irreducible
    if isinstance(outcome, Plan):
        assert all(target["met"] for target in answer["targets"])


def test_the_table_is_the_whole_table(table: list[Row]) -> None:
    assert len(table) == 542


def test_300_random_pantries_have_a_plan_or_a_conflict_and_the_solver_agrees(
    table: list[Row], client: httpx2.Client
) -> None:
    backend = open_backend("highs")
    seen = dict.fromkeys(("plan", "conflict"), 0)
    for seed in range(PANTRIES):
        rows, body = posed(table, seed)
        response = client.post("/v1/plans", json=body)
        assert response.status_code == 200, response.text
        answer = response.json()
        assert answer["outcome"] in seen
        seen[answer["outcome"]] += 1
        check_same(answer, solve(direct(rows, body), backend))
    assert min(seen.values()) > PANTRIES / 10, "both kinds of answer are well represented"
