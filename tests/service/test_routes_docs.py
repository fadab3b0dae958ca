"""The documentation page in a browser that reaches nothing but the service."""

import io
import json
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import httpx2
import pypdf
import pytest
from playwright.sync_api import Browser, Page, Route

from tests.browser import ARTEFACTS

PATIENCE_MS = 20_000


class Visit:
    """One page, with what it asked of other hosts and what it complained of."""

    def __init__(self, page: Page, server: str) -> None:
        self.page, self.outside, self.complaints = page, list[str](), list[str]()
        self._server = urlsplit(server).netloc
        page.set_default_timeout(PATIENCE_MS)
        page.context.route("**/*", self._let_through)
        page.on("console", lambda said: self.complaints.append(said.text) if said.type == "error" else None)
        page.on("pageerror", lambda error: self.complaints.append(str(error)))

    def _let_through(self, route: Route) -> None:
        if urlsplit(route.request.url).netloc == self._server:
            route.continue_()
        else:
            self.outside.append(route.request.url)
            route.abort()


@pytest.fixture
def visit(browser: Browser, server: str) -> Iterator[Visit]:
    """The documentation page, opened at the operation that makes plans."""
    page = browser.new_page(viewport={"width": 1280, "height": 1600})
    visit = Visit(page, server)
    page.goto(f"{server}/docs")
    page.get_by_role("button", name="POST /v1/plans Make a plan").click()
    yield visit
    assert visit.outside == []
    page.close()


def choose(visit: Visit, example: str) -> None:
    visit.page.locator(".examples-select select").first.select_option(example)


def execute(visit: Visit) -> str:
    """Presses the button; the body of the answer."""
    visit.page.get_by_role("button", name="Execute").click()
    return visit.page.locator(".live-responses-table .response-col_description pre").first.inner_text()


def status(visit: Visit) -> str:
    return visit.page.locator(".live-responses-table .response .response-col_status").first.inner_text().strip()


def test_the_page_shows_the_groups_in_their_order(visit: Visit) -> None:
    groups = visit.page.locator(".opblock-tag").all_inner_texts()
    assert [group.split()[0] for group in groups] == ["plans", "dishes", "foods", "work", "health"]
    assert visit.complaints == [], "the policy is kept, and nothing failed"


def test_an_example_runs_and_shows_its_plan(visit: Visit) -> None:
    choose(visit, "salmon-for-one")
    answer = execute(visit)
    assert status(visit).startswith("200")
    assert '"outcome": "plan"' in answer
    assert "salmon" in answer
    assert visit.complaints == []


def test_a_brief_that_no_dish_can_meet_shows_the_conflict(visit: Visit) -> None:
    choose(visit, "conflict-too-little-energy")
    answer = execute(visit)
    assert status(visit).startswith("200")
    assert '"outcome": "conflict"' in answer
    assert '"protein_g"' in answer


def test_a_refused_brief_shows_the_problem_and_leads_to_the_page_about_it(visit: Visit, server: str) -> None:
    visit.page.locator("textarea.body-param__text").fill('{"title": "Nothing"}')
    answer = execute(visit)
    assert status(visit).startswith("422")
    assert '"pointer": "/pantry"' in answer
    with visit.page.context.expect_page() as opened:
        visit.page.locator(".problem-pages a").last.click()
    page = opened.value
    page.wait_for_load_state()
    assert page.url.startswith(f"{server}/problems/")
    assert page.get_by_role("heading", name="How to mend it").is_visible()


def test_the_example_that_is_refused_names_three_things_to_mend(visit: Visit) -> None:
    choose(visit, "refused-to-be-mended")
    answer = execute(visit)
    assert status(visit).startswith("422")
    for pointer in ("/pantry/0/on_hand", "/pantry/1/goes_in", "/targets/0/of"):
        assert f'"pointer": "{pointer}"' in answer


def test_a_person_changes_a_number_runs_it_reads_the_plan_and_opens_and_prints_its_card(visit: Visit) -> None:
    choose(visit, "salmon-for-one")
    text = visit.page.locator("textarea.body-param__text")
    asked = text.input_value()
    assert asked.count('"aim": 600') == 1
    text.fill(asked.replace('"aim": 600', '"aim": 750'))
    plan = json.loads(execute(visit))
    assert plan["outcome"] == "plan"
    assert plan["portion"]["energy_kcal"] == pytest.approx(750, rel=0.05)
    visit.page.screenshot(path=ARTEFACTS / "docs-plan.png", full_page=True)
    with visit.page.context.expect_page() as opened:
        visit.page.get_by_role("button", name="Open the card").click()
    card = opened.value
    card.get_by_role("heading", name="Salmon for the late guest").wait_for()
    assert card.evaluate("getComputedStyle(document.querySelector('main')).columnCount") == "2", "it has its style"
    energy = f"{plan['portion']['energy_kcal']:.0f} kcal"
    assert energy in card.locator("main").inner_text()
    printed = card.pdf(path=ARTEFACTS / "docs-card.pdf", format="A4")
    (page,) = pypdf.PdfReader(io.BytesIO(printed)).pages
    assert energy in " ".join(page.extract_text().split())
    assert visit.complaints == []


def test_every_example_file_is_on_offer(visit: Visit, examples: Path) -> None:
    names = (
        visit.page.locator(".examples-select select")
        .first.locator("option")
        .evaluate_all("options => options.map(option => option.value)")
    )
    files = (*examples.glob("*.json"), *(examples / "refused").glob("*.json"))
    assert sorted(names) == sorted(path.stem for path in files)


def test_the_start_page_leads_to_the_documentation(browser: Browser, server: str) -> None:
    page = browser.new_page()
    visit = Visit(page, server)
    page.goto(server)
    page.get_by_role("link", name="Run an example in the browser").click()
    page.get_by_role("button", name="POST /v1/plans Make a plan").wait_for()
    assert (visit.outside, visit.complaints) == ([], [])
    page.close()


def test_the_policy_allows_no_other_host_and_no_script_in_the_page(client: httpx2.Client) -> None:
    policy = client.get("/docs").headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert "http" not in policy


def test_an_asset_that_is_not_there_is_a_problem(client: httpx2.Client) -> None:
    response = client.get("/docs/secret.txt")
    assert response.status_code == 404
    assert response.headers["content-type"] == "application/problem+json"
