"""Which exception becomes which problem document. One place; no route answers a refusal by itself."""

import logging
import uuid
from collections.abc import Mapping
from types import MappingProxyType

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException

from service.body import UnreadableBody
from service.departure import ClientLeft
from service.lanes import Busy
from service.logs import frames_of
from service.problems import UnknownFoodError, by_status, unknown_food, unreadable, unusable
from service.schemas.problem import MEDIA_TYPE, ProblemDocument
from service.settings import variable
from service.validation import problems_of
from service.work.refusals import WorkRefused
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
    app.exception_handler(WorkRefused)(_work_refused)
    app.exception_handler(ClientLeft)(_client_left)
    app.exception_handler(UnknownFoodError)(_unknown_food)
    app.exception_handler(HTTPException)(_http_error)
    app.exception_handler(Exception)(_our_fault)


async def _unusable_brief(request: Request, error: UnusableBrief) -> Response:
    return _response(request, unusable(error.problems))


async def _refused_by_schema(request: Request, error: RequestValidationError) -> Response:
    """The place of each error begins with where it was found: the body, or a parameter of the address."""
    errors = error.errors()
    parameters = [None if each["loc"][0] == "body" else str(each["loc"][1]) for each in errors]
    inside = [{**each, "loc": each["loc"][1:] if each["loc"][0] == "body" else ()} for each in errors]
    return _response(request, unusable(problems_of(inside, error.body), parameters))


async def _unreadable_body(request: Request, error: UnreadableBody) -> Response:
    return _response(request, unreadable(error.problem))


async def _unknown_food(request: Request, error: UnknownFoodError) -> Response:
    return _response(request, unknown_food(error))


async def _busy(request: Request, error: Busy) -> Response:
    return _response(request, _every_place_is_taken(), {"Retry-After": str(error.retry_after_s)})


async def _work_refused(request: Request, error: WorkRefused) -> Response:
    return _response(request, error.document, error.headers)


async def _client_left(request: Request, _: ClientLeft) -> Response:
    """Nobody reads it; the log's line about the request does."""
    return _response(request, by_status(400, "The client left before its answer was ready."))


async def _http_error(request: Request, error: HTTPException) -> Response:
    detail = _DETAILS.get(error.detail, error.detail)
    return _response(request, by_status(error.status_code, detail), error.headers)


async def _our_fault(request: Request, error: Exception) -> Response:
    return _response(request, _fault(error, getattr(request.state, "request_id", None)))


def document_of(error: Exception, request_id: str | None) -> ProblemDocument:
    """What a request that waits for its answer would be told of an error in the work for it. A fault is logged."""
    match error:
        case UnusableBrief():
            return unusable(error.problems)
        case Busy():
            return _every_place_is_taken()
        case _:
            return _fault(error, request_id)


def _every_place_is_taken() -> ProblemDocument:
    places = f"{variable('solves_at_once')} and {variable('solves_waiting')}"
    return by_status(503, f"As many briefs are being solved and waiting as there are places for ({places}).")


def _fault(error: Exception, request_id: str | None) -> ProblemDocument:
    """Nothing of the exception goes out, nor its message into the log: it may hold a brief. The id is in both."""
    instance = uuid.uuid4().urn
    what = {"error": type(error).__name__, "frames": frames_of(error)}
    _log.error("fault", extra={"instance": instance, "request_id": request_id, **what})
    return by_status(500, "The fault is ours; the log knows it by `instance`.", instance)


def _response(request: Request, document: ProblemDocument, headers: Mapping[str, str] | None = None) -> Response:
    request.state.outcome = document.type.rpartition("/")[2]  # for the log's line about this request
    content = document.model_dump_json(exclude_none=True)
    return Response(content, status_code=document.status, headers=headers, media_type=MEDIA_TYPE)
