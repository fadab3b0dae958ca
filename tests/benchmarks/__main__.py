"""All measures of speed in one run, as ratios measured side by side: `python -m tests.benchmarks`.

--quick: fewer seeds. --full: memory over 100,000 plans. --only GROUP: one group of rows. --profile: time by stage.
"""

import argparse
from collections.abc import Callable, Iterator

import highspy

from reference_data import reference_folder
from service.memory import settle
from solver.backends import open_backend
from solver.catalogue import load_catalogue
from tests.benchmarks import rows_curves, rows_http, rows_lp, rows_memory, rows_sessions, rows_start, rows_stepped
from tests.benchmarks.briefs import Larder
from tests.benchmarks.stages import say_stages
from tests.benchmarks.table import Row, say, say_head


def groups(options: argparse.Namespace) -> dict[str, Callable[[], Iterator[Row]]]:
    """The groups of rows by name, not yet run."""
    catalogue = load_catalogue(reference_folder() / "sr28")
    larder, backend, quick = Larder.of(catalogue), open_backend("highs"), bool(options.quick)
    return {
        "lp": lambda: rows_lp.rows(larder, backend, quick=quick),
        "stepped": lambda: rows_stepped.rows(larder, backend, seeds=10 if quick else 100),
        "curves": lambda: rows_curves.rows(catalogue, backend, seeds=10 if quick else 30),
        "sessions": lambda: rows_sessions.rows(catalogue, larder, backend),
        "http": lambda: rows_http.rows(larder, seconds=3.0 if quick else 10.0),
        "memory": lambda: rows_memory.rows(larder, plans=100_000 if options.full else 10_000),
        "start": rows_start.rows,
    }


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    for flag in ("quick", "full", "profile"):
        parser.add_argument(f"--{flag}", action="store_true")
    parser.add_argument("--only", nargs="+", default=[])
    options = parser.parse_args()
    if options.profile:
        say_stages()
        return
    highspy.Highs()  # prints its banner now, and not inside the table
    say_head()
    measured = groups(options)
    settle()  # as a worker does
    for name, found in measured.items():
        if name in options.only or not options.only:
            for row in found():
                say(row)


if __name__ == "__main__":
    main()
