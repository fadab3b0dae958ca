"""Cards in a browser that reaches nothing: on a screen, on a telephone, in the dark, and on one sheet of paper."""

import io
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx2
import pypdf
import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from tests.npm_package import file_of_package
from tests.service.briefs import food
from tests.service.cards.conftest import KINDS, Ask

CHROMIUM = Path("/usr/bin/chromium")
FLAGS = ["--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"]

#: Checks pages against WCAG (npm, MPL-2.0).
AXE = ("axe-core@4.14.1", "e6b0ce02b84d892e2e33e403485e7f3d6c29e2be6df65daf44d89ba564139745", "axe.min.js")
WCAG_22_AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]

#: Width and height of a desk, and of a telephone.
DESK = {"width": 1200, "height": 900}
TELEPHONE = {"width": 360, "height": 740}


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    assert CHROMIUM.exists(), "these tests need the browser of the system: apt-get install -y chromium"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield browser
        browser.close()


def opened(browser: Browser, page: str, size: dict[str, int], scheme: Any = "light") -> Page:  # noqa: ANN401
    """A page that is shown; whatever it asks for is refused and fails the test."""
    shown = browser.new_page(viewport=size, color_scheme=scheme)  # type: ignore[arg-type]
    shown.route("**/*", lambda route: route.abort())
    shown.set_content(page, wait_until="load")
    return shown


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("kind", KINDS)
def test_a_card_breaks_no_rule_of_access(browser: Browser, ask: Ask, kind: str, scheme: str) -> None:
    page = opened(browser, ask(kind, format="html").text, DESK, scheme)
    page.evaluate(file_of_package(*AXE).decode())
    found = page.evaluate("tags => axe.run(document, {runOnly: tags})", WCAG_22_AA)
    assert found["passes"], "the check ran"
    assert [f"{each['id']}: {each['nodes'][0]['html'][:200]}" for each in found["violations"]] == []
    page.close()


@pytest.mark.parametrize("kind", KINDS)
def test_a_telephone_shows_a_card_without_scrolling_sideways(
    browser: Browser, ask: Ask, kind: str, tmp_path: Path
) -> None:
    page = opened(browser, ask(kind, format="html").text, TELEPHONE)
    assert page.evaluate("document.documentElement.scrollWidth") <= TELEPHONE["width"]
    size = page.evaluate("parseFloat(getComputedStyle(document.querySelector('td')).fontSize)")
    assert size >= 20, "read at arm's length"
    page.screenshot(path=tmp_path / f"{kind}.png", full_page=True)
    assert (tmp_path / f"{kind}.png").stat().st_size > 10_000
    page.close()


@pytest.fixture(scope="module")
def twelve(client: httpx2.Client) -> str:
    """The card of a plan of twelve ingredients."""
    meat, others = ("23572", "01123", "04001", "01009", "04053"), ("11282", "11297", "11260", "11457", "11233")
    numbers = (*meat, *others, "02030", "02047")
    pantry = [food(f"item {place}", number, at_least="4 g", on_hand="600 g") for place, number in enumerate(numbers)]
    brief = {
        "title": "Twelve things in one pan",
        "portions": 4,
        "pantry": pantry,
        "targets": [
            {"of": "energy_kcal", "aim": 600, "within": 60},
            {"of": "fat_share_percent", "aim": 74, "within": 4},
        ],
    }
    plan = client.post("/v1/plans", json=brief).json()
    assert plan["outcome"] == "plan", json.dumps(plan)[:500]
    assert len(plan["quantities"]) == 12
    return str(client.post("/v1/plans", json=brief, params={"format": "html"}).text)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_plan_of_twelve_ingredients_is_printed_on_one_sheet(browser: Browser, twelve: str, paper: str) -> None:
    page = opened(browser, twelve, DESK)
    printed = page.pdf(format=paper, prefer_css_page_size=False)
    assert len(pypdf.PdfReader(io.BytesIO(printed)).pages) == 1
    page.close()
