"""Plans per second over HTTP with two workers, and the latency at half of the load that saturates."""

import json
from collections.abc import Iterator
from statistics import median, quantiles
from time import sleep

from tests.benchmarks.briefs import Larder, lp_brief, posted
from tests.benchmarks.http_load import Load
from tests.benchmarks.servers import OURS, RIVAL, WORKERS_S, running
from tests.benchmarks.table import Row, at_least, at_most

ITEMS, BODIES = 40, 16
PLANS, RIVAL_PLANS = "/v1/plans", "/plans"

#: Turns that ours and the rival take, and seconds without a count before each.
TURNS, WARM_S = 3, 1.0


def rows(larder: Larder, *, seconds: float) -> Iterator[Row]:
    """The rows of the table. seconds: of each turn."""
    bodies = [json.dumps(posted(lp_brief(larder, ITEMS, seed))).encode() for seed in range(BODIES)]
    with running(OURS, workers=2) as (ours, _), running((*RIVAL, "--workers", "2")) as (rival, _):
        sleep(WORKERS_S)
        mine, its = [], []
        for _ in range(TURNS):
            mine.append(_per_second(ours, PLANS, bodies, seconds))
            its.append(_per_second(rival, RIVAL_PLANS, bodies, seconds))
        note = f" ({median(mine):.0f} and {median(its):.0f} plans a second)"
        yield at_least("HTTP, plans a second, ours / PuLP application", median(mine) / median(its), 4.0, note=note)
        taken = quantiles(Load(ours, PLANS, bodies, 2 * seconds, rate=median(mine) / 2).run(), n=100)
    note = f" (median {1000 * taken[49]:.1f} ms)"
    yield at_most("HTTP at half the load, p99 / median", taken[98] / taken[49], 5.0, note=note)


def _per_second(address: str, path: str, bodies: list[bytes], seconds: float) -> float:
    Load(address, path, bodies, WARM_S).run()
    return len(Load(address, path, bodies, seconds).run()) / seconds
