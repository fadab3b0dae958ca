"""Answering a request for work: with the answer, or with 202 and where the work can be followed (RFC 7240)."""

import asyncio
from dataclasses import replace
from functools import partial
from typing import Any

from fastapi import Request, Response

from service.cards.formats import Carded
from service.departure import ClientLeft, unless_the_client_leaves
from service.preference import Preference
from service.represented import Wanted
from service.schemas.work import WorkAnswer
from service.stages import stages_of
from service.work.job import Job
from service.work.kept import address_of, as_sent
from service.work.refusals import SOON_S
from service.work.run import Runner
from service.work.running import Running
from solver.backends.stop import Stop

#: For the contract: what a request that prefers not to wait is answered with.
ACCEPTED: dict[int | str, dict[str, Any]] = {
    202: {
        "model": WorkAnswer,
        "description": "Taken on, as `Prefer: respond-async` asks for: `Location` leads to where it can be followed.",
        "headers": {
            "Location": {"schema": {"type": "string"}, "description": "Of the work, from the root of the service."},
            "Preference-Applied": {"schema": {"type": "string"}, "description": "Always `respond-async`."},
            "Retry-After": {"schema": {"type": "integer"}, "description": "When to ask for it, s."},
        },
    }
}


def owner_of(request: Request) -> str:
    """The name of the key that asks; empty where the service has no keys."""
    return str(getattr(request.state, "key", None) or "")


async def answered(
    request: Request, job: Job, wanted: Wanted, preference: Preference, runner: Runner
) -> Carded | Response:
    """The answer in the form that is wanted, or 202. Raises what the work raises, Busy, ClientLeft and WorkRefused."""
    if not preference.respond_async:
        stop = Stop()
        work = partial(runner.now, replace(job, work=stages_of(request).around(job.work)), stop)
        return await _shown(request, await unless_the_client_leaves(request.receive, work, stop.set), wanted)
    stages_of(request).begin("follow")
    running = await runner.begin(job, owner_of(request), getattr(request.state, "request_id", None))
    if preference.wait_s > 0:
        await _wait(request, running, preference.wait_s, runner)
    if preference.wait_s > 0 and running.has_ended.is_set():
        await runner.forget(running)
        if running.error is not None:
            raise running.error
        if running.answer is not None:
            return await _shown(request, running.answer, wanted)
    running.is_followed = True
    return await _accepted(running, runner)


async def _shown(request: Request, answer: Carded, wanted: Wanted) -> Carded | Response:
    request.state.outcome = getattr(answer, "outcome", None)  # for the log's line about this request
    return await wanted.of(answer)


async def _wait(request: Request, running: Running, seconds: float, runner: Runner) -> None:
    """Until it ended, or so long. Who leaves meanwhile was told no id, so nobody can follow it."""

    async def until_it_ended() -> None:
        await asyncio.wait({asyncio.ensure_future(running.has_ended.wait())}, timeout=seconds)

    try:
        await unless_the_client_leaves(request.receive, until_it_ended, running.end)
    except ClientLeft:
        await runner.forget(running)
        raise


async def _accepted(running: Running, runner: Runner) -> Response:
    kept = await runner.asked(partial(runner.store.find, running.id, running.owner))
    headers = {
        "Location": address_of(running.id),
        "Preference-Applied": "respond-async",
        "Retry-After": str(SOON_S),
        "Vary": "Prefer",
    }
    return Response(as_sent(runner.store.told(kept)), 202, headers, "application/json")
