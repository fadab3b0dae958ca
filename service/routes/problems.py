"""GET /problems and /problems/{code}: where the `type` of a problem document leads. Pages for people."""

from fastapi import APIRouter
from fastapi.responses import HTMLResponse
from starlette.exceptions import HTTPException

from service.problem_pages import PAGES
from service.problem_pages.html import CONTENT_SECURITY_POLICY, index_html, page_html
from service.settings import Settings

_HEADERS = {"Content-Security-Policy": CONTENT_SECURITY_POLICY}


def problems_router(settings: Settings) -> APIRouter:
    """The routes. settings: whose limits the index shows."""
    router = APIRouter(prefix="/problems", include_in_schema=False)

    @router.get("")
    async def list_problems() -> HTMLResponse:
        """All kinds, and the limits."""
        return HTMLResponse(index_html(settings), headers=_HEADERS)

    @router.get("/{code}")
    async def show_problem(code: str) -> HTMLResponse:
        """One kind."""
        if code not in PAGES:
            raise HTTPException(404, "There is no such kind of problem; /problems lists all.")
        return HTMLResponse(page_html(code), headers=_HEADERS)

    return router
