"""Every backend gives the same outcome, and no better objective than another has proven to be possible."""

from collections import Counter

import pytest

from solver.backends import open_backend
from solver.catalogue import Catalogue
from solver.outcome import Checked, Conflict, LevelProof, Plan
from solver.solve import solve
from tests.solver.random_briefs import random_brief

#: Bounds of two proofs of the same thing differ by no more, relative to max(1, |bound|).
SAME = 1e-6


@pytest.mark.parametrize("stepped", [False, True])
def test_all_backends_agree_on_outcome_and_objective(catalogue: Catalogue, *, stepped: bool) -> None:
    highs, referees = open_backend("highs"), [open_backend(name) for name in ("scipy-highs", "pulp-cbc")]
    outcomes = Counter[type]()
    for seed in range(250):
        brief = random_brief(catalogue, seed, items=10, stepped=stepped)
        ours = solve(brief, highs)
        outcomes[type(ours)] += 1
        for referee in referees:
            theirs = solve(brief, referee)
            assert type(ours) is type(theirs), seed
            if isinstance(ours, Plan) and isinstance(theirs, Plan):
                agree(ours.proof.levels[0], theirs.proof.levels[0], seed)
            if isinstance(ours, Conflict) and isinstance(theirs, Conflict) and not stepped:
                agree(ours.proof.levels[0], theirs.proof.levels[0], seed)
    assert outcomes[Plan] > 150
    assert outcomes[Conflict] > 15


def agree(ours: LevelProof, theirs: LevelProof, seed: int) -> None:
    """Neither plan is better than what the other has proven to be impossible."""
    assert ours.value >= bound(theirs) - SAME * max(1.0, abs(ours.value)), seed
    assert theirs.value >= bound(ours) - SAME * max(1.0, abs(ours.value)), seed
    if ours.checked is Checked.CERTIFICATE:
        assert bound(ours) == pytest.approx(bound(theirs), abs=SAME, rel=SAME), seed


def bound(level: LevelProof) -> float:
    assert level.bound is not None
    return level.bound
