"""Linear programmes built from a chosen optimum and its duals, so that the answer needs no solver."""

import pytest

from tests.solver.backends.certificates import dual_bound, largest_violation, proves_optimality
from tests.solver.backends.every_backend import on_every_backend, solve
from tests.solver.backends.random_programmes import build_backwards

SIZES = [(3, 2), (8, 5), (20, 12), (40, 60), (120, 30)]
on_every_size = pytest.mark.parametrize(("columns", "rows"), SIZES)


@on_every_size
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_the_chosen_duals_prove_the_chosen_point(columns: int, rows: int, seed: int) -> None:
    chosen = build_backwards(columns, rows, seed)
    assert largest_violation(chosen.program, chosen.x) == 0.0
    assert dual_bound(chosen.program, chosen.row_dual) == pytest.approx(chosen.objective, abs=1e-9)


@on_every_backend
@on_every_size
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_every_backend_finds_the_chosen_objective(columns: int, rows: int, seed: int, backend: str) -> None:
    chosen = build_backwards(columns, rows, seed)
    answer = solve(backend, chosen.program)
    assert answer.objective == pytest.approx(chosen.objective, rel=1e-9, abs=1e-7)
    assert proves_optimality(chosen.program, answer)
