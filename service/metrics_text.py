"""The counts in the Prometheus text format, version 0.0.4."""

import math
from collections.abc import Iterator

from service.lanes import Kind
from service.metrics import OUTCOMES, SECONDS, STATUSES, Metrics

#: The media type of the format.
MEDIA_TYPE = "text/plain; version=0.0.4; charset=utf-8"


def as_text(metrics: Metrics) -> str:
    """Everything that is counted, over all workers."""
    return "".join(f"{line}\n" for line in _lines(metrics))


def _lines(metrics: Metrics) -> Iterator[str]:
    yield from _head("requests_total", "counter", "Requests answered, by HTTP status; 0 is any other.")
    for status in STATUSES:
        yield f'larderline_requests_total{{status="{status}"}} {metrics.total("requests", str(status)):g}'
    yield from _head("outcomes_total", "counter", "Briefs answered, by outcome.")
    for outcome in OUTCOMES:
        yield f'larderline_outcomes_total{{outcome="{outcome}"}} {metrics.total("outcomes", outcome):g}'
    yield from _head("shed_total", "counter", "Requests sent away with 503.")
    yield f"larderline_shed_total {metrics.total('shed'):g}"
    for name, words in (("running", "under way"), ("waiting", "waiting for a place")):
        yield from _head(f"solves_{name}", "gauge", f"Pieces of work {words}, by kind.")
        for kind in Kind:
            yield f'larderline_solves_{name}{{kind="{kind.value}"}} {metrics.total(name, kind.value):g}'
    yield from _head("solve_seconds", "histogram", "Seconds of work, without waiting, by kind.")
    for kind in Kind:
        yield from _histogram(metrics, kind.value)


def _head(name: str, kind: str, words: str) -> Iterator[str]:
    yield f"# HELP larderline_{name} {words}"
    yield f"# TYPE larderline_{name} {kind}"


def _histogram(metrics: Metrics, kind: str) -> Iterator[str]:
    count = 0.0
    for place, end in enumerate(SECONDS):
        count += metrics.total(f"solve_seconds_{place}", kind)
        le = "+Inf" if end == math.inf else f"{end:g}"
        yield f'larderline_solve_seconds_bucket{{kind="{kind}",le="{le}"}} {count:g}'
    yield f'larderline_solve_seconds_sum{{kind="{kind}"}} {metrics.total("solve_seconds_sum", kind):.6f}'
    yield f'larderline_solve_seconds_count{{kind="{kind}"}} {count:g}'
