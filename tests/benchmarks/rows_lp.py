"""Briefs without steps: the whole way from brief to verified plan against the floor, and against PuLP with CBC."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from statistics import median

from solver.backends.base import Backend
from solver.brief import Preference
from solver.outcome import Plan
from solver.solve import solve
from tests.benchmarks.briefs import BOTH, Larder, lp_brief
from tests.benchmarks.floor import Finished, run_floor
from tests.benchmarks.measure import interleaved, mean_ratio, slope
from tests.benchmarks.rival_brief import rival_of
from tests.benchmarks.rivals import solve_with_pulp
from tests.benchmarks.table import Row, at_least, at_most

#: Items to the most floors that the first level may take.
REACH = {12: 2.5, 40: 2.0, 200: 1.8, 1000: 1.8, 6000: 1.8}

#: Items to how many times faster than PuLP with CBC, all levels.
REACH_PULP = {40: 4.0, 1000: 10.0}

SEEDS, REPETITIONS = 6, 7


def rows(larder: Larder, backend: Backend, *, quick: bool = False) -> Iterator[Row]:
    """The rows of the table."""
    seeds, repetitions = (3, 3) if quick else (SEEDS, REPETITIONS)
    first_s: dict[int, float] = {}
    for items, reach in REACH.items():
        ours, floors, further = [], [], []
        for seed in range(seeds):
            measured = _against_floor(larder, backend, items, seed, repetitions)
            ours.append(measured["one"])
            floors.append(measured["floor"])
            further.append(max(measured["two"] - measured["one"], 1e-6))
        first_s[items] = median(ours)
        note = f" ({1000 * median(ours):.1f} ms; floor {1000 * median(floors):.2f} ms)"
        yield at_most(f"solve, {items} items, first level / floor", mean_ratio(ours, floors), reach, note=note)
        level = median(more / floor for more, floor in zip(further, floors, strict=True))
        yield at_most(f"a further level, {items} items / floor", level, 0.9)
    sizes = [items for items in first_s if items >= min(200, max(first_s))]
    yield at_most("growth of solve, 200 to 6,000 items", slope(sizes, [first_s[n] for n in sizes]), 1.1, unit="")
    for items, reach in REACH_PULP.items():
        faster = mean_ratio(*zip(*(_against_pulp(larder, backend, items, n) for n in range(seeds)), strict=True))
        yield at_least(f"PuLP with CBC / ours, {items} items, all levels", faster, reach)


def _against_floor(larder: Larder, backend: Backend, items: int, seed: int, repetitions: int) -> dict[str, float]:
    two = lp_brief(larder, items, seed, prefer=BOTH)
    one = replace(two, prefer=(Preference.BALANCED,))
    finished = Finished.of(one)
    on: list[float] = []
    off: list[float] = []
    works: dict[str, Callable[[], object]] = {
        "one": lambda: _plan(solve(one, backend)),
        "two": lambda: _plan(solve(two, backend)),
        "on": lambda: on.append(run_floor(finished, presolve=True)),
        "off": lambda: off.append(run_floor(finished, presolve=False)),
    }
    taken = interleaved(works, repetitions)
    return {**taken, "floor": min(median(on), median(off))}


def _against_pulp(larder: Larder, backend: Backend, items: int, seed: int) -> tuple[float, float]:
    brief = lp_brief(larder, items, seed)
    asked = rival_of(brief)
    taken = interleaved({"pulp": lambda: solve_with_pulp(asked), "ours": lambda: solve(brief, backend)}, 3)
    return taken["pulp"], taken["ours"]


def _plan(outcome: object) -> None:
    if not isinstance(outcome, Plan):
        raise TypeError("each of these briefs has a plan")
