"""RFC 9110 (HTTP semantics): entity tags, If-None-Match, 304."""

import httpx2
import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.revalidation import etag, matches
from service.settings import Settings
from solver.catalogue import Catalogue
from tests.service.conftest import BODY_DEADLINE_S

FOOD = "/v1/foods/sr28:01123"
READ_AGAIN = [FOOD, "/openapi.json", "/docs", "/problems", "/problems/busy"]


@pytest.mark.parametrize("path", READ_AGAIN)
def test_what_has_not_changed_is_not_sent_again(client: httpx2.Client, path: str) -> None:
    first = client.get(path)
    assert first.status_code == 200
    again = client.get(path, headers={"If-None-Match": first.headers["etag"]})
    assert again.status_code == 304
    assert again.content == b""
    assert again.headers["etag"] == first.headers["etag"]
    assert again.headers["cache-control"] == first.headers["cache-control"]


def test_a_tag_is_the_same_in_another_process(client: httpx2.Client, catalogue: Catalogue) -> None:
    same = Settings(body_deadline_s=BODY_DEADLINE_S)  # /problems shows the limits
    with TestClient(create_app(same, catalogue=catalogue)) as other:
        for path in READ_AGAIN:
            assert other.get(path).headers["etag"] == client.get(path).headers["etag"]


def test_another_food_has_another_tag(client: httpx2.Client) -> None:
    other = client.get("/v1/foods/sr28:15236", headers={"If-None-Match": client.get(FOOD).headers["etag"]})
    assert other.status_code == 200


def test_the_tag_of_the_compressed_answer_is_that_of_the_plain_one(client: httpx2.Client) -> None:
    plain = client.get(FOOD, headers={"Accept-Encoding": "identity"})
    packed = client.get(FOOD, headers={"Accept-Encoding": "gzip"})
    assert packed.headers["content-encoding"] == "gzip"
    assert "content-encoding" not in plain.headers
    assert packed.json() == plain.json()
    assert packed.headers["etag"] == plain.headers["etag"]


def test_reference_data_stays_fresh_for_a_while_and_pages_are_asked_for_again(client: httpx2.Client) -> None:
    assert client.get(FOOD).headers["cache-control"] == "max-age=3600"
    assert client.get("/openapi.json").headers["cache-control"] == "no-cache"


def test_refusals_and_health_have_no_tag(client: httpx2.Client) -> None:
    for path in ("/healthz", "/readyz", "/v1/foods/none", "/nowhere"):
        assert "etag" not in client.get(path, headers={"If-None-Match": "*"}).headers


def test_an_answer_to_a_brief_has_no_tag(client: httpx2.Client, salmon: dict[str, object]) -> None:
    response = client.post("/v1/plans", json=salmon, headers={"If-None-Match": "*"})
    assert response.status_code == 200
    assert "etag" not in response.headers


# RFC 9110, section 8.8.3.2: the table of weak comparison; section 13.1.2: lists and the asterisk.
@pytest.mark.parametrize(
    ("if_none_match", "tag", "same"),
    [
        ('W/"1"', 'W/"1"', True),
        ('W/"1"', 'W/"2"', False),
        ('"1"', 'W/"1"', True),
        ('"1"', '"1"', True),
        ('"xyzzy", "r2d2xxxx", "c3piozzzz"', 'W/"r2d2xxxx"', True),
        ("*", 'W/"1"', True),
        ("", 'W/"1"', False),
    ],
)
def test_tags_are_compared_weakly(if_none_match: str, tag: str, *, same: bool) -> None:
    assert matches(if_none_match, tag) is same


def test_a_tag_depends_on_the_content_alone() -> None:
    assert etag(b"a") == etag(b"a") != etag(b"b")
    # RFC 9110, section 8.8.3: weak tags begin with W/ and are quoted.
    assert etag(b"").startswith('W/"')
