"""Headers that every answer carries, so that a browser makes nothing of it but what it is."""

from collections.abc import Mapping
from types import MappingProxyType

from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

#: Taken as they are when an answer does not set its own: data is never a page, is framed by nobody and leads nowhere.
DEFAULTS: Mapping[str, str] = MappingProxyType(
    {
        "X-Content-Type-Options": "nosniff",
        "Referrer-Policy": "no-referrer",
        "Cross-Origin-Resource-Policy": "same-origin",
        "Cross-Origin-Opener-Policy": "same-origin",
        "X-Frame-Options": "DENY",
        "Cache-Control": "no-store",
        "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
    }
)


class DefaultHeaders:
    """Pure ASGI."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """See ASGI."""

        async def send_with_defaults(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in DEFAULTS.items():
                    headers.setdefault(name, value)
            await send(message)

        await self._app(scope, receive, send_with_defaults)
