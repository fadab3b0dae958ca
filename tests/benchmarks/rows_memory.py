"""Resident memory of one worker over many plans: warm after the first 5,000, flat from there."""

import json
from collections.abc import Iterator

from tests.benchmarks.briefs import Larder, lp_brief, posted
from tests.benchmarks.http_load import Load
from tests.benchmarks.servers import OURS, resident_mb, running
from tests.benchmarks.table import Row, at_most

ITEMS, BODIES, WARM_PLANS, SLICE_S = 12, 200, 5_000, 5.0


def rows(larder: Larder, *, plans: int) -> Iterator[Row]:
    """The rows of the table. plans: after the first 5,000."""
    bodies = [json.dumps(posted(lp_brief(larder, ITEMS, seed))).encode() for seed in range(BODIES)]
    with running(OURS, workers=1) as (address, process):
        _plans(address, bodies, WARM_PLANS)
        warm_mb = resident_mb(process.pid)
        _plans(address, bodies, plans)
        end_mb = resident_mb(process.pid)
    note = f" ({warm_mb:.0f} MB after {WARM_PLANS}, then {plans} more)"
    yield at_most(
        "resident memory, growth after the first 5,000 plans", 100 * (end_mb / warm_mb - 1), 5.0, unit=" %", note=note
    )
    yield at_most("resident memory of a worker", end_mb, 200.0, unit=" MB")


def _plans(address: str, bodies: list[bytes], plans: int) -> None:
    done = 0
    while done < plans:
        done += len(Load(address, "/v1/plans", bodies, SLICE_S, connections=2).run())
