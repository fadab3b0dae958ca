"""ETag and 304 for whatever is read with GET (RFC 9110, sections 8.8.3 and 13.1.2; RFC 9111 for caching).

The tag is a hash of the content and of nothing else, so it is the same in every process and after every start. It is a
weak one, since the same content goes out compressed and not. An answer that says `no-store` is left alone.
"""

import hashlib

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

#: How long reference data may be used without asking again, seconds; it changes with a release only.
FRESH_S = 3600

_OK = 200
_NOT_MODIFIED = 304


class Revalidation:
    """Pure ASGI; holds an answer back until it is whole, to know its hash before its head goes out."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """See ASGI."""
        if scope["type"] != "http" or scope["method"] != "GET":
            await self._app(scope, receive, send)
            return
        held = _Held(scope, send)
        await self._app(scope, receive, held.send)


class _Held:
    def __init__(self, scope: Scope, send: Send) -> None:
        self._asked = Headers(scope=scope).get("if-none-match", "")
        self._is_reference = scope["path"].startswith("/v1/")
        self._send = send
        self._start: Message | None = None
        self._body = bytearray()

    async def send(self, message: Message) -> None:
        """Pass on what has no tag; hold back the rest until its end."""
        if message["type"] == "http.response.start" and _has_tag(message):
            self._start = message
        elif self._start is None or message["type"] != "http.response.body":
            await self._send(message)
        else:
            self._body += message.get("body", b"")
            if not message.get("more_body", False):
                await self._release(self._start)

    async def _release(self, start: Message) -> None:
        tag = etag(bytes(self._body))
        headers = MutableHeaders(scope=start)
        headers["ETag"] = tag
        headers.setdefault("Cache-Control", f"max-age={FRESH_S}" if self._is_reference else "no-cache")
        del headers["Last-Modified"]  # when a file was unpacked says nothing of its content
        if matches(self._asked, tag):
            del headers["Content-Length"]
            del headers["Content-Type"]
            start["status"], self._body = _NOT_MODIFIED, bytearray()
        await self._send(start)
        await self._send({"type": "http.response.body", "body": bytes(self._body)})


def _has_tag(start: Message) -> bool:
    return start["status"] == _OK and "no-store" not in Headers(raw=start["headers"]).get("cache-control", "")


def etag(content: bytes) -> str:
    """The weak entity tag of some content."""
    return f'W/"{hashlib.sha256(content).hexdigest()[:32]}"'


def matches(if_none_match: str, tag: str) -> bool:
    """Whether the header names the tag, by the weak comparison of RFC 9110, section 8.8.3.2."""
    named = [each.strip().removeprefix("W/") for each in if_none_match.split(",")]
    return "*" in named or tag.removeprefix("W/") in named
