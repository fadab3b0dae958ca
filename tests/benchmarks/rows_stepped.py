"""Stepped briefs of 40 items and at most eight ingredients, each in three orders of its pantry."""

from collections.abc import Iterator
from dataclasses import replace
from statistics import quantiles

from solver.backends.base import Backend
from solver.brief import Preference
from solver.levels import BALANCED_GAP, CHEAPEST_GAP
from solver.solve import solve
from tests.benchmarks.briefs import Larder, in_order, stepped_brief
from tests.benchmarks.floor import Finished, run_floor
from tests.benchmarks.measure import seconds, shifted_mean
from tests.benchmarks.rival_brief import rival_of
from tests.benchmarks.rivals import solve_with_pulp
from tests.benchmarks.table import Row, at_least, at_most

ITEMS, ORDERS = 40, 3


def rows(larder: Larder, backend: Backend, *, seeds: int) -> Iterator[Row]:
    """The rows of the table."""
    ours, floors, both, pulp = [], [], [], []
    for seed in range(seeds):
        for order in range(ORDERS):
            two = in_order(stepped_brief(larder, ITEMS, seed), order)
            one = replace(two, prefer=(Preference.BALANCED,))
            finished, asked = Finished.of(one), rival_of(two, gaps=(BALANCED_GAP, CHEAPEST_GAP))
            ours.append(seconds(lambda: solve(one, backend)))  # noqa: B023  called at once
            floors.append(min(run_floor(finished, presolve=presolve) for presolve in (True, False)))
            both.append(seconds(lambda: solve(two, backend)))  # noqa: B023
            if order == 0:  # its order of columns is its own affair, and it is slow
                pulp.append((seconds(lambda: solve_with_pulp(asked)), both[-1]))  # noqa: B023
    note = f" ({1000 * shifted_mean(ours):.0f} ms; {seeds} seeds x {ORDERS} orders)"
    yield at_most("stepped, first level / floor", shifted_mean(ours) / shifted_mean(floors), 1.15, note=note)
    faster = shifted_mean([rival for rival, _ in pulp]) / shifted_mean([own for _, own in pulp])
    yield at_least("stepped, PuLP with CBC / ours, all levels", faster, 3.0)
    yield at_most("stepped, nine in ten within, first level", quantiles(ours, n=10)[8], 0.3, unit=" s")
    yield at_most("stepped, nine in ten within, all levels", quantiles(both, n=10)[8], 0.3, unit=" s")
