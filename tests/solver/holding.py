"""What plans that hold are tried with: tolerances, foods, musts, and compositions at the corners of a tolerance."""

from dataclasses import replace
from itertools import product

from solver.backends import open_backend
from solver.brief import Brief
from solver.foods import Food
from solver.holds import Holds, Tolerance
from solver.holds_ends import ends
from solver.nutrients import COLUMN
from solver.outcome import Plan
from solver.solve import solve
from tests.solver.larder import BREAD, BUTTER, PATTIES, TABLE, between, into, item, kitchen, macronutrients

HOLDS = [
    Holds(Tolerance.EU),
    Holds(Tolerance.PERCENT, {"fat_g": 10, "protein_g": 5, "total_carbohydrate_g": 8, "available_carbohydrate_g": 20}),
]
MOVING = ("protein_g", "fat_g", "total_carbohydrate_g", "available_carbohydrate_g")
MINCE = macronutrients("mince", protein=18, fat=22)
TALLOW = macronutrients("tallow", fat=99)
MUSTS = (
    between("energy_kcal", 500.0, 700.0),
    between("fat_share_percent", 60.0, 90.0),
    between("protein_g", 25.0, None),
    between("available_carbohydrate_g", None, 20.0),
)


def with_values(of: Food, values: tuple[float, ...]) -> Food:
    row = of.per_100g.copy()
    row[[COLUMN[name] for name in MOVING]] = values
    return replace(of, per_100g=row)


def vertices(of: Food, holds: Holds) -> list[Food]:
    """Every corner of a food's box."""
    least, most = ends(of, holds)
    places = [COLUMN[name] for name in MOVING]
    return [with_values(of, corner) for corner in product(*((least[place], most[place]) for place in places))]


def planned(asked: Brief) -> Plan:
    outcome = solve(asked, open_backend("highs"))
    assert isinstance(outcome, Plan)
    return outcome


def cooked() -> Brief:
    parts = (PATTIES, TABLE)
    pantry = (into(item(MINCE), PATTIES), into(item(BUTTER), TABLE), into(item(BREAD), TABLE))
    return kitchen(*pantry, targets=(between("energy_kcal", 400.0, 900.0), *MUSTS[1:]), parts=parts)
