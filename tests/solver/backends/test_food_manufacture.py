"""Food manufacture 1 and 2 on every backend: profits as the models in Debian's glpk-utils print them (seen)."""

import pytest

from solver.backends.base import Status
from tests.solver.backends.certificates import largest_violation, proves_optimality
from tests.solver.backends.every_backend import on_every_backend, solve
from tests.solver.backends.food_manufacture import food_manufacture


@on_every_backend
def test_six_months_earn_107842_59(backend: str) -> None:
    programme = food_manufacture(with_logic=False)
    answer = solve(backend, programme)
    assert answer.objective == pytest.approx(-107842.59, abs=0.005)
    assert proves_optimality(programme, answer)


@on_every_backend
def test_at_most_three_oils_a_month_earn_100278_70(backend: str) -> None:
    programme = food_manufacture(with_logic=True)
    answer = solve(backend, programme)
    assert answer.status is Status.OPTIMAL
    assert answer.x is not None
    assert answer.objective == pytest.approx(-100278.70, abs=0.005)
    assert largest_violation(programme, answer.x) <= 1e-6
