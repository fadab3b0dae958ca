"""The diet problem of 1945 in full: 77 foods, 9 nutrients, dollars of each food a day, on every backend.

Sources: as `diet_1945` in `published/programmes/answers.toml`; prices of 15 August 1939 in
`published/diet_1945_prices.csv` from the same file. The optimum of 39.69 dollars a year is Laderman's of 1947
(quoted), which counts 365.25 days; other accounts print 39.66, which counts 365 days.
"""

import csv

import numpy as np
import pytest

from tests.solver.backends.dense import dense
from tests.solver.backends.every_backend import on_every_backend, solve
from tests.solver.backends.published_programmes import PUBLISHED, Published, published

FIVE_FOODS = {"wheat flour", "liver, beef", "cabbage", "spinach", "navy beans, dried"}


@on_every_backend
@pytest.mark.parametrize(("days_a_year", "dollars_a_year"), [(365, 39.66), (365.25, 39.69)])
def test_both_published_costs_a_year_are_one_optimum(backend: str, days_a_year: float, dollars_a_year: float) -> None:
    answer = solve(backend, published("diet_1945").program)
    assert answer.objective is not None
    assert round(answer.objective * days_a_year, 2) == dollars_a_year


@on_every_backend
def test_the_value_of_all_allowances_is_the_cost(backend: str) -> None:
    program = published("diet_1945").program
    answer = solve(backend, program)
    assert answer.row_dual is not None
    assert float(program.row_lower @ answer.row_dual) == pytest.approx(0.1086622782, abs=1e-9)


@on_every_backend
def test_twenty_foods_suffice_when_they_hold_the_five(backend: str) -> None:
    all_foods, few_foods = published("diet_1945"), published("diet_1963")
    assert set(few_foods.quantities) == FIVE_FOODS
    whole, part = solve(backend, all_foods.program), solve(backend, few_foods.program)
    assert whole.objective == pytest.approx(part.objective, abs=1e-9)


def test_both_tables_hold_the_same_figures_for_the_foods_they_share() -> None:
    all_foods, few_foods = published("diet_1945"), published("diet_1963")
    whole, few = figures_by_food(all_foods), figures_by_food(few_foods)
    assert few == {food: whole[food] for food in few}


def figures_by_food(table: Published) -> dict[str, list[float]]:
    return dict(zip(table.columns, dense(table.program.rows).T.tolist(), strict=True))


def test_stiglers_own_diet_of_39_93_dollars_meets_the_allowances_to_half_a_percent() -> None:
    known = published("diet_1945")
    dollars_a_year = {"wheat flour": 13.33, "evaporated milk, canned": 3.84, "cabbage": 4.11, "spinach": 1.85}
    dollars_a_year["navy beans, dried"] = 16.80
    assert sum(dollars_a_year.values()) == pytest.approx(39.93)
    x = np.array([dollars_a_year.get(food, 0.0) / 365 for food in known.columns])
    assert (known.program.rows.times(x) >= 0.995 * known.program.row_lower).all()


@on_every_backend
def test_the_amounts_to_buy_in_365_days_are_the_published_ones(backend: str) -> None:
    with (PUBLISHED / "diet_1945_prices.csv").open(encoding="utf-8", newline="") as file:
        price_cents = {row["food"]: float(row["price_cents_per_unit"]) for row in csv.DictReader(file)}
    known = published("diet_1945")
    answer = solve(backend, known.program)
    assert answer.x is not None
    units = {food: 365 * 100 * dollars / price_cents[food] for food, dollars in known.amounts(answer.x).items()}
    # computed by two other solvers from the same data: tens of pounds of flour, pounds of the rest
    bought = {
        "wheat flour": 29.93,
        "liver, beef": 2.58,
        "cabbage": 110.63,
        "spinach": 22.57,
        "navy beans, dried": 377.55,
    }
    assert {food: round(amount, 2) for food, amount in units.items() if amount > 0.005} == bought
