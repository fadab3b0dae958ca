"""Which exception becomes which problem document. One place; no route answers a refusal by itself."""

import logging
import uuid
from collections.abc import Mapping
from types import MappingProxyType

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException

from service.body import UnreadableBody
from service.capacity import Busy
from service.problems import by_status, unreadable, unusable
from service.schemas.problem import MEDIA_TYPE, ProblemDocument
from service.validation import problems_of
from solver.errors import UnusableBrief

_log = logging.getLogger("larderline")

#: What the router says, and what helps.
_DETAILS: Mapping[str, str] = MappingProxyType(
    {
        "Not Found": "There is nothing at this address; /docs shows what there is.",
        "Method Not Allowed": "This address takes other methods; see the Allow header.",
    }
)


def install(app: FastAPI) -> None:
    """Make `app` answer every refusal and every fault with a problem document."""
    app.exception_handler(UnusableBrief)(_unusable_brief)
    app.exception_handler(RequestValidationError)(_refused_by_schema)
    app.exception_handler(UnreadableBody)(_unreadable_body)
    app.exception_handler(Busy)(_busy)
    app.exception_handler(HTTPException)(_http_error)
    app.exception_handler(Exception)(_our_fault)


async def _unusable_brief(_: Request, error: UnusableBrief) -> Response:
    return _response(unusable(error.problems))


async def _refused_by_schema(_: Request, error: RequestValidationError) -> Response:
    inside_the_body = [{**each, "loc": each["loc"][1:]} for each in error.errors()]
    return _response(unusable(problems_of(inside_the_body, error.body)))


async def _unreadable_body(_: Request, error: UnreadableBody) -> Response:
    return _response(unreadable(error.problem))


async def _busy(_: Request, error: Busy) -> Response:
    document = by_status(503, "As many briefs are being solved and waiting as there are places for.")
    return _response(document, {"Retry-After": str(error.retry_after_s)})


async def _http_error(_: Request, error: HTTPException) -> Response:
    detail = _DETAILS.get(error.detail, error.detail)
    return _response(by_status(error.status_code, detail), error.headers)


async def _our_fault(_: Request, error: Exception) -> Response:
    """Nothing of the exception goes out; the log has it, under the same id."""
    instance = uuid.uuid4().urn
    _log.error("fault %s: %s", instance, type(error).__name__)
    return _response(by_status(500, "The fault is ours; the log knows it by `instance`.", instance))


def _response(document: ProblemDocument, headers: Mapping[str, str] | None = None) -> Response:
    content = document.model_dump_json(exclude_none=True)
    return Response(content, status_code=document.status, headers=headers, media_type=MEDIA_TYPE)
