"""A layer that lets in who has a key (RFC 6750: `Authorization: Bearer KEY`), where keys are set.

Plans, foods and metrics need one. Pages that explain, the contract, and whether the service is well do not.
"""

from starlette.datastructures import Headers
from starlette.responses import Response
from starlette.types import ASGIApp, Receive, Scope, Send

from service.keys import Keys
from service.problems import by_status
from service.schemas.problem import MEDIA_TYPE

#: What begins so is for callers with a key.
_KEPT = ("/v1/", "/metrics")

_SCHEME = "bearer"

#: Characters of the longest key that is looked at.
_LONGEST = 200


class KeyRequired:
    """Pure ASGI; outside the routes, so that nothing is read of a request that is not let in."""

    def __init__(self, app: ASGIApp, keys: Keys) -> None:
        self._app, self._keys = app, keys

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """See ASGI."""
        if scope["type"] == "http" and scope["path"].startswith(_KEPT):
            state = scope.setdefault("state", {})
            state["key"] = self._keys.name_of(_presented(scope))
            if state["key"] is None:
                state["outcome"] = "key_needed"
                await _refusal()(scope, receive, send)
                return
        await self._app(scope, receive, send)


def _presented(scope: Scope) -> str:
    scheme, _, key = Headers(scope=scope).get("authorization", "").partition(" ")
    return key.strip() if scheme.lower() == _SCHEME and len(key) <= _LONGEST else ""


def _refusal() -> Response:
    document = by_status(401, "This address needs a key, and none that is known came with the request.")
    content = document.model_dump_json(exclude_none=True)
    return Response(content, document.status, {"WWW-Authenticate": "Bearer"}, MEDIA_TYPE)
