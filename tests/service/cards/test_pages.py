"""Cards in a browser that reaches nothing: on a screen, on a telephone, in the dark, and on one sheet of paper."""

import io
import json
from typing import Any

import httpx2
import pypdf
import pytest
from playwright.sync_api import Browser, Page

from tests.browser import ARTEFACTS
from tests.npm_package import file_of_package
from tests.service.briefs import food
from tests.service.cards.conftest import KINDS, Ask

#: Checks pages against WCAG (npm, MPL-2.0).
AXE = ("axe-core@4.14.1", "e6b0ce02b84d892e2e33e403485e7f3d6c29e2be6df65daf44d89ba564139745", "axe.min.js")
WCAG_22_AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]

#: Width and height of a desk, and of a telephone.
DESK = {"width": 1200, "height": 900}
TELEPHONE = {"width": 360, "height": 740}

#: As wide as WCAG 2.2 asks for without scrolling sideways (success criterion 1.4.10).
NARROWEST = {"width": 320, "height": 640}

#: What a reader may set (success criterion 1.4.12), in em of the size of the text.
SPACED = "* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important } "
SPACED += "p { margin-bottom: 2em !important }"


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
    assert page.evaluate(_BESIDE) == []
    page.screenshot(path=ARTEFACTS / f"{kind}-{scheme}.png", full_page=True)
    page.close()


@pytest.mark.parametrize("kind", KINDS)
def test_a_telephone_shows_a_card_without_scrolling_sideways(browser: Browser, ask: Ask, kind: str) -> None:
    page = opened(browser, ask(kind, format="html").text, TELEPHONE)
    assert page.evaluate("document.documentElement.scrollWidth") <= TELEPHONE["width"]
    size = page.evaluate("parseFloat(getComputedStyle(document.querySelector('td')).fontSize)")
    assert size >= 20, "read at arm's length"
    assert page.evaluate(_BESIDE) == []
    assert page.evaluate(_SMALL) == []
    page.screenshot(path=ARTEFACTS / f"{kind}-telephone.png", full_page=True)
    page.close()


@pytest.mark.parametrize("kind", KINDS)
def test_a_card_reflows_on_the_narrowest_screen_however_its_text_is_spaced(
    browser: Browser, ask: Ask, kind: str
) -> None:
    page = opened(browser, ask(kind, format="html").text, NARROWEST)
    assert page.evaluate("document.documentElement.scrollWidth") <= NARROWEST["width"]
    page.add_style_tag(content=SPACED)
    assert page.evaluate(_CUT_OFF) == []
    page.close()


#: Words that do not fit into what holds them.
_CUT_OFF = """[...document.querySelectorAll('main *')]
    .filter(each => getComputedStyle(each).overflowX === 'hidden' && each.scrollWidth > each.clientWidth + 1)
    .map(each => each.textContent.slice(0, 60))"""


#: Tables that are wider than their place, so that a column is seen by scrolling only.
_BESIDE = """[...document.querySelectorAll('.scroll')].filter(each => each.scrollWidth > each.clientWidth)
    .map(each => each.getAttribute('aria-label'))"""

#: Words of pictures that a telephone shows smaller than 10 px, half of what it shows in tables.
_SMALL = """[...document.querySelectorAll('svg text')]
    .filter(each => each.getScreenCTM().d * parseFloat(each.getAttribute('font-size')) < 10)
    .map(each => each.textContent)"""


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
    printed = page.pdf(path=ARTEFACTS / f"twelve-{paper}.pdf", format=paper, prefer_css_page_size=False)
    assert len(pypdf.PdfReader(io.BytesIO(printed)).pages) == 1
    page.close()
