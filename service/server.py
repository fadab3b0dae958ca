"""The service: embedded data, one solver, no other component. Logs go to standard error."""

import signal
import sys
from contextlib import suppress
from pathlib import Path
from types import FrameType

from service.app import create_app
from service.keys import refuse_to_stand_open
from service.memory import share_heaps
from service.settings import Settings
from service.supervisor import supervise
from service.work.folder import work_folder
from service.worker import worker_of

#: Seconds after which a thread that solves gives the interpreter to one that waits for it. A tenth of Python's own:
#: each exchange with a socket may have to wait so long, and there are several in one answer.
_SWITCH_EVERY_S = 0.0005


def quick_switches() -> None:
    """Let the event loop have its turn soon, however many solves go on."""
    sys.setswitchinterval(_SWITCH_EVERY_S)


def serve(settings: Settings, host: str, port: int) -> bool:
    """Answer requests until the process is told to stop; solves under way are finished first. Says if it started.

    Raises KeysError when it would be open to other machines and nobody said that it may.
    A process that stops because it was told to, by SIGTERM or SIGINT, ends with exit status 0.
    """
    refuse_to_stand_open(settings, host)
    with work_folder(settings.work_folder) as work:
        if settings.workers > 1:
            return supervise(settings, host, port, work)
        return _serve_alone(settings, host, port, work)


def _serve_alone(settings: Settings, host: str, port: int, work: Path | None) -> bool:
    signal.signal(signal.SIGTERM, _end)
    quick_switches()
    share_heaps()
    worker = worker_of(create_app(settings, work=work), settings, host, port)
    with suppress(KeyboardInterrupt):  # SIGINT, raised again after the server has drained
        try:
            worker.run()
        except SystemExit:  # how the server says that it could not start; the log says why
            if worker.started:
                raise
    return worker.started


def _end(_: int, __: FrameType | None) -> None:
    """The server takes the signal while it runs, drains, and raises it again for whoever had it before: this."""
    sys.exit(0)
