"""Two-source blends: a square of four subtractions gives the parts, and a programme with one equation must agree.

Cases and their sources: `published/pearson_squares.csv`. Ground beef: `published/ground_beef_sr28.csv`, raw ground
beef per 100 g from NUT_DATA of the USDA National Nutrient Database for Standard Reference, release 28 (seen); that
its records are blends of each other is computed.
"""

import csv
from typing import Any

import numpy as np
import pytest

from solver.backends.base import Status
from solver.numerics import FloatArray
from solver.program import LinearProgram, Rows
from tests.solver.backends.every_backend import on_every_backend, solve
from tests.solver.backends.published_programmes import PUBLISHED


def read(name: str) -> list[dict[str, Any]]:
    with (PUBLISHED / name).open(encoding="utf-8", newline="") as file:
        return [{key: _number(cell) for key, cell in line.items()} for line in csv.DictReader(file)]


def _number(cell: str) -> float | str:
    try:
        return float(cell)
    except ValueError:
        return cell


SQUARES = read("pearson_squares.csv")
GROUND_BEEF = {line["lean_percent"]: line for line in read("ground_beef_sr28.csv")}


def square(low: float, high: float, target: float) -> FloatArray:
    """Shares of the low and the high source: each is the distance of the other one from the target."""
    return np.array([high - target, target - low]) / (high - low)


def blend(low: float, high: float, target: float) -> LinearProgram:
    """Shares of two sources that add up to 1 and reach the target."""
    aims = np.array([1.0, target])
    return LinearProgram(
        cost=np.zeros(2),
        rows=Rows.from_dense(np.array([[1.0, 1.0], [low, high]])),
        row_lower=aims,
        row_upper=aims,
        column_lower=np.zeros(2),
        column_upper=np.ones(2),
        integer=np.zeros(2, dtype=np.bool_),
    )


@on_every_backend
@pytest.mark.parametrize("case", SQUARES, ids=[case["name"] for case in SQUARES])
def test_the_programme_gives_the_published_parts_and_the_square(case: dict[str, Any], backend: str) -> None:
    sources = case["low_percent"], case["high_percent"], case["target_percent"]
    answer = solve(backend, blend(*sources))
    assert answer.status is Status.OPTIMAL
    assert answer.x is not None
    assert answer.x == pytest.approx(square(*sources), abs=1e-9)
    parts = np.array([case["low_parts"], case["high_parts"]])
    assert answer.x == pytest.approx(parts / parts.sum(), abs=1e-5)


@on_every_backend
@pytest.mark.parametrize("case", SQUARES, ids=[case["name"] for case in SQUARES])
def test_a_target_outside_the_two_sources_is_infeasible(case: dict[str, Any], backend: str) -> None:
    low, high = case["low_percent"], case["high_percent"]
    assert solve(backend, blend(low, high, high + 0.5)).status is Status.INFEASIBLE
    assert solve(backend, blend(low, high, low - 0.5)).status is Status.INFEASIBLE


@on_every_backend
@pytest.mark.parametrize(("lean", "share_of_70"), [(75, 0.8), (80, 0.6), (85, 0.4), (90, 0.2)])
def test_70_and_95_percent_lean_beef_blend_to_the_record_between(backend: str, lean: float, share_of_70: float) -> None:
    fat, record = GROUND_BEEF[70], GROUND_BEEF[lean]
    lean_beef = GROUND_BEEF[95]
    answer = solve(backend, blend(lean_beef["fat_g"], fat["fat_g"], record["fat_g"]))
    assert answer.x is not None
    assert answer.x == pytest.approx([1 - share_of_70, share_of_70], abs=1e-9)
    # half a unit of the last printed digit for the record, and half for the two sources it is blended from
    for nutrient, last_digit in (("protein_g", 0.01), ("water_g", 0.01), ("energy_kcal", 1.0)):
        blended = float(answer.x @ [lean_beef[nutrient], fat[nutrient]])
        assert abs(blended - record[nutrient]) <= last_digit, nutrient


@on_every_backend
def test_the_cost_of_blended_beef_is_the_published_one(backend: str) -> None:
    # 10 % fat at 0.99 and 25 % fat at 0.79 dollars a lb to 1000 lb of 20 %: 0.8567 dollars a lb (computed)
    answer = solve(backend, blend(10, 25, 20))
    assert answer.x is not None
    assert float(answer.x @ [0.99, 0.79]) == pytest.approx(0.8567, abs=5e-5)
