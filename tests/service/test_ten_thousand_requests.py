"""Ten thousand requests, most of them damaged, to a service that has to answer every one and to forget them all."""

import gzip
import http.client
import json
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from service.problem_pages import PAGES
from service.schemas.problem import MEDIA_TYPE
from tests.service.conftest import serving
from tests.service.full import DOCUMENTS
from tests.service.random_requests import Asked, Sent, requests

REQUESTS = 10_000

#: Answered before the memory is first looked at: pools, caches and the solver's own are filled by then.
WARM_UP = 6_000

CLIENTS = 4

#: A request that has not been answered by then hangs, seconds; none should need a tenth of it.
PATIENCE_S = 10

#: What the allocator may keep after 10,000 requests, MB: less than 2 kB a request, so no request can be kept.
GROWTH_MB = 15


@dataclass(slots=True)
class Seen:
    """What came back. Statuses, and codes of problems with their counts."""

    statuses: Counter[int] = field(default_factory=Counter)
    codes: Counter[str] = field(default_factory=Counter)


def ask(address: str, asked: Iterator[Asked], times: int) -> Seen:
    """On one connection, opened anew when the service has closed it. Raises TimeoutError when an answer hangs."""
    where, seen = urlsplit(address), Seen()
    with closing(http.client.HTTPConnection(where.hostname or "", where.port, timeout=PATIENCE_S)) as connection:
        for request in islice(asked, times):
            connection.request(request.method, request.address, request.body or None, request.headers)
            answer = connection.getresponse()
            content = answer.read()
            seen.statuses[answer.status] += 1
            assert answer.status < 500, request
            if answer.headers.get_content_type() == MEDIA_TYPE and request.method != "HEAD":
                packed = answer.headers["Content-Encoding"] == "gzip"
                seen.codes.update(problem_codes(gzip.decompress(content) if packed else content))
    return seen


def problem_codes(content: bytes) -> Iterator[str]:
    document = json.loads(content)
    yield document["type"].rpartition("/")[2]
    yield from (problem["code"] for problem in document["problems"])


def from_all_clients(address: str, seed: int, documents: list[Sent], total: int) -> Seen:
    share = total // CLIENTS
    together = Seen()
    with ThreadPoolExecutor(CLIENTS) as pool:
        for seen in pool.map(lambda n: ask(address, requests(seed + n, documents), share), range(CLIENTS)):
            together.statuses += seen.statuses
            together.codes += seen.codes
    return together


def resident_mb(process_id: int) -> float:
    """proc(5): VmRSS, the memory that the process holds, in kB."""
    status = Path(f"/proc/{process_id}/status").read_text()
    (line,) = [line for line in status.splitlines() if line.startswith("VmRSS:")]
    return int(line.split()[1]) / 1024


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="memory is read from /proc")
def test_none_is_a_fault_none_hangs_and_none_is_kept(tmp_path: Path) -> None:
    documents = [(address, document) for address, known in DOCUMENTS.items() for document in known]
    documents = [(at, {**one, "time_limit_s": 1.0} if at == "/v1/plans" else one) for at, one in documents]
    log = tmp_path / "log"
    with serving(log, solves_at_once=CLIENTS) as (address, process):  # a place for each, so that none is sent away
        from_all_clients(address, 1000, documents, WARM_UP)
        before_mb = resident_mb(process.pid)
        seen = from_all_clients(address, 2000, documents, REQUESTS)
        after_mb = resident_mb(process.pid)
        assert process.poll() is None
    assert seen.statuses.total() == REQUESTS
    assert [status for status in seen.statuses if status >= 500] == []
    assert {200, 400, 404, 405, 415, 422} <= seen.statuses.keys(), "the mix reaches every kind of answer"
    assert [code for code in seen.codes if code not in PAGES] == []
    assert len(seen.codes) > 20, "and many kinds of problems"
    assert after_mb - before_mb < GROWTH_MB
    assert '"level": "error"' not in log.read_text()
