"""Whether linear rows alone pretend that more fat rendered than does."""

from solver.backends import open_backend
from solver.brief import Brief
from solver.chain import Chain
from solver.deadline import Deadline
from solver.exactness import overstated
from solver.levels import levels
from tests.solver.larder import posed


def pretends(asked: Brief) -> frozenset[str]:
    """The mixes that the linear rows alone say too much of."""
    formulation, backend = posed(asked), open_backend("highs")
    chain = Chain(backend, formulation)
    try:
        end = chain.run(levels(formulation), Deadline.after(10))
        return overstated(formulation, end.solved, end.freed) if end.solved else frozenset()
    finally:
        chain.close()
