"""Components with exact curves, against the same brief with the linear rows of the curves only."""

from collections.abc import Iterator
from statistics import quantiles

from reference_data import reference_folder
from solver.backends.base import Backend
from solver.brief import Brief
from solver.catalogue import Catalogue
from solver.chain import Chain
from solver.cooking_table import load_cooking_table
from solver.deadline import Deadline
from solver.formulate import formulate
from solver.levels import levels
from solver.missing import count
from solver.outcome import Plan
from solver.printing import print_amounts
from solver.solve import solve
from solver.usable import refuse_unusable
from solver.verify import dish_of
from tests.benchmarks.measure import interleaved
from tests.benchmarks.table import Row, at_most
from tests.solver.random_cooked_briefs import Larder, random_cooked_brief

LIMIT_S = 10.0


def rows(catalogue: Catalogue, backend: Backend, *, seeds: int) -> Iterator[Row]:
    """The row of the table."""
    larder = Larder(catalogue, load_cooking_table(reference_folder() / "cooking"))
    ratios = []
    for seed in range(seeds):
        brief = random_cooked_brief(larder, seed)
        found = solve(brief, backend)
        if isinstance(found, Plan):
            works = {
                "exact": lambda: solve(brief, backend),  # noqa: B023  called at once
                "rows": lambda: _by_rows(brief, found, backend),  # noqa: B023
            }
            taken = interleaved(works, 3)
            ratios.append(taken["exact"] / taken["rows"])
    note = f" (median {quantiles(ratios, n=2)[0]:.2f}, {len(ratios)} briefs)"
    yield at_most("exact curves / their rows only, nine in ten within", quantiles(ratios, n=10)[8], 1.5, note=note)


def _by_rows(brief: Brief, found: Plan, backend: Backend) -> None:
    """The same way without a look at the curves; what it prints need not be a plan, so the true one is verified."""
    refuse_unusable(brief)
    formulation, deadline = formulate(brief, count(brief)), Deadline.after(LIMIT_S)
    chain = Chain(backend, formulation)
    try:
        end = chain.run(levels(formulation), deadline)
        if end.x is not None:
            print_amounts(chain, end, formulation, backend, deadline)
    finally:
        chain.close()
    spoons = {part.component.name: part.spoons for part in found.dish.cooked}
    dish_of(found.dish.quantities, brief, frozenset(), spoons)
