"""Following work as server-sent events (WHATWG HTML, section 9.2): what is new, until it ended.

The store is asked as often as it is told, so it does not matter which worker does the work.
"""

import asyncio
import time
from collections.abc import AsyncIterator
from functools import partial

from service.schemas.work import WorkAnswer
from service.work.kept import Kept, as_sent
from service.work.refusals import WorkRefused, too_many_followers
from service.work.run import TICK_S, Runner

MEDIA_TYPE = "text/event-stream"

#: Seconds of silence after which a comment says that somebody is still there.
_SILENCE_S = 5.0

#: Digits of a Last-Event-ID that is looked at.
_LONGEST_ID = 9

#: Milliseconds after which a client that lost its connection comes again; it then says what it saw last.
_AGAIN_MS = 1000


class Followers:
    """Those of one worker, no more than `limit`."""

    def __init__(self, runner: Runner, limit: int) -> None:
        self._runner, self._limit = runner, limit
        self._count = 0

    def refuse_if_full(self) -> None:
        """Raise WorkRefused when there is no place for one more."""
        if self._count >= self._limit:
            raise too_many_followers()

    async def events(self, work_id: str, owner: str, seen: int) -> AsyncIterator[str]:
        """The events after the one that was seen, until the work ended or this worker is about to; -1 for all."""
        self._count += 1
        try:
            yield f"retry: {_AGAIN_MS}\n\n"
            async for text in self._news(work_id, owner, seen):
                yield text
        finally:
            self._count -= 1

    async def _news(self, work_id: str, owner: str, seen: int) -> AsyncIterator[str]:
        said_s = time.monotonic()
        while True:
            try:
                kept, told = await self._runner.asked(partial(self._look, work_id, owner, seen))
            except WorkRefused:  # it expired, or the disk does not give it: who comes again is told why
                return
            if told is not None:
                yield event(kept, told)
                seen, said_s = kept.version, time.monotonic()
            elif time.monotonic() - said_s > _SILENCE_S:
                yield ": still at it\n\n"
                said_s = time.monotonic()
            if not kept.state.is_active or self._runner.is_closing:
                return
            await asyncio.sleep(TICK_S)

    def _look(self, work_id: str, owner: str, seen: int) -> tuple[Kept, WorkAnswer | None]:
        kept = self._runner.store.seen(work_id, owner)
        return kept, self._runner.store.told(kept) if kept.version > seen else None


def event(kept: Kept, told: WorkAnswer) -> str:
    """`progress` while it goes on; at the end the state that it ended in. The id counts its changes."""
    name = "progress" if kept.state.is_active else kept.state.value
    return f"id: {kept.version}\nevent: {name}\ndata: {as_sent(told)}\n\n"


def seen_before(last_event_id: str, kept: Kept) -> int:
    """The number of the event that a client saw last; -1 where it says nothing that was one."""
    if not (last_event_id.isascii() and last_event_id.isdecimal() and len(last_event_id) <= _LONGEST_ID):
        return -1
    return int(last_event_id) if int(last_event_id) <= kept.version else -1
