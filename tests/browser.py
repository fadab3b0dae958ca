"""The browser of the system, in which pages are shown as a person would see them, and where their pictures are kept."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

CHROMIUM = Path("/usr/bin/chromium")

#: No graphics, and none of what the browser would fetch for itself.
FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]

#: Screenshots and prints of the last run of the tests, to be looked at; no part of the project.
ARTEFACTS = Path(__file__).parents[1] / ".artefacts"


@contextmanager
def launched() -> Iterator[Browser]:
    """The browser, until the tests that share it are done."""
    assert CHROMIUM.exists(), "these tests need the browser of the system: apt-get install -y chromium"
    ARTEFACTS.mkdir(exist_ok=True)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield browser
        browser.close()
