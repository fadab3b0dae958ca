"""How long the food table takes to load and what it weighs: `python -m tests.benchmarks.bench_catalogue`.

Wanted: under 0.3 s, and under 200 MB for the process. Clocks differ, so no test asks.
"""

import resource
import sys
import time
from collections.abc import Callable

from reference_data import reference_folder
from solver.catalogue import load_catalogue

FOLDER = reference_folder() / "sr28"
FILES = ("foods.csv", "food_groups.csv", "composition.csv", "standard_errors.csv", "measures.csv")
REPEATS = 7


def best_s(work: Callable[[], object]) -> float:
    """Seconds of the fastest of several runs."""
    runs = []
    for _ in range(REPEATS):
        begin = time.perf_counter()
        work()
        runs.append(time.perf_counter() - begin)
    return min(runs)


def main() -> None:
    """Measure and print."""
    load_s = best_s(lambda: load_catalogue(FOLDER))
    read_s = best_s(lambda: [(FOLDER / name).read_bytes() for name in FILES])
    peak_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    sys.stdout.write(
        f"load {load_s:.3f} s (best of {REPEATS}), {load_s / read_s:.0f} times reading the bytes; "
        f"peak memory of the process {peak_mb:.0f} MB\n"
    )


if __name__ == "__main__":
    main()
