"""HEAD wherever there is GET (RFC 9110, section 9.3.2): the same head, and no content."""

from starlette.types import ASGIApp, Message, Receive, Scope, Send


class HeadAsGet:
    """Pure ASGI; inside it a HEAD is a GET."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """See ASGI."""
        if scope["type"] != "http" or scope["method"] != "HEAD":
            await self._app(scope, receive, send)
            return

        async def send_head(message: Message) -> None:
            await send({**message, "body": b""} if message["type"] == "http.response.body" else message)

        scope.setdefault("state", {})["is_head"] = True  # shared, so that what is noted inside is seen outside
        inside = {**scope, "method": "GET"}
        await self._app(inside, receive, send_head)
        scope["route"] = inside.get("route")
