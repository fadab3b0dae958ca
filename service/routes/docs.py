"""GET /docs: the API with examples to run, and what that page needs. A page for people."""

from fastapi import APIRouter
from fastapi.responses import HTMLResponse, Response
from starlette.exceptions import HTTPException

from service.docs_ui import CONTENT_SECURITY_POLICY, PAGE, load_assets


def docs_router() -> APIRouter:
    """The routes. Raises FileNotFoundError when an asset is missing."""
    router = APIRouter(prefix="/docs", include_in_schema=False)
    assets = load_assets()

    @router.get("")
    async def show_docs() -> HTMLResponse:
        """The page."""
        return HTMLResponse(PAGE, headers={"Content-Security-Policy": CONTENT_SECURITY_POLICY})

    @router.get("/{name}")
    async def show_asset(name: str) -> Response:
        """One asset of the page."""
        if name not in assets:
            raise HTTPException(404, "The documentation page has no such asset; the page itself is /docs.")
        content, media_type = assets[name]
        return Response(content, media_type=media_type)

    return router
