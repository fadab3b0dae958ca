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
with the word that time ran out. Nothing that is sent is kept; an answer only if you ask to fetch it later.</p>
<h2>Where to begin</h2>
<ol>
<li><a href="/docs">Run an example in the browser</a>: choose one, press Execute, change a number, press again.</li>
<li>Or from a terminal on the machine where this runs:
<pre><code>curl -sO http://127.0.0.1:8000/examples/salmon-for-one.json
curl -s -H 'Content-Type: application/json' \\
  -d @salmon-for-one.json http://127.0.0.1:8000/v1/plans</code></pre></li>
<li>Write your own brief: <a href="/docs">the same page</a> describes every field and every target.</li>
</ol>
<h2>Three to try, in order</h2>
<ol>
<li><a href="/docs#/plans/make_plan">salmon-for-one</a>: press Execute, read the plan, then press Open the card.</li>
<li><a href="/docs#/plans/make_plan">patties-spooned-back</a>: what the pan does, and drippings that are spooned back;
change the aim of the fat share and press again.</li>
<li><a href="/docs#/plans/make_plan">conflict-too-little-energy</a>: what cannot be had together, and the ways out.</li>
</ol>
<h2>Briefs to begin with</h2>
<ul>{briefs}</ul>
<h2>Dishes whose numbers are asked for</h2>
<p>Sent to <code>/v1/breakdowns</code>, these are not chosen but counted, divided and audited.</p>
<ul>{dishes}</ul>
<h2>For programs, and for when something is refused</h2>
<ul>
<li><a href="/openapi.json">The OpenAPI document</a>, for client libraries</li>
<li><a href="/v1/safe-temperatures">How hot the centre of a food has to get</a></li>
<li><a href="/problems">Every kind of problem, and the limits</a></li>
<li><a href="/readyz">Whether the service is ready</a></li>
</ul>
<p>Medical diets need professional oversight.</p>
"""


def start_router(briefs: Mapping[str, Example], dishes: Mapping[str, Example]) -> APIRouter:
    """The routes. briefs, dishes: the named examples that the documentation shows."""
    router = APIRouter(include_in_schema=False)
    page = _page(briefs, dishes)

    @router.get("/")
    async def show_start() -> HTMLResponse:
        """The page."""
        return HTMLResponse(page, headers={"Content-Security-Policy": CONTENT_SECURITY_POLICY})

    @router.get("/examples/{name}.json")
    async def show_example(name: str) -> JSONResponse:
        """One brief, ready to be sent."""
        return _example(name, briefs)

    @router.get("/examples/breakdowns/{name}.json")
    async def show_dish(name: str) -> JSONResponse:
        """One dish, ready to be sent."""
        return _example(name, dishes)

    return router


def _example(name: str, examples: Mapping[str, Example]) -> JSONResponse:
    if name not in examples:
        raise HTTPException(404, "There is no example of this name; the start page lists all.")
    return JSONResponse(examples[name]["value"])


def _page(briefs: Mapping[str, Example], dishes: Mapping[str, Example]) -> str:
    words = _WORDS.format(briefs=_rows(briefs, "/examples"), dishes=_rows(dishes, "/examples/breakdowns"))
    return document("A dish from what is in the larder", words)


def _rows(examples: Mapping[str, Example], folder: str) -> str:
    return "".join(
        f'<li><a href="{folder}/{escape(name)}.json">{escape(name)}</a>: {escape(example["summary"] or "")}</li>'
        for name, example in examples.items()
    )
