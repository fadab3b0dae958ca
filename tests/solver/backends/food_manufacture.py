"""Food manufacture 1 and 2 of H. P. Williams, Model Building in Mathematical Programming, sections 12.1 and 12.2.

Five oils are bought, stored and blended over six months. Figures from food.mod and food2.mod in Debian's
glpk-utils 5.0 (seen); prices in `published/food_manufacture_prices.csv`, the rest below with its unit.
"""

import csv
from collections.abc import Mapping

import numpy as np

from solver.numerics import FloatArray, IntArray
from solver.program import LinearProgram, Rows
from tests.solver.backends.published_programmes import PUBLISHED

HARDNESS = (8.8, 6.1, 2.0, 4.2, 5.0)
IS_VEGETABLE = (True, True, False, False, False)
PRODUCT_PRICE, STORAGE_PRICE = 150.0, 5.0  # per tonne; storage a month
SOFTEST, HARDEST = 3.0, 6.0
STOCK_AT_BOTH_ENDS_T, LARGEST_STOCK_T = 500.0, 1000.0
REFINED_T = {True: 200.0, False: 250.0}  # a month, by whether the oils are vegetable
LEAST_WHEN_USED_T, MOST_OILS = 20.0, 3
MONTHS, OILS = 6, 5

_BUY, _USE, _STOCK, _USED = np.arange(4 * MONTHS * OILS, dtype=np.int32).reshape(4, MONTHS, OILS)


class _Rows:
    """Collects rows as they are thought of: coefficients by column, and two bounds."""

    def __init__(self, width: int) -> None:
        self.width = width
        self.matrix: list[FloatArray] = []
        self.bounds: list[tuple[float, float]] = []

    def add(self, coefficients: Mapping[int, float], lower: float, upper: float) -> None:
        row = np.zeros(self.width)
        row[list(coefficients)] = list(coefficients.values())
        self.matrix.append(row)
        self.bounds.append((lower, upper))


def food_manufacture(*, with_logic: bool) -> LinearProgram:
    """The first problem, or with its logical conditions (at most three oils a month, and so on) the second."""
    columns = (4 if with_logic else 3) * MONTHS * OILS
    rows = _Rows(columns)
    for month in range(MONTHS):
        _blend(rows, _USE[month])
        _keep_stock(rows, month)
        if with_logic:
            _choose(rows, _USE[month], _USED[month])
    lower, upper = np.array(rows.bounds).T
    most = np.full(columns, np.inf)
    most[_STOCK.ravel()] = LARGEST_STOCK_T
    most[3 * MONTHS * OILS :] = 1.0
    cost = np.zeros(columns)
    cost[_BUY.ravel()], cost[_USE.ravel()], cost[_STOCK.ravel()] = _prices(), -PRODUCT_PRICE, STORAGE_PRICE
    whole = np.arange(columns) >= 3 * MONTHS * OILS
    matrix = Rows.from_dense(np.array(rows.matrix))
    return LinearProgram(cost, matrix, lower, upper, np.zeros(columns), most, whole)


def _prices() -> FloatArray:
    with (PUBLISHED / "food_manufacture_prices.csv").open(encoding="utf-8", newline="") as file:
        return np.array([[float(cell) for cell in line[1:]] for line in list(csv.reader(file))[1:]]).ravel()


def _blend(rows: _Rows, use: IntArray) -> None:
    for vegetable, most in REFINED_T.items():
        rows.add({j: 1.0 for j, v in zip(use, IS_VEGETABLE, strict=True) if v is vegetable}, -np.inf, most)
    rows.add({j: hardness - SOFTEST for j, hardness in zip(use, HARDNESS, strict=True)}, 0.0, np.inf)
    rows.add({j: hardness - HARDEST for j, hardness in zip(use, HARDNESS, strict=True)}, -np.inf, 0.0)


def _keep_stock(rows: _Rows, month: int) -> None:
    for oil in range(OILS):
        flow = {_BUY[month, oil]: 1.0, _USE[month, oil]: -1.0, _STOCK[month, oil]: -1.0}
        opening = STOCK_AT_BOTH_ENDS_T if month == 0 else 0.0
        if month > 0:
            flow[_STOCK[month - 1, oil]] = 1.0
        rows.add(flow, -opening, -opening)
        if month == MONTHS - 1:
            rows.add({_STOCK[month, oil]: 1.0}, STOCK_AT_BOTH_ENDS_T, np.inf)


def _choose(rows: _Rows, use: IntArray, used: IntArray) -> None:
    for oil in range(OILS):
        rows.add({use[oil]: 1.0, used[oil]: -REFINED_T[IS_VEGETABLE[oil]]}, -np.inf, 0.0)
        rows.add({use[oil]: 1.0, used[oil]: -LEAST_WHEN_USED_T}, 0.0, np.inf)
    rows.add(dict.fromkeys(used, 1.0), -np.inf, MOST_OILS)
    for vegetable in (0, 1):  # a vegetable oil brings oil 3 with it
        rows.add({used[vegetable]: 1.0, used[4]: -1.0}, -np.inf, 0.0)
