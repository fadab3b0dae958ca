"""Taking in a request body: JSON only, of limited size, within limited time, and strictly read.

Routes that use `strict_json_route` declare their body as usual, so that it is documented as usual; only the way
from bytes to the document is ours.
"""

from collections.abc import Callable, Coroutine
from email.message import Message
from http import HTTPStatus
from typing import Any

import anyio
from fastapi import Request, Response
from fastapi.routing import APIRoute
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect

from service.arrival import note_arrival
from service.body import read_json
from service.capacity import Capacity
from service.settings import Settings, variable
from service.weight import guess

#: Names of the one character encoding that JSON has between systems (RFC 8259, section 8.1), and of its subset.
_UTF_8 = frozenset({"utf-8", "utf8", "us-ascii"})

#: Digits of a Content-Length that is looked at beforehand; of a longer one the body is counted as it comes.
_LONGEST_LENGTH = 15


class _ReadRequest(Request):
    """A request whose body has been read."""

    def __init__(self, request: Request, raw: bytes, document: object) -> None:
        super().__init__(request.scope, request.receive)
        self._raw, self._document = raw, document

    async def body(self) -> bytes:
        """The bytes as they came."""
        return self._raw

    async def json(self) -> object:
        """The document in them."""
        return self._document


def strict_json_route(settings: Settings, capacity: Capacity) -> type[APIRoute]:
    """A kind of route that reads its body by `read_json` within the limits of `settings`.

    capacity: when it has no place for such a body, it is sent away before anything is spent on reading it.
    """

    class StrictJsonRoute(APIRoute):
        def get_route_handler(self) -> Callable[[Request], Coroutine[Any, Any, Response]]:
            handle = super().get_route_handler()

            async def read_then_handle(request: Request) -> Response:
                _refuse_other_types(request)
                raw = await _read(request, settings)
                note_arrival(request)
                request.state.body_bytes = len(raw)
                capacity.refuse_if_full(guess(raw))
                document = read_json(raw, depth_limit=settings.depth_limit, values_limit=settings.values_limit)
                return await handle(_ReadRequest(request, raw, document))

            return read_then_handle

    return StrictJsonRoute


def _refuse_other_types(request: Request) -> None:
    declared = Message()
    declared["Content-Type"] = request.headers.get("content-type", "")
    main, kind = declared.get_content_maintype(), declared.get_content_subtype()
    if main != "application" or not (kind == "json" or kind.endswith("+json")):
        raise HTTPException(HTTPStatus.UNSUPPORTED_MEDIA_TYPE, "Send the brief with Content-Type: application/json.")
    if declared.get_content_charset("utf-8") not in _UTF_8:
        raise HTTPException(HTTPStatus.UNSUPPORTED_MEDIA_TYPE, "Send the brief in UTF-8, the only encoding of JSON.")
    if request.headers.get("content-encoding", "identity").strip().lower() != "identity":
        # RFC 9110, section 15.5.16: the same status for a content coding, and Accept-Encoding says which one it is.
        detail, headers = "Send the brief without compression.", {"Accept-Encoding": "identity"}
        raise HTTPException(HTTPStatus.UNSUPPORTED_MEDIA_TYPE, detail, headers)


async def _read(request: Request, settings: Settings) -> bytes:
    try:
        with anyio.fail_after(settings.body_deadline_s):
            return await _read_up_to(settings.body_limit_bytes, request)
    except TimeoutError:
        late = f"The body did not come within {settings.body_deadline_s:g} s ({variable('body_deadline_s')})."
        raise HTTPException(HTTPStatus.REQUEST_TIMEOUT, late) from None
    except ClientDisconnect:
        raise HTTPException(HTTPStatus.BAD_REQUEST, "The client left before its body was complete.") from None


async def _read_up_to(limit_bytes: int, request: Request) -> bytes:
    detail = f"A body may have {limit_bytes} bytes at most ({variable('body_limit_bytes')})."
    too_large = HTTPException(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, detail)
    declared = request.headers.get("content-length", "0")
    if declared.isdecimal() and len(declared) <= _LONGEST_LENGTH and int(declared) > limit_bytes:
        raise too_large
    raw = bytearray()
    async for chunk in request.stream():
        raw += chunk
        if len(raw) > limit_bytes:
            raise too_large
    return bytes(raw)
