"""Cooked briefs: every backend gives the same outcome, and none a better objective than another has excluded."""

from collections import Counter
from dataclasses import replace

from reference_data import reference_folder
from solver.backends import open_backend
from solver.catalogue import Catalogue
from solver.cooking_table import load_cooking_table
from solver.outcome import Conflict, LevelProof, Plan
from solver.solve import solve
from tests.solver.random_cooked_briefs import Larder, random_cooked_brief

#: Values of two proofs of the same thing differ by no more, relative to max(1, |value|).
SAME = 1e-6


def test_all_backends_agree_on_outcome_and_objective_of_sixty_cooked_briefs(catalogue: Catalogue) -> None:
    larder = Larder(catalogue, load_cooking_table(reference_folder() / "cooking"))
    highs, referees = open_backend("highs"), [open_backend(name) for name in ("scipy-highs", "pulp-cbc")]
    outcomes, proven = Counter[type](), 0
    for seed in range(60):
        brief = replace(random_cooked_brief(larder, seed, stepped=seed % 3 == 0), time_limit_s=4.0)
        ours = solve(brief, highs)
        outcomes[type(ours)] += 1
        for referee in referees:
            theirs = solve(brief, referee)
            assert type(ours) is type(theirs), (seed, referee.name)
            if isinstance(ours, Plan) and isinstance(theirs, Plan):
                agree(ours.proof.levels[0], theirs.proof.levels[0], seed)
                proven += theirs.proof.levels[0].bound is not None
    assert outcomes[Plan] > 35
    assert outcomes[Conflict] > 5
    assert proven > 1.9 * outcomes[Plan]


def agree(ours: LevelProof, theirs: LevelProof, seed: int) -> None:
    """Neither plan is better than what the other has proven to be impossible."""
    for one, other in ((ours, theirs), (theirs, ours)):
        # A referee that the clock ends has found a plan and proven nothing.
        assert other.bound is None or one.value >= other.bound - SAME * max(1.0, abs(one.value)), seed
