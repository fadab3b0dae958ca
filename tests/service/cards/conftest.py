"""One answer of each kind, and the same in every form."""

import json
from collections.abc import Callable, Iterator
from pathlib import Path

import httpx2
import pytest

from tests.service.asking import Document
from tests.service.conftest import serving

EXAMPLES = Path(__file__).parents[3] / "openapi" / "examples"

#: Address and example of each kind of answer.
KINDS = {
    "plan": ("/v1/plans", "patties-for-four"),
    "conflict": ("/v1/plans", "conflict-too-little-energy"),
    "breakdown": ("/v1/breakdowns", "breakdowns/patties-with-a-card"),
    "reach": ("/v1/reach", "reach/salmon-for-one"),
    "rework": ("/v1/reworks", "reworks/patties-too-dry"),
}

#: Far more than any of them needs, seconds.
PATIENCE_S = 20

#: kind and query to the response.
Ask = Callable[..., httpx2.Response]


@pytest.fixture(scope="session")
def ask(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Ask]:
    """Asks for one of the kinds, in a form, of a service that takes the time to say the same each time."""
    log = tmp_path_factory.mktemp("cards") / "log"
    with (
        serving(log, ways_out_time_s=PATIENCE_S) as (address, _),
        httpx2.Client(base_url=address, timeout=2 * PATIENCE_S) as client,
    ):
        yield lambda kind, headers=None, **query: _asked(client, kind, headers, query)


def _asked(client: httpx2.Client, kind: str, headers: dict[str, str] | None, query: dict[str, str]) -> httpx2.Response:
    address, name = KINDS[kind]
    document: Document = json.loads((EXAMPLES / f"{name}.json").read_text())
    brief = document if kind in {"plan", "conflict"} else document.get("brief", {})
    brief["time_limit_s"] = PATIENCE_S  # so that an answer is the same each time
    return client.post(address, json=document, params=query, headers=headers)
