"""The amounts as printed meet every must, when somebody else does the sums."""

from solver.backends import open_backend
from solver.catalogue import Catalogue
from solver.outcome import Plan
from solver.solve import solve
from tests.solver import recomputed
from tests.solver.random_briefs import random_brief


def test_none_of_two_thousand_printed_plans_misses_a_must_when_recomputed(catalogue: Catalogue) -> None:
    highs = open_backend("highs")
    plans, missed = 0, []
    for seed in range(2600):
        brief = random_brief(catalogue, seed, items=10, stepped=seed % 5 == 0)
        outcome = solve(brief, highs)
        if isinstance(outcome, Plan):
            plans += 1
            missed += [(seed, target.id) for target in brief.targets if not recomputed.is_met(outcome, target)]
    assert plans >= 2000
    assert missed == []
