"""Every code that anything is refused with has a page, every page a code, and every `type` leads to its page."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import httpx2
import pytest

from service.problem_pages import PAGES
from service.problem_pages.html import index_html
from service.problems import KINDS
from service.settings import LIMITS, Settings, variable
from service.validation import CODES

ROOT = Path(__file__).parents[2]

#: What is called with a code, and the place of the code among its arguments.
CALLED_WITH_A_CODE = {
    "Problem": 1,
    "AmountError": 0,
    "Unweighable": 0,
    "refuse": 0,
    "refuse_unknown": 2,
    "listed": 0,
}

#: Codes that are passed on, not chosen: each of these is chosen at another call of the table above, or in CODES.
PASSED_ON = {"code", "error.code", "refusal.code"}


def modules() -> list[Path]:
    return [path for folder in ("solver", "service") for path in sorted((ROOT / folder).rglob("*.py"))]


def codes_in(path: Path) -> Iterator[ast.expr]:
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Call):
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            place = CALLED_WITH_A_CODE.get(called)
            named = [keyword.value for keyword in node.keywords if keyword.arg == "code"]
            if place is not None and (named or len(node.args) > place):
                yield named[0] if named else node.args[place]


def used_codes() -> set[str]:
    chosen = {code for code, _ in CODES.values()} | {"invalid"} | set(KINDS.values())
    for path in modules():
        for expression in codes_in(path):
            if isinstance(expression, ast.Constant):
                chosen.add(str(expression.value))
            elif isinstance(expression, ast.JoinedStr):
                chosen |= {"repeated_name", "repeated_id"}
                assert ast.unparse(expression) == "f'repeated_{field}'", path
            else:
                assert ast.unparse(expression) in PASSED_ON, f"{path}: {ast.unparse(expression)}"
    return chosen


def test_every_code_has_a_page_and_every_page_a_code() -> None:
    used = used_codes()
    missing, unused = sorted(used - set(PAGES)), sorted(set(PAGES) - used)
    assert missing == [], f"write a page for each in service/problem_pages: {missing}"
    assert unused == [], f"nothing is refused with these; remove their pages: {unused}"


def test_no_code_stands_in_two_chapters(client: httpx2.Client) -> None:
    index = client.get("/problems").text
    assert sorted(re.findall(r'href="/problems/(\w+)"', index)) == sorted(PAGES)


@pytest.mark.parametrize("code", PAGES)
def test_a_page_says_what_why_and_how_to_mend(code: str) -> None:
    page = PAGES[code]
    assert re.fullmatch(r"[a-z]+(_[a-z0-9]+)*", code)
    assert not page.title.endswith(".")
    assert all(text.endswith((".", ":")) and len(text) > 10 for text in (page.what, page.why, page.mend))


@pytest.mark.parametrize("code", PAGES)
def test_a_page_is_served_and_may_load_nothing(client: httpx2.Client, code: str) -> None:
    response = client.get(f"/problems/{code}")
    assert response.status_code == 200
    assert response.headers["content-type"] == "text/html; charset=utf-8"
    assert response.headers["content-security-policy"].startswith("default-src 'none';")
    assert code in response.text
    assert "<script" not in response.text
    assert re.findall(r'(?:src|href)="([^"]*)"', response.text) == ["/problems"]


def test_there_is_no_page_for_a_code_that_nobody_uses(client: httpx2.Client) -> None:
    response = client.get("/problems/%3Cscript%3E")
    assert response.status_code == 404
    assert "script" not in response.text


@pytest.mark.parametrize(
    ("method", "path", "body"),
    [
        ("GET", "/nowhere", b""),
        ("PUT", "/v1/plans", b""),
        ("POST", "/v1/plans", b"{"),
        ("POST", "/v1/plans", b'{"portions": 0}'),
        ("POST", "/v1/breakdowns", b'{"portions": 0, "division": {"kind": "thirds"}}'),
        ("GET", "/v1/safe-temperatures?profile=moon", b""),
    ],
)
def test_every_type_leads_to_a_page_of_its_title(client: httpx2.Client, method: str, path: str, body: bytes) -> None:
    response = client.request(method, path, content=body, headers={"content-type": "application/json"})
    document = response.json()
    # RFC 9457, section 3.1.1: a relative `type` is resolved against the URI of the request.
    page = client.get(response.url.join(document["type"]))
    assert f"<h1>{document['title']}</h1>" in page.text
    for problem in document["problems"]:
        assert client.get(response.url.join(problem["type"])).status_code == 200


def test_the_index_shows_every_limit_with_its_value_here() -> None:
    index = index_html(Settings(pantry_limit=123_456))
    assert all(variable(name) in index for name in LIMITS)
    assert "<td>123,456</td>" in index


def test_every_limit_says_what_it_limits() -> None:
    assert {name for name in Settings.model_fields if re.search("limit|deadline|solves", name)} == set(LIMITS)
    assert all(field.description for field in Settings.model_fields.values())
