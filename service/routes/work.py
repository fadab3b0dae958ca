"""/v1/work/{id}: work that goes on after its request was answered, followed, fetched and cancelled."""

import re
from collections.abc import Mapping
from functools import partial
from typing import Annotated, Any

from fastapi import APIRouter, Header, Path, Request, Response
from pydantic import TypeAdapter
from starlette.exceptions import HTTPException
from starlette.responses import StreamingResponse

from service.cards.formats import Carded
from service.negotiation import acceptable
from service.represented import REPRESENTATIONS, InWrittenForm, Wanted
from service.schemas.answer import Answer
from service.schemas.problem import MEDIA_TYPE as PROBLEM
from service.schemas.problem import ProblemDocument
from service.schemas.reach import ReachAnswer
from service.schemas.rework import ReworkAnswer
from service.schemas.work import WorkAnswer
from service.work.answered import owner_of
from service.work.examples import EVENTS
from service.work.follow import MEDIA_TYPE, Followers, seen_before
from service.work.kept import Kept, Kind, as_sent
from service.work.refusals import SOON_S, unknown_work, work_not_done
from service.work.run import Runner

#: What was true a moment ago is of no use, and an answer is its owner's; RFC 9111, section 5.2.2.5.
_NEVER_KEPT = {"Cache-Control": "no-store"}

_ID = re.compile(r"[A-Za-z0-9_-]{22}")

_JSON, _EVENTS = "json", "events"
_OFFERED = (("application/json", _JSON), (MEDIA_TYPE, _EVENTS))

_WorkId = Annotated[str, Path(description="From the 202.", examples=["Zm9sbG93LXRoZS13b3JrIQ"])]
_LastEventId = Annotated[
    str, Header(alias="Last-Event-ID", description="Of the last event that was seen; those after it follow.")
]

_ANSWERS: dict[Kind, TypeAdapter[Carded]] = {
    "plan": TypeAdapter(Answer),
    "rework": TypeAdapter(ReworkAnswer),
    "reach": TypeAdapter(ReachAnswer),
}


def _refusals(texts: Mapping[int, str]) -> dict[int | str, dict[str, Any]]:
    return {status: {"model": ProblemDocument, "description": text} for status, text in texts.items()}


_UNKNOWN = "No work has this id, or another key asked for it."
_GONE = "It was cancelled, or its answer was kept as long as answers are."
_NOT_KEPT = "The disk does not give what was kept, or too many follow their work as events."
_LOST = "The work did not come to its end, or the disk does not give what was kept."
_NO_FORM = "Accept allows neither JSON nor events."
_NO_CARD = "Accept allows none of the forms that answers have."
_CANCEL_REFUSALS = _refusals({404: _UNKNOWN, 410: _GONE, 503: _NOT_KEPT})


def work_router(runner: Runner, followers: Followers) -> APIRouter:
    """The routes, over the work of this worker and of all others."""
    router = APIRouter(prefix="/v1/work", tags=["work"])

    @router.get(
        "/{work_id}",
        summary="How far is it?",
        response_model=WorkAnswer,
        responses={
            200: {"content": {MEDIA_TYPE: {"schema": {"type": "string"}, "example": EVENTS}}},
            204: {"description": "It ended, and its last event was seen: there is nothing to come again for."},
            **_refusals({404: _UNKNOWN, 406: _NO_FORM, 410: _GONE, 503: _NOT_KEPT}),
        },
    )
    async def show_work(work_id: _WorkId, request: Request, last_event_id: _LastEventId = "") -> Response:
        """Its state and the best so far. With `Accept: text/event-stream` as events, until it ended.

        Each event is the same document: `progress` while it goes on, then `done`, `failed` or `cancelled`.
        """
        form = acceptable(request.headers.get("accept", ""), _OFFERED)
        if form is None:
            raise HTTPException(406, f"Work is shown as {' or '.join(kind for kind, _ in _OFFERED)}.")
        kept = await runner.asked(partial(runner.store.find, _sound(work_id), owner_of(request)))
        return _as_it_is(kept, runner) if form == _JSON else _as_events(kept, request, last_event_id, followers)

    @router.get(
        "/{work_id}/answer",
        summary="The answer of work that is done",
        response_model=Answer | ReworkAnswer | ReachAnswer,
        responses={
            **REPRESENTATIONS,
            **_refusals({404: _UNKNOWN, 406: _NO_CARD, 409: "There is no answer yet.", 410: _GONE}),
            **_refusals({422: "The brief could not be used as it was.", 500: "A fault ended the work.", 503: _LOST}),
        },
    )
    async def fetch_answer(work_id: _WorkId, request: Request, wanted: InWrittenForm) -> Response:
        """What a request that waits for it is answered with, in the same forms. Where it failed, why it did."""
        kept = await runner.asked(partial(runner.store.find, _sound(work_id), owner_of(request)))
        if kept.state.is_active:
            raise work_not_done()
        return await _what_it_ended_with(kept, wanted)

    @router.delete("/{work_id}", summary="Cancel it", status_code=204, responses=_CANCEL_REFUSALS)
    async def cancel_work(work_id: _WorkId, request: Request) -> None:
        """It stops, wherever it goes on, and its answer is gone."""
        await runner.cancel(_sound(work_id), owner_of(request))

    return router


def _as_it_is(kept: Kept, runner: Runner) -> Response:
    again = {"Retry-After": str(SOON_S)} if kept.state.is_active else {}
    told = as_sent(runner.store.told(kept))
    return Response(told, 200, {**_NEVER_KEPT, **again, "Vary": "Accept"}, "application/json")


def _as_events(kept: Kept, request: Request, last_event_id: str, followers: Followers) -> Response:
    """A client that has seen the end is told not to come again: 204 (WHATWG HTML, section 9.2.1)."""
    seen = seen_before(last_event_id, kept)
    headers = {**_NEVER_KEPT, "Vary": "Accept"}
    if not kept.state.is_active and seen == kept.version:
        return Response(status_code=204, headers=headers)
    followers.refuse_if_full()
    if getattr(request.state, "is_head", False):
        return Response(headers=headers, media_type=MEDIA_TYPE)
    headers["X-Accel-Buffering"] = "no"  # some proxies would else wait for more before they pass anything on
    events = followers.events(kept.id, owner_of(request), seen)
    return StreamingResponse(events, headers=headers, media_type=MEDIA_TYPE)


async def _what_it_ended_with(kept: Kept, wanted: Wanted) -> Response:
    if not kept.is_answer:
        return Response(kept.document, kept.status or 500, _NEVER_KEPT, PROBLEM)
    if wanted.form != _JSON:
        written = await wanted.of(_ANSWERS[kept.kind].validate_json(kept.document))
        if isinstance(written, Response):
            written.headers.update(_NEVER_KEPT)
            return written
    return Response(kept.document, 200, {**_NEVER_KEPT, "Vary": "Accept"}, "application/json")


def _sound(work_id: str) -> str:
    """The id, when it may be one. Raises WorkRefused."""
    if _ID.fullmatch(work_id) is None:
        raise unknown_work()
    return work_id
