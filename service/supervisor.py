"""Several workers on one socket, and the process that starts them, replaces those that die, and ends them."""

import logging
import logging.config
import multiprocessing
import os
import signal
import socket
import sys
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from multiprocessing.connection import Connection, wait
from multiprocessing.context import SpawnProcess
from multiprocessing.reduction import DupFd
from pathlib import Path
from typing import Protocol

from service import logs
from service.memory import share_heaps
from service.metrics import Metrics, shared_memory
from service.settings import Settings

#: Seconds between two looks at the workers, and after which one that died is replaced.
_LOOK_EVERY_S = 0.2

#: Seconds past the grace after which a worker is killed.
_KILLED_AFTER_S = 5.0

_log = logging.getLogger("larderline")


class _Descriptor(Protocol):
    """A file descriptor on its way into another process."""

    def detach(self) -> int:
        """The descriptor, there."""


@dataclass(slots=True)
class _Held:
    """A worker. ready: reads once it answers. life: closed with this process, so that no worker outlives it."""

    process: SpawnProcess
    ready: Connection
    life: Connection
    has_been_ready: bool = False


def supervise(settings: Settings, host: str, port: int, work: Path | None = None) -> bool:
    """Keep `settings.workers` workers answering until the process is told to stop. Says if they started.

    work: the folder where they keep what is asked for later; None where nothing can be.
    """
    logging.config.dictConfig(dict(logs.CONFIG))
    try:
        listener = socket.create_server((host, port), family=_family(host), backlog=2048)
    except OSError as error:
        _log.error("cannot listen: %s", (error.strerror or "").lower())
        return False
    told = threading.Event()
    for each in (signal.SIGTERM, signal.SIGINT):
        signal.signal(each, lambda _, __: told.set())
    memory = shared_memory(settings.workers)
    start = partial(_start, settings, listener, memory, work)
    workers = [start(row) for row in range(settings.workers)]
    try:
        return _keep(workers, start, listener, told)
    finally:
        _end(workers, settings)
        listener.close()


def _family(host: str) -> socket.AddressFamily:
    return socket.AF_INET6 if ":" in host else socket.AF_INET


def _keep(workers: list[_Held], start: Callable[[int], _Held], listener: socket.socket, told: threading.Event) -> bool:
    said = False
    while not told.is_set():
        wait([worker.process.sentinel for worker in workers], _LOOK_EVERY_S)
        for place, worker in enumerate(workers):
            worker.has_been_ready = worker.has_been_ready or worker.ready.poll()
            if worker.process.exitcode is None or told.is_set():
                continue
            if not worker.has_been_ready and not said:
                return False  # the others would fail in the same way
            _log.error("worker died", extra={"pid": worker.process.pid, "status": worker.process.exitcode})
            time.sleep(_LOOK_EVERY_S)
            workers[place] = start(place)
        if not said and all(worker.has_been_ready for worker in workers):
            said = True
            address, port = listener.getsockname()[:2]
            name = f"[{address}]" if ":" in address else address
            _log.info("running on http://%s:%d with %d workers", name, port, len(workers))
    return True


def _start(settings: Settings, listener: socket.socket, memory: int | None, work: Path | None, row: int) -> _Held:
    context = multiprocessing.get_context("spawn")  # a fork would take the threads' locks along
    ready, answers = context.Pipe(duplex=False)
    ends, life = context.Pipe(duplex=False)
    counts: _Descriptor | None = None if memory is None else DupFd(memory)
    process = context.Process(target=_work, args=(_Given(settings, listener, answers, ends, counts, row, work),))
    process.start()
    answers.close()
    ends.close()
    return _Held(process, ready, life)


def _end(workers: list[_Held], settings: Settings) -> None:
    from service.worker import grace_of  # noqa: PLC0415  the supervisor itself needs no web framework

    running = [worker for worker in workers if worker.process.exitcode is None]
    for worker in running:
        worker.process.terminate()
    ends = time.monotonic() + grace_of(settings) + _KILLED_AFTER_S
    for worker in running:
        worker.process.join(max(0.0, ends - time.monotonic()))
        worker.process.kill()


@dataclass(frozen=True, slots=True)
class _Given:
    """What a worker is given. answers: takes a word once it answers. ends: closed with the supervisor.

    counts: of the memory that counts are shared in, a descriptor; None where there is none. row: its own in there.
    work: the folder that is shared; None where there is none.
    """

    settings: Settings
    listener: socket.socket
    answers: Connection
    ends: Connection
    counts: _Descriptor | None
    row: int
    work: Path | None

    def metrics(self) -> Metrics:
        """The counts, shared where they can be."""
        return Metrics(self.counts.detach(), self.row, self.settings.workers) if self.counts else Metrics()


def _work(given: _Given) -> None:
    """What a worker does, in a process of its own."""
    from service.app import create_app  # noqa: PLC0415  in the worker alone
    from service.server import quick_switches  # noqa: PLC0415
    from service.worker import worker_of  # noqa: PLC0415

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # a terminal sends it to all; the supervisor tells each once
    signal.signal(signal.SIGTERM, lambda _, __: sys.exit(0))
    quick_switches()
    share_heaps()
    worker = worker_of(create_app(given.settings, metrics=given.metrics(), work=given.work), given.settings, "", 0)
    threading.Thread(target=_end_with, args=(given.ends,), daemon=True).start()
    threading.Thread(target=_say_ready, args=(worker, given.answers), daemon=True).start()
    worker.run(sockets=[given.listener])


def _end_with(supervisor: Connection) -> None:
    try:
        supervisor.recv()
    except (EOFError, OSError):
        os.kill(os.getpid(), signal.SIGTERM)


def _say_ready(worker: object, answers: Connection) -> None:
    while not getattr(worker, "started", False):
        time.sleep(0.01)
    answers.send("ready")
