"""GET / and GET /examples/{name}.json: what this is, where to begin, and the briefs to begin with. For people."""

from collections.abc import Mapping
from html import escape

from fastapi import APIRouter
from fastapi.openapi.models import Example
from fastapi.responses import HTMLResponse, JSONResponse
from starlette.exceptions import HTTPException

from service.problem_pages.html import CONTENT_SECURITY_POLICY, document

_WORDS = """
<p>Larderline works out how much of each thing in a larder goes into a dish, so that the dish meets targets for energy,
fat share, protein and carbohydrate, in amounts that a kitchen can measure. It answers a <em>brief</em> (what there is,
what the dish must meet) with a plan whose printed amounts are checked, with the reason why there can be no plan, or
with the word that time ran out. Nothing that is sent is kept.</p>
<h2>Where to begin</h2>
<ol>
<li><a href="/docs">Run an example in the browser</a>: choose one, press Execute, change a number, press again.</li>
<li>Or from a terminal on the machine where this runs:
<pre><code>curl -sO http://127.0.0.1:8000/examples/salmon-for-one.json
curl -s -H 'Content-Type: application/json' \\
  -d @salmon-for-one.json http://127.0.0.1:8000/v1/plans</code></pre></li>
<li>Write your own brief: <a href="/docs">the same page</a> describes every field and every target.</li>
</ol>
<h2>Briefs to begin with</h2>
<ul>{examples}</ul>
<h2>For programs, and for when something is refused</h2>
<ul>
<li><a href="/openapi.json">The OpenAPI document</a>, for client libraries</li>
<li><a href="/problems">Every kind of problem, and the limits</a></li>
<li><a href="/readyz">Whether the service is ready</a></li>
</ul>
<p>Medical diets need professional oversight.</p>
"""


def start_router(examples: Mapping[str, Example]) -> APIRouter:
    """The routes. examples: the named briefs that the documentation shows."""
    router = APIRouter(include_in_schema=False)
    page = _page(examples)

    @router.get("/")
    async def show_start() -> HTMLResponse:
        """The page."""
        return HTMLResponse(page, headers={"Content-Security-Policy": CONTENT_SECURITY_POLICY})

    @router.get("/examples/{name}.json")
    async def show_example(name: str) -> JSONResponse:
        """One brief, ready to be sent."""
        if name not in examples:
            raise HTTPException(404, "There is no example of this name; the start page lists all.")
        return JSONResponse(examples[name]["value"])

    return router


def _page(examples: Mapping[str, Example]) -> str:
    rows = (
        f'<li><a href="/examples/{escape(name)}.json">{escape(name)}</a>: {escape(example["summary"] or "")}</li>'
        for name, example in examples.items()
    )
    return document("A dish from what is in the larder", _WORDS.format(examples="".join(rows)))
