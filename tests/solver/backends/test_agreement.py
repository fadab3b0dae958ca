"""All backends agree on small programmes of every kind; a third of them are infeasible by construction."""

import pytest

from solver.backends import BACKENDS
from solver.backends.base import Status
from tests.solver.backends.certificates import largest_violation, proves_optimality
from tests.solver.backends.every_backend import solve
from tests.solver.backends.random_programmes import small_programme

PROGRAMMES = 150


@pytest.mark.parametrize("seed", range(PROGRAMMES))
def test_all_backends_give_one_status_and_one_objective(seed: int) -> None:
    feasible, integers = seed % 3 != 0, seed % 2 == 1
    programme = small_programme(seed, feasible=feasible, integers=integers)
    answers = {backend: solve(backend, programme) for backend in BACKENDS}
    assert {answer.status for answer in answers.values()} == {Status.OPTIMAL if feasible else Status.INFEASIBLE}
    for answer in answers.values():
        if not feasible:
            assert answer.x is None
            continue
        assert answer.x is not None
        assert largest_violation(programme, answer.x) <= 1e-6
        assert answer.objective == pytest.approx(answers["highs"].objective, rel=1e-7, abs=2e-6)
        assert programme.has_integers or proves_optimality(programme, answer)
