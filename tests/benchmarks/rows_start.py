"""How soon a worker is ready once all modules are compiled, and what of it the food table takes."""

import time
from collections.abc import Iterator
from http.client import HTTPConnection
from statistics import median
from urllib.parse import urlsplit

from reference_data import reference_folder
from solver.catalogue import load_catalogue
from tests.benchmarks.measure import interleaved
from tests.benchmarks.servers import OURS, running
from tests.benchmarks.table import Row, at_most

STARTS = 5


def rows() -> Iterator[Row]:
    """The rows of the table."""
    _ready_s()
    yield at_most("ready after start", median(_ready_s() for _ in range(STARTS)), 1.5, unit=" s")
    folder = reference_folder() / "sr28"
    taken = interleaved({"table": lambda: load_catalogue(folder)}, STARTS)["table"]
    yield at_most("of which the food table", taken, 0.3, unit=" s")


def _ready_s() -> float:
    began = time.perf_counter()
    with running(OURS) as (address, _):
        at = urlsplit(address)
        connection = HTTPConnection(at.hostname or "", at.port, timeout=10)
        connection.request("GET", "/readyz")
        connection.getresponse().read()
        taken = time.perf_counter() - began
        connection.close()
    return taken
