"""The page that a stranger meets first."""

import json
import re
from pathlib import Path

import httpx2


def test_the_start_page_says_what_this_is_and_where_to_begin(client: httpx2.Client) -> None:
    response = client.get("/")
    assert response.headers["content-type"].startswith("text/html")
    assert "Where to begin" in response.text
    assert "Medical diets need professional oversight." in response.text
    assert "<script" not in response.text


def test_every_link_of_the_start_page_leads_somewhere_on_this_service(client: httpx2.Client) -> None:
    links = set(re.findall(r'href="([^"]+)"', client.get("/").text))
    assert {"/docs", "/openapi.json", "/problems"} <= links
    assert {link: client.get(link).status_code for link in links} == dict.fromkeys(links, 200)


def test_every_example_file_is_linked_and_served_as_it_is(client: httpx2.Client, examples: Path) -> None:
    start = client.get("/").text
    for path in examples.glob("*.json"):
        assert f'href="/examples/{path.name}"' in start
        assert client.get(f"/examples/{path.name}").json() == json.loads(path.read_text(encoding="utf-8"))
    for path in (examples / "breakdowns").glob("*.json"):
        assert f'href="/examples/breakdowns/{path.name}"' in start
        served = client.get(f"/examples/breakdowns/{path.name}").json()
        assert served == json.loads(path.read_text(encoding="utf-8"))


def test_an_example_that_is_not_there_is_a_problem(client: httpx2.Client) -> None:
    response = client.get("/examples/feast.json")
    assert response.status_code == 404
    assert response.headers["content-type"] == "application/problem+json"
