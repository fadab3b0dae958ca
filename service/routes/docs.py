"""GET /docs: the API with examples to run, and what that page needs. A page for people."""

from fastapi import APIRouter
from fastapi.responses import HTMLResponse, Response
from starlette.exceptions import HTTPException

from service.cards.page import Pages
from service.docs_ui import PAGE, content_security_policy, load_assets


def docs_router(pages: Pages) -> APIRouter:
    """The routes. pages: whose cards the page opens. Raises FileNotFoundError when an asset is missing."""
    router = APIRouter(prefix="/docs", include_in_schema=False)
    assets, policy = load_assets(), content_security_policy(pages.style_source)

    @router.get("")
    async def show_docs() -> HTMLResponse:
        """The page."""
        return HTMLResponse(PAGE, headers={"Content-Security-Policy": policy})

    @router.get("/{name}")
    async def show_asset(name: str) -> Response:
        """One asset of the page."""
        if name not in assets:
            raise HTTPException(404, "The documentation page has no such asset; the page itself is /docs.")
        content, media_type = assets[name]
        return Response(content, media_type=media_type)

    return router
