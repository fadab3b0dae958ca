"""One process that answers requests, from its start to the end of the last answer."""

import asyncio
import logging
import os
import socket
import time

import uvicorn
from fastapi import FastAPI

from service import logs
from service.connections import bounded_connection
from service.memory import give_back, settle
from service.settings import Settings
from service.turns import take_turns
from service.work.run import Runner

#: Seconds after the longest solve that a stopping service still gives to answers under way, unless it is set.
_LONGER_THAN_A_SOLVE_S = 5.0

#: Seconds between two times that free memory goes back to the system; each takes a few milliseconds of a thread.
_GIVE_BACK_EVERY_S = 10

#: Seconds between two looks at whether all is done.
_LOOK_EVERY_S = 0.05

_log = logging.getLogger("larderline")


def grace_of(settings: Settings) -> float:
    """Seconds that what was taken in has, once the service is told to stop."""
    return settings.grace_s or settings.time_limit_ceiling_s + _LONGER_THAN_A_SOLVE_S


class Worker(uvicorn.Server):
    """Ends in two steps: it refuses briefs, says that it is not ready and finishes what it took; then it closes."""

    def __init__(self, config: uvicorn.Config, runner: Runner, grace_s: float) -> None:
        super().__init__(config)
        self._runner, self._capacity, self._grace_s = runner, runner.capacity, grace_s

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Listen; sockets are listened on by other workers as well, so their connections are shared."""
        await super().startup(None if sockets is None else [])
        turns = (take_turns(each, self._connection, self._held) for each in sockets or ())
        self._turns = [asyncio.create_task(each) for each in turns]

    def _connection(self) -> asyncio.Protocol:
        return self.config.http_protocol_class(  # type: ignore[call-arg]
            config=self.config, server_state=self.server_state, app_state=self.lifespan.state
        )

    def _held(self) -> int:
        return len(self.server_state.connections)

    async def main_loop(self) -> None:
        """Until it is told to stop and all is answered, or the grace is over."""
        await super().main_loop()
        self._capacity.close()
        ends = time.monotonic() + self._grace_s
        while self._is_needed and time.monotonic() < ends and not self.force_exit:  # noqa: ASYNC110
            await asyncio.sleep(_LOOK_EVERY_S)

    @property
    def _is_needed(self) -> bool:
        """Whether anybody waits for an answer, or asks soon for one that is hardly there."""
        return bool(self._capacity.under_way) or self._runner.lingers

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Close. A solve that goes on past the grace cannot be stopped, so the process ends under it."""
        overrun = self._capacity.under_way
        self._runner.give_up()
        for each in self._turns:
            each.cancel()
        await super().shutdown(sockets)
        if overrun:
            _log.error("ended with solves under way", extra={"solves": overrun})
            os._exit(0)
        self._runner.close()


async def _give_back() -> None:
    await asyncio.to_thread(give_back)


def worker_of(app: FastAPI, settings: Settings, host: str, port: int) -> Worker:
    """A worker that has not begun."""
    config = uvicorn.Config(
        app,
        host=host,
        port=port,
        http=bounded_connection(settings),
        ws="none",
        log_config=dict(logs.CONFIG),
        access_log=False,
        proxy_headers=False,
        timeout_graceful_shutdown=1,  # what was taken in is answered by then; the rest is refused
        server_header=False,
        callback_notify=_give_back,
        timeout_notify=_GIVE_BACK_EVERY_S,
    )
    settle()
    return Worker(config, app.state.runner, grace_of(settings))
