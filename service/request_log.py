"""Around every request: its id, one line in the log, and an end for faults that were already answered.

The line names the route, never the address, which may hold what somebody looks for; and what came of the request in
one word (plan, conflict, the code of a problem), never anything of its body.
"""

import logging
import re
import time
import uuid

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.metrics import Metrics
from service.stages import Stages

#: The header that an id comes in and goes out by, and which ids are taken: no more than is safe to repeat.
REQUEST_ID = "X-Request-ID"
_ID = re.compile(r"[A-Za-z0-9._-]{1,100}")

#: W3C Trace Context (Recommendation of 2021), section 3.2: version, trace id, parent id and flags, in hexadecimal.
_TRACEPARENT = re.compile(r"[0-9a-f]{2}-(?!0{32})([0-9a-f]{32})-[0-9a-f]{16}-[0-9a-f]{2}")

#: RFC 9110, section 9, and RFC 5789. Any other is a word that the caller chose.
METHODS = frozenset({"GET", "HEAD", "POST", "PUT", "DELETE", "CONNECT", "OPTIONS", "TRACE", "PATCH"})

_log = logging.getLogger("larderline.requests")


class RequestLog:
    """Pure ASGI; the outermost layer, so that it sees every answer, a fault's too."""

    def __init__(self, app: ASGIApp, metrics: Metrics | None = None) -> None:
        self._app = app
        self._metrics = metrics or Metrics()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """See ASGI."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        answer = _Answer(request_id_of(Headers(scope=scope)), send)
        scope.setdefault("state", {}).update(request_id=answer.request_id, stages=Stages())
        began = time.perf_counter()
        try:
            await self._app(scope, receive, answer.send)
        except Exception:  # the handler of faults has answered and logged it; let it not reach the server's log too
            if not answer.is_complete:
                raise
        finally:
            _write(scope, answer, time.perf_counter() - began)
            self._metrics.request(answer.status or 0, scope.get("state", {}).get("outcome"))


class _Answer:
    """Passes an answer on with its request id, and remembers its status and size."""

    def __init__(self, request_id: str, send: Send) -> None:
        self.request_id = request_id
        self._send = send
        self.status: int | None = None
        self.size_bytes = 0
        self.is_complete = False

    async def send(self, message: Message) -> None:
        if message["type"] == "http.response.start":
            self.status = message["status"]
            MutableHeaders(scope=message)[REQUEST_ID] = self.request_id
        await self._send(message)
        if message["type"] == "http.response.body":
            self.size_bytes += len(message.get("body", b""))
            self.is_complete = not message.get("more_body", False)


def request_id_of(headers: Headers) -> str:
    """The caller's id when it is one that can be repeated, else its trace id, else a new one."""
    given = headers.get(REQUEST_ID, "")
    if _ID.fullmatch(given):
        return given
    return _trace_id_of(headers) or uuid.uuid4().hex


def _trace_id_of(headers: Headers) -> str | None:
    trace = _TRACEPARENT.fullmatch(headers.get("traceparent", ""))
    return trace[1] if trace else None


def _write(scope: Scope, answer: _Answer, seconds: float) -> None:
    state = scope["state"]
    stages: Stages = state["stages"]
    _log.info(
        "request",
        extra={
            "request_id": answer.request_id,
            "trace_id": state.get("trace_id") or _trace_id_of(Headers(scope=scope)),
            "method": scope["method"] if scope["method"] in METHODS else None,
            "route": getattr(scope.get("route"), "path", None),
            "status": answer.status,
            "outcome": state.get("outcome"),
            "key": state.get("key"),
            "body_bytes": state.get("body_bytes"),
            "milliseconds": round(seconds * 1000, 1),
            "stages_ms": {name: round((end - at) * 1000, 1) for name, at, end in stages.until(time.perf_counter())},
            "size_bytes": answer.size_bytes,
        },
    )
