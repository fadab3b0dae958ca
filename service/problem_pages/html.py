"""Problem pages as HTML that needs nothing from anywhere: no script, no font, no image."""

import base64
import hashlib
import re
from collections.abc import Iterable
from html import escape

from service.problem_pages import CHAPTERS, PAGES, Page
from service.settings import LIMITS, Settings, variable

_STYLE = (
    ":root{color-scheme:light dark}"
    "body{font:1rem/1.5 system-ui,sans-serif;max-width:44rem;margin:2rem auto;padding:0 1rem}"
    "td,th{text-align:left;vertical-align:top;padding:.2rem 1rem .2rem 0}code{overflow-wrap:anywhere}"
)

#: Allows the one style sheet above, by its hash (CSP Level 3, section 2.3.1), and nothing else.
CONTENT_SECURITY_POLICY = (
    "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'; style-src 'sha256-"
    + base64.b64encode(hashlib.sha256(_STYLE.encode()).digest()).decode()
    + "'"
)


def page_html(code: str) -> str:
    """The page of a kind of problem. Raises KeyError when there is none."""
    page = PAGES[code]
    sections = (("What happened", page.what), ("Why it is refused", page.why), ("How to mend it", page.mend))
    text = "".join(f"<h2>{escape(heading)}</h2><p>{_text(words)}</p>" for heading, words in sections)
    head = f"<p><code>{escape(code)}</code></p>"
    return document(page.title, head + text + '<p><a href="/problems">All kinds of problems, and the limits</a></p>')


def index_html(settings: Settings) -> str:
    """All kinds of problems, and every limit with its setting."""
    chapters = "".join(f"<h2>{escape(title)}</h2>{_list(pages.items())}" for title, pages in CHAPTERS.items())
    intro = (
        "<p>A request that is refused is answered with a problem document (RFC 9457). Its <code>type</code>, and that "
        "of each problem in it, leads to one of these pages.</p>"
    )
    return document("Problems and limits", intro + _limits(settings) + chapters)


def _list(pages: Iterable[tuple[str, Page]]) -> str:
    rows = (
        f'<li><a href="/problems/{escape(code)}"><code>{escape(code)}</code></a>: {escape(page.title)}</li>'
        for code, page in pages
    )
    return f"<ul>{''.join(rows)}</ul>"


def _limits(settings: Settings) -> str:
    rows = "".join(
        f"<tr><td><code>{variable(name)}</code></td><td>{getattr(settings, name):,}</td>"
        f"<td>{_text(Settings.model_fields[name].description or '')}</td></tr>"
        for name in LIMITS
    )
    heading = "<tr><th>Setting</th><th>Here</th><th>What it limits</th></tr>"
    return f'<h2 id="limits">Limits</h2><table>{heading}{rows}</table>'


def _text(words: str) -> str:
    """What stands between backticks is code."""
    return re.sub("`([^`]*)`", r"<code>\1</code>", escape(words))


def document(title: str, body: str) -> str:
    """A page of ours. title: as text; body: as HTML."""
    return (
        f'<!DOCTYPE html><html lang="en-GB"><head><meta charset="utf-8"><title>{escape(title)} - Larderline</title>'
        f'<meta name="viewport" content="width=device-width, initial-scale=1"><style>{_STYLE}</style></head>'
        f"<body><main><h1>{escape(title)}</h1>{body}</main></body></html>"
    )
