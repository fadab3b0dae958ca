"""The service in one process: embedded data, one solver, no other component. Logs go to standard error."""

import signal
import sys
from contextlib import suppress
from types import FrameType

import uvicorn

from service import logs
from service.app import create_app
from service.settings import Settings

#: Seconds after the longest solve that a stopping service still gives to answers under way.
_GRACE_S = 5


def serve(settings: Settings, host: str, port: int) -> bool:
    """Answer requests until the process is told to stop; solves under way are finished first. Says if it started.

    A process that stops because it was told to, by SIGTERM or SIGINT, ends with exit status 0.
    """
    signal.signal(signal.SIGTERM, _end)
    server = uvicorn.Server(
        uvicorn.Config(
            create_app(settings),
            host=host,
            port=port,
            log_config=dict(logs.CONFIG),
            access_log=False,
            timeout_graceful_shutdown=round(settings.time_limit_ceiling_s) + _GRACE_S,
            server_header=False,
        )
    )
    with suppress(KeyboardInterrupt):  # SIGINT, raised again after the server has drained
        try:
            server.run()
        except SystemExit:  # how the server says that it could not start; the log says why
            if server.started:
                raise
    return server.started


def _end(_: int, __: FrameType | None) -> None:
    """The server takes the signal while it runs, drains, and raises it again for whoever had it before: this."""
    sys.exit(0)
