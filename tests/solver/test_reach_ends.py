"""The ends of ranges from what a search found."""

from dataclasses import replace

import pytest

from solver.backends import open_backend
from solver.deadline import Deadline
from solver.missing import count
from solver.reach_ends import Direction, amount_end, plain_sum
from solver.reach_search import Farthest, Search
from tests.solver.larder import between, brief


class Open(Search):
    """A search whose proof leaves 10 of what was sought open."""

    def most(self, wanted: object) -> Farthest:
        found = super().most(wanted)  # type: ignore[arg-type]
        assert isinstance(found, Farthest)
        return replace(found, beyond=found.most + 10)


def test_what_a_proof_leaves_open_is_counted_for_a_portion_like_the_value() -> None:
    energy = between("energy_kcal", None, 500.0)
    asked = replace(brief(targets=(energy,)), portions=4)
    search = Open(asked, count(asked), open_backend("highs"), Deadline.after(10), [plain_sum(energy)])
    end = amount_end(search, plain_sum(energy), Direction(1.0, batches=4.0))
    search.close()
    assert end.value == pytest.approx(500.0)
    assert end.gap == pytest.approx(2.5)
