"""What asks for more than one solve: a conflict with its ways out, and ten solves on one session."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from solver.additions import additions
from solver.backends.base import Backend, Limits, Session
from solver.brief import Preference
from solver.catalogue import Catalogue
from solver.changes import smallest_changes
from solver.deadline import Deadline
from solver.outcome import Conflict
from solver.practical import Eligible, Practical
from solver.solve import solve
from tests.benchmarks.briefs import Larder, impossible, lp_brief
from tests.benchmarks.floor import Finished, floor_s
from tests.benchmarks.measure import interleaved
from tests.benchmarks.table import Row, at_most

ITEMS, CHAIN, LIMIT_S = 40, 10, 20.0

#: How far a right-hand side moves from solve to solve, a part of itself.
MOVED = 0.002


def rows(catalogue: Catalogue, larder: Larder, backend: Backend) -> Iterator[Row]:
    """The rows of the table."""
    yield from _conflict(catalogue, larder, backend)
    finished = Finished.of(replace(lp_brief(larder, ITEMS, 0), prefer=(Preference.BALANCED,)))
    works = {name: lambda c=change: _chain(finished, backend, c) for name, change in CHANGES.items()}
    taken = interleaved(works, 15)
    for name, reach in (("right-hand sides", 6.0), ("objectives", 10.0)):
        yield at_most(f"ten solves on a session, {name} changed / one", taken[name] / taken["one"], reach)


def _conflict(catalogue: Catalogue, larder: Larder, backend: Backend) -> Iterator[Row]:
    every = tuple(Practical(catalogue.food(food_id), catalogue.food(food_id).name) for food_id in catalogue.ids)
    eligible = Eligible(every, lambda _: True)
    brief = impossible(lp_brief(larder, ITEMS, 0))
    if not isinstance(solve(brief, backend), Conflict):
        raise TypeError("no dish has as much protein and fat as this brief asks for")

    def work() -> None:
        found = solve(brief, backend)
        assert isinstance(found, Conflict)
        smallest_changes(found, backend, Deadline.after(LIMIT_S))
        additions(found, eligible, backend, Deadline.after(LIMIT_S))

    taken = interleaved({"ways out": work}, 3)["ways out"]
    floor = floor_s(Finished.of(lp_brief(larder, ITEMS, 0)), 15)
    note = f" ({1000 * taken:.0f} ms)"
    yield at_most("conflict, ways out over the whole table / floor of 40", taken / floor, 60.0, note=note)


def _chain(finished: Finished, backend: Backend, change: str) -> None:
    program = finished.formulation.program
    session = backend.open(program)
    try:
        session.set_cost(finished.levels[0].cost)
        for turn in range(1 if change == "one" else CHAIN):
            if turn:
                _changed(session, finished, change, turn)
            session.solve(Limits(Deadline.after(LIMIT_S)))
    finally:
        session.close()


def _changed(session: Session, finished: Finished, change: str, turn: int) -> None:
    program = finished.formulation.program
    if change == "objectives":
        cost = finished.levels[0].cost + MOVED * turn * np.random.default_rng(turn).random(len(program.cost))
        session.set_cost(cost)
        return
    lower = program.row_lower - MOVED * turn * np.abs(program.row_lower)
    session.set_row_bounds(lower, program.row_upper)


CHANGES = {"one": "one", "right-hand sides": "rows", "objectives": "objectives"}
