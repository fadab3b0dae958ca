"""Taking in a request body: JSON only, of limited size, within limited time, and strictly read.

Routes that use `strict_json_route` declare their body as usual, so that it is documented as usual; only the way
from bytes to the document is ours.
"""

from collections.abc import Callable, Coroutine
from http import HTTPStatus
from typing import Any

import anyio
from fastapi import Request, Response
from fastapi.routing import APIRoute
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect

from service.body import read_json
from service.settings import Settings


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


def strict_json_route(settings: Settings) -> type[APIRoute]:
    """A kind of route that reads its body by `read_json` within the limits of `settings`."""

    class StrictJsonRoute(APIRoute):
        def get_route_handler(self) -> Callable[[Request], Coroutine[Any, Any, Response]]:
            handle = super().get_route_handler()

            async def read_then_handle(request: Request) -> Response:
                _refuse_other_types(request)
                raw = await _read(request, settings)
                return await handle(_ReadRequest(request, raw, read_json(raw)))

            return read_then_handle

    return StrictJsonRoute


def _refuse_other_types(request: Request) -> None:
    media_type = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    main, _, kind = media_type.partition("/")
    if main != "application" or not (kind == "json" or kind.endswith("+json")):
        raise HTTPException(HTTPStatus.UNSUPPORTED_MEDIA_TYPE, "Send the brief with Content-Type: application/json.")


async def _read(request: Request, settings: Settings) -> bytes:
    try:
        with anyio.fail_after(settings.body_deadline_s):
            return await _read_up_to(settings.body_limit_bytes, request)
    except TimeoutError:
        raise HTTPException(HTTPStatus.REQUEST_TIMEOUT, "The body did not come in time.") from None
    except ClientDisconnect:
        raise HTTPException(HTTPStatus.BAD_REQUEST, "The client left before its body was complete.") from None


async def _read_up_to(limit_bytes: int, request: Request) -> bytes:
    declared = request.headers.get("content-length", "0")
    raw = bytearray()
    too_large = HTTPException(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, f"A body may have {limit_bytes} bytes at most.")
    if declared.isdecimal() and int(declared) > limit_bytes:
        raise too_large
    async for chunk in request.stream():
        raw += chunk
        if len(raw) > limit_bytes:
            raise too_large
    return bytes(raw)
