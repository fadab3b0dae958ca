"""Work that goes on after its request was answered: in the same lanes as any other, and under the same deadlines.

Whoever took it on works on it. Four times a second it tells the store how far it is, which is its sign of life as well,
and reads there what nobody wants any more.
"""

import asyncio
import logging
import time
from collections.abc import Callable, Coroutine
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from functools import partial
from http import HTTPStatus
from pathlib import Path
from typing import Any, TypeVar

from service.capacity import Capacity
from service.cards.formats import Carded
from service.handlers import document_of
from service.metrics import OUTCOMES, Metrics
from service.settings import Settings
from service.work.job import Job
from service.work.kept import as_json
from service.work.refusals import WorkRefused, work_lost
from service.work.running import Running
from service.work.store import Store
from solver.backends.stop import Stop

_Result = TypeVar("_Result")

#: Seconds between two times that the store is told.
TICK_S = 0.25

#: Seconds after the last work that a worker which is told to stop still shows its answer; who polls asks once in one.
_SHOWN_FOR_S = 2.0

_log = logging.getLogger("larderline")


class Runner:
    """The work of one worker. folder: where all of them keep what is asked for later; None where nothing can be."""

    def __init__(self, settings: Settings, metrics: Metrics, folder: Path | None = None) -> None:
        self.store, self.capacity = Store(folder, settings), Capacity(settings, metrics)
        self._metrics, self._kept_s = metrics, settings.work_kept_s
        self._running: dict[str, Running] = {}
        self._tasks: set[asyncio.Task[None]] = set()
        self._teller: asyncio.Task[None] | None = None
        self._thread = ThreadPoolExecutor(1, "work")
        self._last_ended_s = float("-inf")

    @property
    def is_closing(self) -> bool:
        """Whether the worker is about to end, and nothing of its own is left to be followed."""
        return self.capacity.is_closed and not self.lingers

    @property
    def lingers(self) -> bool:
        """Whether something goes on here, or ended only just now, so that its answer was hardly seen."""
        return bool(self._running) or time.monotonic() < self._last_ended_s + _SHOWN_FOR_S

    async def now(self, job: Job, stop: Stop) -> Carded:
        """The answer to a client that waits for it, which no store needs to know of. Raises what the work raises."""
        return await self.capacity.run(partial(job.work, stop, None), job.deadline, job.lane)

    async def asked(self, ask: Callable[[], _Result]) -> _Result:
        """What the store says, without keeping the event loop waiting for a disk."""
        return await asyncio.get_running_loop().run_in_executor(self._thread, ask)

    async def begin(self, job: Job, owner: str, request_id: str | None) -> Running:
        """Take a job on. Raises Busy and WorkRefused when there is no place for it."""
        self.capacity.refuse_if_full(job.lane)
        running = Running(job, owner, request_id)
        await self.asked(partial(self.store.add, running.id, owner, job.kind))
        self._running[running.id] = running
        self._keep(self._run(running))
        if self._teller is None or self._teller.done():
            self._teller = asyncio.create_task(self._tell())
        return running

    async def forget(self, running: Running) -> None:
        """Nobody was told of it, and nobody will ask."""
        running.end()
        with suppress(WorkRefused):
            await self.asked(partial(self.store.drop, running.id))

    async def cancel(self, work_id: str, owner: str) -> None:
        """Nobody wants it any more. Whichever worker has it reads so within a tick. Raises WorkRefused as `find`."""
        await self.asked(partial(self.store.cancel, work_id, owner))
        if work_id in self._running:
            self._running[work_id].end()

    def give_up(self) -> None:
        """The process ends: what goes on here has failed."""
        for work_id in self._running:
            lost = work_lost().document
            with suppress(WorkRefused):
                self.store.end(work_id, lost.status, as_json(lost))

    def close(self) -> None:
        """Nothing goes on, and nobody asks any more."""
        self._thread.shutdown()
        self.store.close()

    def _keep(self, coroutine: Coroutine[Any, Any, None]) -> None:
        task = asyncio.create_task(coroutine)
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)

    async def _run(self, running: Running) -> None:
        job = running.job
        try:
            with running.scope:
                running.answer = await self.capacity.run(partial(self._worked, running), job.deadline, job.lane)
        except Exception as error:  # noqa: BLE001  whatever it is, it is told where the answer would be
            running.error = error
        try:
            await self._write_down(running)
        finally:
            self._last_ended_s = time.monotonic()
            del self._running[running.id]
            running.has_ended.set()

    def _worked(self, running: Running) -> Carded:
        """In a thread of the lane, from when it has a place there."""
        with suppress(WorkRefused):
            self.store.begin(running.id)
        return running.job.work(running.stop, running.latest.look)

    async def _write_down(self, running: Running) -> None:
        """What it ended with; a cancelled one is written down already."""
        outcome, status, content = "cancelled", 0, b""
        if running.answer is not None:
            outcome, status = str(getattr(running.answer, "outcome", running.job.kind)), HTTPStatus.OK.value
            content = running.answer.model_dump_json().encode()
        elif running.error is not None:
            document = document_of(running.error, running.request_id)
            outcome, status, content = document.type.rpartition("/")[2], document.status, as_json(document)
        _log.info("work", extra={**running.named, "outcome": outcome})
        if running.is_followed and outcome in OUTCOMES:
            self._metrics.add("outcomes", outcome)
        if status:
            with suppress(WorkRefused):
                await self.asked(partial(self.store.end, running.id, status, content))
            asyncio.get_running_loop().call_later(self._kept_s + 1, self._thread.submit, self._settle)

    def _settle(self) -> None:
        with suppress(WorkRefused):
            self.store.settle()

    async def _tell(self) -> None:
        """For as long as anything goes on."""
        while self._running:
            await asyncio.sleep(TICK_S)
            with suppress(WorkRefused):  # whoever follows it sees that it is no longer told of
                for work_id in await self.asked(partial(self._told, tuple(self._running.values()))):
                    if work_id in self._running:
                        self._running[work_id].end()

    def _told(self, running: tuple[Running, ...]) -> frozenset[str]:
        return self.store.tell({each.id: each.news() for each in running})
