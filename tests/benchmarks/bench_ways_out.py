"""How long the ways out of a conflict take: `python -m tests.benchmarks.bench_ways_out`.

Wanted: the whole answer over the full table under 0.5 s for a brief without steps. Clocks differ, so no test asks; what
carries over is how many times a plain solve of a brief the answer takes.
"""

import statistics
import sys
import time
from collections.abc import Callable, Sequence

from reference_data import reference_folder
from solver.additions import additions
from solver.backends import open_backend
from solver.catalogue import load_catalogue
from solver.changes import smallest_changes
from solver.deadline import Deadline
from solver.outcome import Conflict
from solver.practical import Eligible, Practical, load_practical, practical_foods
from solver.solve import solve
from solver.ways_out import ways_out
from tests.solver.random_briefs import random_brief

LIMIT_S = 10.0


def seconds(work: Callable[[], object]) -> float:
    """Seconds of one run."""
    begin = time.perf_counter()
    work()
    return time.perf_counter() - begin


def line(name: str, runs: Sequence[float], of: Sequence[float]) -> str:
    """The median, the worst, and the median of how many times a plain conflict they took."""
    ratio = statistics.median(run / base for run, base in zip(runs, of, strict=True))
    return f"{name}: median {statistics.median(runs):.3f} s, worst {max(runs):.3f} s, {ratio:.1f} times the conflict\n"


def main() -> None:
    """Measure and print."""
    catalogue, highs = load_catalogue(reference_folder() / "sr28"), open_backend("highs")
    practical = practical_foods(catalogue, load_practical(reference_folder() / "additions.csv"))
    every = tuple(Practical(catalogue.food(food_id), catalogue.food(food_id).name) for food_id in catalogue.ids)
    some, all_foods = (Eligible(foods, lambda _: True) for foods in (practical, every))
    runs: dict[str, list[float]] = {}
    conflicts = 0
    for seed in range(3, 400, 4):
        brief = random_brief(catalogue, seed)
        found = solve(brief, highs)
        if not isinstance(found, Conflict):
            continue
        conflicts += 1
        for name, work in {
            "the conflict alone": lambda: solve(brief, highs),  # noqa: B023  called at once
            "smallest changes": lambda: smallest_changes(found, highs, Deadline.after(LIMIT_S)),  # noqa: B023
            "additions, practical": lambda: additions(found, some, highs, Deadline.after(LIMIT_S)),  # noqa: B023
            "additions, whole table": lambda: additions(found, all_foods, highs, Deadline.after(LIMIT_S)),  # noqa: B023
            "all ways out": lambda: ways_out(found, some, highs, Deadline.after(LIMIT_S)),  # noqa: B023
        }.items():
            runs.setdefault(name, []).append(seconds(work))
    sys.stdout.write(f"{conflicts} conflicts, {len(practical)} practical foods of {len(every)}\n")
    for name, each in runs.items():
        sys.stdout.write(line(name, each, runs["the conflict alone"]))


if __name__ == "__main__":
    main()
